package org.kilnside.link;

import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import org.kilnside.firing.ControllerReport;
import org.kilnside.protocol.ChannelCodes;
import org.kilnside.protocol.Hello;
import org.kilnside.protocol.LineEncoder;
import org.kilnside.protocol.Message;
import org.kilnside.protocol.ReadingLine;
import org.kilnside.protocol.WireReader;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.RawSignal;
import org.kilnside.virtualkiln.Load;
import org.kilnside.virtualkiln.VirtualFiring;
import org.kilnside.virtualkiln.VirtualKilnSpec;
import org.kilnside.virtualkiln.VirtualKilns;

/**
 * The virtual kiln's wire: its controller says hello at its boot and each minute, and a reading each second (or as
 * its firing has it), in the bytes a real one would send. The wire ends when the program is over and the kiln has cooled.
 */
final class VirtualPort implements Port {
    /** Cool enough that nobody waits for more: a kiln is unloaded below 60 °C. */
    private static final double COOLED_C = 45;

    /** Above this top a plan is a glaze firing, below a bisque with its raw ware. */
    private static final double BISQUE_ENDS_C = 1100;

    private static final long HELLO_EVERY_MS = 60_000;
    private static final int CHANNELS_A_LINE = 2;

    private final LinkNotation.Virtual link;
    private final VirtualFiring firing;
    private final LinkSurroundings around;
    private final int intervalMs;

    VirtualPort(LinkNotation.Virtual link, VirtualFiring firing, LinkSurroundings around) {
        this.link = link;
        this.firing = firing;
        this.around = around;
        this.intervalMs = firing.intervalMs();
    }

    /**
     * The firing a link asks for.
     *
     * @throws BadLinkException when there is no such kiln
     */
    static VirtualPort of(LinkNotation.Virtual link, LinkSurroundings around) {
        String name = link.name().toLowerCase(Locale.ROOT).replace(' ', '-');
        VirtualKilnSpec kiln = VirtualKilns.named(name)
                .orElseThrow(() -> new BadLinkException("There is no virtual kiln \"" + link.name() + "\"; there is "
                        + String.join(", ", VirtualKilns.names()) + "."));
        Schedule plan = link.plan()
                .map(named -> around.library().plan(named).schedule())
                .orElseGet(VirtualKilns::bisque);
        Load load = plan.top().celsius() < BISQUE_ENDS_C ? VirtualKilns.bisqueLoad() : Load.biscuit(18, 14);
        return new VirtualPort(link, VirtualFiring.of(kiln, plan).load(load).start(), around);
    }

    @Override
    public ByteStream open() {
        return new Wire();
    }

    @Override
    public String title() {
        return "the virtual kiln " + link.name();
    }

    @Override
    public double speed() {
        return link.speed();
    }

    @Override
    public boolean finite() {
        return true;
    }

    private boolean finished() {
        return firing.controller().isOver() && firing.sensor().tipC() < COOLED_C;
    }

    private final class Wire implements ByteStream {
        private final Pace pace = new Pace(around.clock(), around.pauses(), link.speed());
        private final ByteArrayOutputStream lines = new ByteArrayOutputStream(512);
        private long elapsedMs;
        private long lastUptimeMs = -1;
        private long helloAtMs;
        private int sequence;
        private byte[] waiting = {};
        private int waitingFrom;

        @Override
        public int read(byte[] buffer) throws InterruptedException {
            int length = 0;
            while (length < buffer.length) {
                if (waitingFrom == waiting.length && !nextLines()) {
                    break;
                }
                int part = Math.min(waiting.length - waitingFrom, buffer.length - length);
                System.arraycopy(waiting, waitingFrom, buffer, length, part);
                waitingFrom += part;
                length += part;
            }
            if (length == 0) {
                if (finished()) {
                    return END;
                }
                pace.await(elapsedMs);
            }
            return length;
        }

        /** The lines of the next instant, if that is due. */
        private boolean nextLines() {
            if (finished() || !pace.isDue(elapsedMs)) {
                return false;
            }
            VirtualFiring.Moment moment = firing.next();
            elapsedMs += intervalMs;
            lines.reset();
            if (moment.controllerOn()) {
                say(moment);
            }
            waiting = lines.toByteArray();
            waitingFrom = 0;
            return true;
        }

        private void say(VirtualFiring.Moment moment) {
            long uptimeMs = moment.uptimeMs();
            if (uptimeMs <= lastUptimeMs || lastUptimeMs < 0) {
                // It has just been switched on.
                sequence = 0;
                helloAtMs = uptimeMs;
            }
            lastUptimeMs = uptimeMs;
            if (uptimeMs >= helloAtMs) {
                helloAtMs += HELLO_EVERY_MS;
                hello(uptimeMs & Message.UPTIME_MAX_MS);
            }
            reading(moment, uptimeMs & Message.UPTIME_MAX_MS);
        }

        private void hello(long uptimeMs) {
            List<Hello.HelloChannel> channels = new ArrayList<>();
            for (Probe probe : firing.probes()) {
                channels.add(new Hello.HelloChannel(
                        channels.size() + 1,
                        Optional.of(probe.type().name()),
                        Optional.of(probe.amplifier().name())));
            }
            for (int from = 0; from < channels.size(); from += CHANNELS_A_LINE) {
                boolean first = from == 0;
                send(new Hello(
                        next(),
                        uptimeMs,
                        WireReader.VERSION,
                        first ? Optional.of(device()) : Optional.empty(),
                        first ? Optional.of("virtual-1") : Optional.empty(),
                        OptionalInt.of(channels.size()),
                        channels.subList(from, Math.min(from + CHANNELS_A_LINE, channels.size())),
                        OptionalInt.of(intervalMs),
                        OptionalInt.of(0),
                        OptionalInt.empty()));
            }
        }

        private void reading(VirtualFiring.Moment moment, long uptimeMs) {
            List<RawSignal> signals = moment.signals();
            for (int from = 0; from < signals.size(); from += CHANNELS_A_LINE) {
                List<ChannelCodes> codes = new ArrayList<>(CHANNELS_A_LINE);
                for (int i = from; i < Math.min(from + CHANNELS_A_LINE, signals.size()); i++) {
                    RawSignal signal = signals.get(i);
                    codes.add(new ChannelCodes(
                            i + 1, signal.thermocouple(), signal.coldJunction(), OptionalInt.of(signal.faultBits())));
                }
                ControllerReport report = from == 0 ? moment.controller() : ControllerReport.NONE;
                send(new ReadingLine(
                        next(),
                        uptimeMs,
                        codes,
                        report.output().isPresent()
                                ? OptionalInt.of(
                                        (int) Math.round(report.output().get().fraction() * 1000))
                                : OptionalInt.empty(),
                        report.setpoint().isPresent()
                                ? OptionalInt.of(
                                        (int) Math.round(report.setpoint().get().celsius() * 10))
                                : OptionalInt.empty(),
                        report.segment()));
            }
        }

        private String device() {
            String plain = link.name().replaceAll("[^A-Za-z0-9._-]", "-");
            return plain.substring(0, Math.min(plain.length(), 16));
        }

        private void send(Message message) {
            lines.writeBytes(LineEncoder.encode(message));
        }

        private int next() {
            int now = sequence;
            sequence = (sequence + 1) & Message.SEQUENCE_MAX;
            return now;
        }

        @Override
        public void write(byte[] bytes) {
            // It says hello each minute of its own time anyway, and keeps nothing.
        }

        @Override
        public void close() {
            // Nothing outside is held.
        }
    }
}

package org.kilnside.link;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.kilnside.firing.Channel;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.Origin;
import org.kilnside.protocol.ChannelCodes;
import org.kilnside.protocol.Hello;
import org.kilnside.protocol.KeptLine;
import org.kilnside.protocol.Message;
import org.kilnside.protocol.ReadingLine;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.RawSignal;
import org.kilnside.session.ReadingSource.Arrival;
import org.kilnside.session.ReadingSource.ControllerHello;
import org.kilnside.wording.Words;

/**
 * Turns messages into arrivals: codes into temperatures by the probe that hello named, lines of one instant into one
 * arrival.
 *
 * <p>Before the first hello nothing is known of the codes. Readings wait for it, for a little more than the minute in
 * which it must come; one that never comes leaves them without a temperature, their codes intact.
 */
final class Conversion {
    private static final long HELLO_IS_DUE_MS = 75_000;
    private static final int MOST_WAITING = 2_000;
    private static final int CHANNELS_OF_ONE_LINE = 2;
    private static final Channel NOT_SAID = new Channel(
            1, new RawSignal(OptionalInt.empty(), OptionalInt.empty(), 0), Optional.empty(), Optional.empty());

    private final Sink sink;
    private final ChannelProbes probes;
    private final Words words;
    private final Deque<Waiting> waiting = new ArrayDeque<>();
    private boolean helloCame;
    private boolean helloGivenUp;
    private long impossibleCodes;

    private Optional<Begun> begun = Optional.empty();

    /** Takes what comes of it. */
    interface Sink {
        void hello(ControllerHello hello);

        void arrival(Arrival arrival);
    }

    private record Waiting(Message message, long hostMs) {}

    /** An arrival of which more channels may follow on further lines. */
    private record Begun(long uptimeMs, Arrival arrival) {}

    Conversion(Sink sink, Words words) {
        this.sink = sink;
        this.words = words;
        this.probes = new ChannelProbes(words);
    }

    /** Takes a message received at a host time. */
    void take(Message message, long hostMs) {
        if (message instanceof Hello hello) {
            helloCame = true;
            sink.hello(probes.take(hello));
            if (probes.complete()) {
                letGo();
            }
            return;
        }
        if (!(message instanceof ReadingLine) && !(message instanceof KeptLine)) {
            return;
        }
        if (helloCame || helloGivenUp) {
            letGo();
            convert(message, hostMs);
        } else {
            await(message, hostMs);
        }
    }

    /** Hands over what is still begun or waiting: the stream has ended or paused. */
    void flush() {
        begun.ifPresent(last -> sink.arrival(last.arrival));
        begun = Optional.empty();
    }

    /** One sentence when readings cannot be converted; empty when all is well. */
    Optional<String> trouble() {
        if (!helloCame && helloGivenUp) {
            return Optional.of(words.text("wire.no_hello"));
        }
        return helloCame ? probes.trouble() : Optional.empty();
    }

    /** Milliseconds between the controller's lines; empty when it has not said. */
    OptionalInt lineIntervalMs() {
        return probes.lineIntervalMs();
    }

    /** Codes their amplifier cannot have given, taken as unknown. */
    long impossibleCodes() {
        return impossibleCodes;
    }

    private void await(Message message, long hostMs) {
        waiting.addLast(new Waiting(message, hostMs));
        long waited = message.uptimeMs() - waiting.peekFirst().message.uptimeMs();
        if (waited > HELLO_IS_DUE_MS || waited < 0 || waiting.size() > MOST_WAITING) {
            helloGivenUp = true;
            letGo();
        }
    }

    private void letGo() {
        while (!waiting.isEmpty()) {
            Waiting next = waiting.pollFirst();
            convert(next.message, next.hostMs);
        }
    }

    private void convert(Message message, long hostMs) {
        if (message instanceof ReadingLine line) {
            Arrival arrival = new Arrival(
                    OptionalLong.of(line.uptimeMs()),
                    OptionalInt.of(line.sequence()),
                    channels(line.channels()),
                    report(line.outputPermille(), line.setpointTenths(), line.segment()),
                    Origin.LIVE,
                    hostMs);
            if (probes.count() <= CHANNELS_OF_ONE_LINE) {
                sink.arrival(arrival);
            } else {
                gather(line.uptimeMs(), arrival);
            }
        } else if (message instanceof KeptLine kept) {
            sink.arrival(new Arrival(
                    OptionalLong.of(kept.minute() * 60_000L),
                    OptionalInt.of(kept.sequence()),
                    channels(kept.channels()),
                    report(kept.outputPermille(), kept.setpointTenths(), kept.segment()),
                    Origin.FILLED_IN,
                    hostMs));
        }
    }

    /** Channels 3 and 4 come on a line of their own with the same uptime. */
    private void gather(long uptimeMs, Arrival arrival) {
        if (begun.isPresent() && begun.get().uptimeMs == uptimeMs) {
            Arrival first = begun.get().arrival;
            List<Channel> all = new ArrayList<>(first.channels());
            for (Channel more : arrival.channels()) {
                all.removeIf(channel -> channel.number() == more.number());
                all.add(more);
            }
            all.sort((a, b) -> Integer.compare(a.number(), b.number()));
            begun = Optional.of(new Begun(
                    uptimeMs,
                    new Arrival(
                            first.uptimeMs(),
                            first.sequence(),
                            all,
                            first.controller(),
                            first.origin(),
                            first.hostMs())));
        } else {
            flush();
            begun = Optional.of(new Begun(uptimeMs, arrival));
        }
        if (begun.get().arrival.channels().size() >= probes.count()) {
            flush();
        }
    }

    /** The channels of a line; channel 1, which guides, is always among them. */
    private List<Channel> channels(List<ChannelCodes> codes) {
        if (codes.size() == 1 && codes.get(0).number() == 1) {
            return List.of(channel(codes.get(0)));
        }
        List<Channel> channels = new ArrayList<>(codes.size() + 1);
        if (codes.isEmpty() || codes.get(0).number() != 1) {
            channels.add(NOT_SAID);
        }
        for (ChannelCodes channel : codes) {
            channels.add(channel(channel));
        }
        return channels;
    }

    private Channel channel(ChannelCodes codes) {
        RawSignal raw = new RawSignal(
                codes.thermocouple(), codes.coldJunction(), codes.faultBits().orElse(0));
        Optional<ChannelProbes.Known> known = probes.of(codes.number());
        if (known.isEmpty()) {
            return new Channel(codes.number(), raw, Optional.empty(), Optional.empty());
        }
        RawSignal possible = possible(raw, known.get());
        return new Channel(
                codes.number(),
                raw,
                known.get().thermometer().temperature(possible),
                known.get().thermometer().coldJunction(possible));
    }

    /** The signal without codes the amplifier cannot have given. */
    private RawSignal possible(RawSignal raw, ChannelProbes.Known known) {
        boolean thermocouple = raw.thermocouple().isEmpty()
                || known.codes().givesThermocouple(raw.thermocouple().getAsInt());
        boolean coldJunction = raw.coldJunction().isEmpty()
                || known.codes().givesColdJunction(raw.coldJunction().getAsInt());
        if (thermocouple && coldJunction) {
            return raw;
        }
        impossibleCodes++;
        return new RawSignal(
                thermocouple ? raw.thermocouple() : OptionalInt.empty(),
                coldJunction ? raw.coldJunction() : OptionalInt.empty(),
                raw.faultBits());
    }

    private static ControllerReport report(OptionalInt permille, OptionalInt setpointTenths, OptionalInt segment) {
        if (permille.isEmpty() && setpointTenths.isEmpty() && segment.isEmpty()) {
            return ControllerReport.NONE;
        }
        return new ControllerReport(
                permille.isPresent() ? Optional.of(new Share(permille.getAsInt() / 1000.0)) : Optional.empty(),
                setpointTenths.isPresent()
                        ? Optional.of(Temperature.ofCelsius(setpointTenths.getAsInt() / 10.0))
                        : Optional.empty(),
                segment);
    }
}

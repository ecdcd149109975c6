package org.kilnside.link;

import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.kilnside.files.PortNotes;
import org.kilnside.protocol.Request;
import org.kilnside.quantity.Temperature;
import org.kilnside.session.ReadingSource.Arrival;
import org.kilnside.session.ReadingSource.ControllerHello;

/**
 * Tries with a cold kiln whether opening a port restarts the controller: opens it, closes it, opens it again, looks
 * whether the uptime went on, and remembers the answer for the port.
 */
public final class OpeningTrial {
    /** Above this a kiln is not cold, and the trial is not made: common practice calls it too hot to unload. */
    public static final Temperature COLD = Temperature.ofCelsius(50);

    /** A controller that says hello each minute, on a wire that cannot ask, has said it by then. */
    public static final Duration PATIENCE = Duration.ofSeconds(75);

    private static final long CLOSED_FOR_MS = 3_000;

    /** A restarted board is silent while its boot loader waits; longer than that no restart stays hidden. */
    private static final long LISTEN_MS = 6_000;

    private final Port port;
    private final LinkSurroundings around;
    private final LineReader lines;
    private final Reopening reopening;
    private final byte[] buffer = new byte[1 << 16];

    private Optional<Arrival> arrival = Optional.empty();
    private OptionalLong uptimeMs = OptionalLong.empty();
    private boolean heard;

    OpeningTrial(Port port, LinkSurroundings around, LineReader.Maker maker) {
        this.port = port;
        this.around = around;
        this.reopening = new Reopening(Optional.empty(), around.words());
        this.lines = maker.make(new Ears(), new HeardLines());
    }

    /** What came of it. */
    public enum Outcome {
        /** The controller went on running. */
        GOES_ON,
        /** The controller was restarted by an opening. */
        RESTARTS,
        /** The kiln is not cold: the trial was broken off. */
        NOT_COLD,
        /** No temperature came, so nobody knows whether the kiln is cold: the trial was broken off. */
        NO_TEMPERATURE,
        /** The lines carry no uptime, by which a restart would show. */
        NO_UPTIME,
        /** Nothing came that could be read. */
        SILENT,
        /** The port could not be opened. */
        NOT_OPENED
    }

    /**
     * The answer.
     *
     * @param temperature the kiln's; empty when none came
     * @param beforeMs uptime at the last line before the port was closed, ms
     * @param afterMs uptime at the last line after it was opened again, ms
     * @param trouble the sentence on a port that could not be opened
     */
    public record Answer(
            Outcome outcome,
            Optional<Temperature> temperature,
            OptionalLong beforeMs,
            OptionalLong afterMs,
            Optional<String> trouble) {}

    /** A trial of a serial port or a network adapter. */
    public static OpeningTrial of(LinkNotation link, LinkSurroundings around) {
        return new OpeningTrial(Links.port(link, around), around, Links.lines(link, around));
    }

    /** Makes the trial; takes the line's patience at most, twice. */
    public Answer run(Duration patience) throws InterruptedException {
        try {
            Optional<Outcome> first = listen(patience, true);
            OptionalLong before = uptimeMs;
            if (first.isPresent()) {
                return answer(first.get(), before, OptionalLong.empty());
            }
            around.pauses().pause(CLOSED_FOR_MS);
            uptimeMs = OptionalLong.empty();
            Optional<Outcome> second = listen(patience, false);
            Outcome outcome = second.orElse(reopening.sawRestart() ? Outcome.RESTARTS : Outcome.GOES_ON);
            remember(outcome);
            return answer(outcome, before, uptimeMs);
        } catch (LinkTroubleException e) {
            return new Answer(
                    Outcome.NOT_OPENED,
                    Optional.empty(),
                    OptionalLong.empty(),
                    OptionalLong.empty(),
                    Optional.of(e.getMessage()));
        }
    }

    /** Opens, listens and closes; what stands against going on, if anything. */
    private Optional<Outcome> listen(Duration patience, boolean untilTemperature)
            throws LinkTroubleException, InterruptedException {
        heard = false;
        try (ByteStream stream = port.open()) {
            long openedAtMs = around.clock().monotonicMs();
            lines.joinMidStream();
            reopening.opened(openedAtMs);
            stream.write(Request.hello());
            long waited = 0;
            while (waited < patience.toMillis() && !(waited >= LISTEN_MS && enough(untilTemperature))) {
                int length = stream.read(buffer);
                if (length == ByteStream.END) {
                    throw LinkTroubleException.passing(
                            "The connection to " + port.title() + " was lost while it was tried: check the cable.");
                }
                lines.take(buffer, length, around.clock().monotonicMs());
                waited = around.clock().monotonicMs() - openedAtMs;
            }
            lines.flush();
        }
        if (!heard) {
            return Optional.of(Outcome.SILENT);
        }
        if (temperature().isEmpty()) {
            return Optional.of(Outcome.NO_TEMPERATURE);
        }
        if (temperature().get().celsius() > COLD.celsius()) {
            return Optional.of(Outcome.NOT_COLD);
        }
        return uptimeMs.isEmpty() ? Optional.of(Outcome.NO_UPTIME) : Optional.empty();
    }

    private boolean enough(boolean untilTemperature) {
        return heard && (!untilTemperature || temperature().isPresent());
    }

    private Optional<Temperature> temperature() {
        return arrival.flatMap(last -> last.channels().get(0).temperature());
    }

    private void remember(Outcome outcome) {
        if (outcome == Outcome.GOES_ON || outcome == Outcome.RESTARTS) {
            PortNotes.Opening opening =
                    outcome == Outcome.RESTARTS ? PortNotes.Opening.RESTARTS : PortNotes.Opening.GOES_ON;
            around.library()
                    .portNotes()
                    .remember(
                            port.title(),
                            new PortNotes.Note(
                                    opening, LocalDate.ofInstant(around.clock().wallClock(), ZoneId.systemDefault())));
        }
    }

    private Answer answer(Outcome outcome, OptionalLong before, OptionalLong after) {
        return new Answer(outcome, temperature(), before, after, Optional.empty());
    }

    private final class Ears implements LineReader.Ears {
        @Override
        public void uptime(long sentMs, OptionalInt resetCauseBits) {
            uptimeMs = OptionalLong.of(sentMs);
            heard = true;
            reopening.heard(sentMs, resetCauseBits, around.clock().monotonicMs());
        }

        @Override
        public void hello(ControllerHello hello) {
            // Who it is does not matter here.
        }

        @Override
        public void arrival(Arrival came) {
            heard = true;
            if (came.channels().get(0).number() == 1) {
                arrival = Optional.of(came);
            }
        }
    }
}

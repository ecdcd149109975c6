package org.kilnside.desktop.kiln;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.files.LinePattern;
import org.kilnside.quantity.Temperature;
import org.kilnside.session.Connection;
import org.kilnside.session.LineView;
import org.kilnside.session.ReadingSource.ControllerHello;

/** The ports of this computer and what comes out of one: a port the app fills. All but the handles' looks may wait. */
public interface Wire {
    /**
     * A serial port.
     *
     * @param path what it is called
     * @param description what is plugged in there
     */
    record PortSeen(String path, String description) {}

    /** The serial ports there are; opens none. */
    List<PortSeen> ports();

    /** Whether opening a port restarts its controller, as far as that is remembered. */
    enum Opening {
        UNKNOWN,
        GOES_ON,
        RESTARTS
    }

    /** What is remembered of a link's port, and since which day. */
    record Known(Opening opening, Optional<LocalDate> since) {
        static final Known NOTHING = new Known(Opening.UNKNOWN, Optional.empty());
    }

    /**
     * The link of what a person typed or chose, in its full notation.
     *
     * @throws RefusedException with one sentence when it is none
     */
    String link(String typed);

    /** What is remembered of a link's port. */
    Known known(String link);

    /** Remembers what a person saw when a port was opened. */
    void remember(String link, boolean restarts);

    /**
     * Opens a link and listens to it until the handle is closed.
     *
     * @throws RefusedException with one sentence when there is no such link or pattern
     */
    Ears listen(String link);

    /** Tries with a cold kiln whether opening a link restarts its controller; remembers the answer. */
    Trial tryOpening(String link);

    /** How lines of a controller's own could be read; empty when no number in them looks like a kiln's temperature. */
    Optional<LinePattern> propose(List<String> lines, OptionalDouble betweenLinesMs);

    /**
     * Saves a pattern among the person's own.
     *
     * @return the name by which a link finds it
     * @throws RefusedException with one sentence when it cannot be written
     */
    String save(LinePattern pattern);

    /** A link that is listened to. */
    interface Ears extends AutoCloseable {
        /** What was heard so far. Never waits. */
        Heard heard();

        /** Closes the link; waits for its thread. */
        @Override
        void close();
    }

    /**
     * What was heard.
     *
     * @param connection how the link stands
     * @param lines the last lines
     * @param hello who the controller says it is
     * @param readings how many readings came
     * @param temperature of the last reading; empty when it had none
     */
    record Heard(
            Connection connection,
            LineView lines,
            Optional<ControllerHello> hello,
            long readings,
            Optional<Temperature> temperature) {}

    /** A trial that is going on. */
    interface Trial extends AutoCloseable {
        /** The answer; empty while it is going on. Never waits. */
        Optional<Answer> answer();

        /** Breaks the trial off. Never waits. */
        @Override
        void close();
    }

    /** What came of a trial. */
    enum Outcome {
        GOES_ON,
        RESTARTS,
        NOT_COLD,
        NO_TEMPERATURE,
        NO_UPTIME,
        SILENT,
        NOT_OPENED
    }

    /**
     * The answer of a trial.
     *
     * @param temperature the kiln's; empty when none came
     * @param trouble one sentence on a port that could not be opened
     */
    record Answer(Outcome outcome, Optional<Temperature> temperature, Optional<String> trouble) {}
}

package org.kilnside.desktop.kiln;

import java.util.List;
import java.util.Optional;
import org.kilnside.sensor.SensorInPlace;

/** Who records into this window's book, and the taking of that role: a port the app fills. */
public interface Recordings {
    /** Who records. */
    enum Role {
        /** This window's own program. */
        HERE,
        /** Another Kilnside, which this window follows. */
        ELSEWHERE,
        NOBODY,
        /** This window can only look on, as at a demo or at a recorder on another computer. */
        ONLY_LOOKING
    }

    /**
     * A recording.
     *
     * @param from the link as a person types it
     * @param kiln the kiln's name
     * @param plan the plan to follow, by name
     * @param told what the person said of the guiding sensor in the first steps; empty where nobody was asked
     */
    record Wish(String from, Optional<String> kiln, Optional<String> plan, Optional<SensorInPlace> told) {
        /** A recording before which nothing was asked. */
        public Wish(String from, Optional<String> kiln, Optional<String> plan) {
            this(from, kiln, plan, Optional.empty());
        }
    }

    /** Who records now. Never waits. */
    Role role();

    /** What is recorded here; empty while nothing is. Never waits. */
    Optional<Wish> here();

    /** What is there to choose from; waits for the disk. */
    Choices choices();

    /**
     * Begins to record, and turns the window to it; waits for the disk.
     *
     * @throws RefusedException with one sentence when it cannot
     */
    void begin(Wish wish);

    /** Ends the recording that is going on here, so that its port is free; waits for the disk. */
    void end();

    /**
     * What a recording may be begun with.
     *
     * @param last what was recorded last from a real controller; empty before the first
     * @param kilns the names of the kilns that are known
     * @param plans the names of the plans there are
     * @param virtual the virtual kiln
     */
    record Choices(Optional<Wish> last, List<String> kilns, List<String> plans, Wish virtual) {
        public Choices {
            kilns = List.copyOf(kilns);
            plans = List.copyOf(plans);
        }
    }
}

package org.kilnside.heatwork;

import java.time.Duration;
import java.util.Optional;

/**
 * How long until a cone is down.
 *
 * @param state what can be said
 * @param left how long; present exactly when the state is {@link State#AHEAD}
 */
public record TimeToGo(State state, Optional<Duration> left) {
    static final TimeToGo DOWN = new TimeToGo(State.DOWN, Optional.empty());
    static final TimeToGo NOT_YET = new TimeToGo(State.NOT_YET, Optional.empty());
    static final TimeToGo NOT_ON_THIS_PATH = new TimeToGo(State.NOT_ON_THIS_PATH, Optional.empty());

    private static final double LONGEST_S = 100 * 3600.0;

    /** What can be said of the time to go. */
    public enum State {
        /** The cone is down already. */
        DOWN,
        AHEAD,
        /** More than 150 °C below the cone, its rate is negligible and there is nothing to say. */
        NOT_YET,
        /** Not on this path: the plan ends, or the temperature is so low that it would take more than 100 hours. */
        NOT_ON_THIS_PATH
    }

    static TimeToGo after(double seconds) {
        return seconds > LONGEST_S
                ? NOT_ON_THIS_PATH
                : new TimeToGo(State.AHEAD, Optional.of(Duration.ofMillis(Math.round(seconds * 1000))));
    }
}

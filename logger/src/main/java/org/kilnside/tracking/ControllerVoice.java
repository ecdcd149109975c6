package org.kilnside.tracking;

import java.util.Optional;
import java.util.OptionalInt;
import org.kilnside.firing.ControllerReport;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlannedCurve.Leg;

/**
 * What the controller says of its segment and set-point, and how far to believe it. Controllers differ: some count ramps
 * and holds apart, some run another program than the plan, some show the segment's target as set-point from its
 * beginning. A number that stands still while the kiln rises past its segment's temperatures is a contradiction; after ten
 * minutes of it the controller's counting is not believed any more. A set-point is followed once it has been seen to move at a ramp's pace.
 */
final class ControllerVoice {
    /** The kiln may rise this far above a segment's temperatures: overshoot. */
    private static final double OUTSIDE_K = 60;

    private static final long CONTRADICTION_MS = 600_000;
    /** The same number this many times in a row: one line may be garbled and still have a good check sum. */
    private static final int SAID_TWICE = 2;

    /** A program that has told its set-point and tells none for so long, its output nothing, has ended. */
    private static final long ENDED_MS = 300_000;

    /** Some controllers say 0 where they want nothing, °C. */
    private static final double WANTS_NOTHING_C = 40;

    private static final double NO_OUTPUT = 0.005;

    private static final double MS_PER_HOUR = 3_600_000;

    private int saidLast = -1;
    private int saidCount;
    private boolean believed = true;
    private long contradictionMs;
    private double setpointC;
    private double celsiusBefore;
    private boolean setpointKnown;
    private boolean setpointTold;
    private long withdrawnMs;
    private boolean setpointMoves;
    private double setpointBeforeC;
    private long setpointBeforeMs;

    /**
     * Takes what a reading says; called for each.
     *
     * @param step since the last, ms
     */
    void take(ControllerReport controller, long step) {
        OptionalInt segment = controller.segment();
        if (segment.isEmpty()) {
            saidLast = -1;
            saidCount = 0;
        } else if (segment.getAsInt() == saidLast) {
            saidCount++;
        } else {
            saidLast = segment.getAsInt();
            saidCount = 1;
        }
        Optional<Temperature> setpoint = controller.setpoint();
        setpointKnown = setpoint.isPresent();
        if (setpointKnown) {
            setpointC = setpoint.get().celsius();
        }
        boolean wants = setpoint.filter(its -> its.celsius() > WANTS_NOTHING_C).isPresent();
        setpointTold |= wants;
        boolean off =
                controller.output().map(output -> output.fraction() < NO_OUTPUT).orElse(true);
        withdrawnMs = setpointTold && !wants && off ? withdrawnMs + step : 0;
    }

    /** Whether its program has ended, wherever in the plan. */
    boolean hasEnded() {
        return withdrawnMs >= ENDED_MS;
    }

    /** Its segments are not the plan's: from now on they are not listened to. */
    void disbelieve() {
        believed = false;
    }

    /** The segment, counted from 1, that the controller says and is believed in; 0 = none. */
    int segment(int segments) {
        return believed && saidCount >= SAID_TWICE && saidLast >= 1 && saidLast <= segments ? saidLast : 0;
    }

    /** The set-point where it can be followed along the leg; the reading's own planned temperature otherwise. */
    double setpointOr(double otherwiseC) {
        return setpointKnown && setpointMoves ? setpointC : otherwiseC;
    }

    boolean setpointCanBeFollowed() {
        return setpointKnown && setpointMoves;
    }

    /** Looks, each half minute, whether the segment said fits the temperature, and whether the set-point moves. */
    void look(long elapsedMs, double celsius, Leg leg, long sinceLastMs) {
        if (segment(leg.segment()) == leg.segment()) {
            // Below it, the kiln may simply be too weak; above it and falling, the program may have been begun again.
            boolean outside = celsius > Math.max(leg.fromC(), leg.toC()) + OUTSIDE_K && celsius > celsiusBefore;
            contradictionMs = outside ? contradictionMs + sinceLastMs : 0;
            if (contradictionMs > CONTRADICTION_MS) {
                believed = false;
            }
        }
        celsiusBefore = celsius;
        if (setpointKnown && leg.fromC() != leg.toC()) {
            double perMs = Math.abs(leg.toC() - leg.fromC()) / Math.max(1, leg.durationMs());
            double moved = Math.abs(setpointC - setpointBeforeC);
            double expected = perMs * (elapsedMs - setpointBeforeMs);
            if (expected > 0.2) {
                if (setpointBeforeMs > 0 && moved > 0.2 * expected && moved < 3 * expected + 1) {
                    setpointMoves = true;
                } else if (setpointBeforeMs > 0 && moved > 3 * expected + 10) {
                    // A jump: the target shown as set-point, or another program.
                    setpointMoves = false;
                }
                setpointBeforeC = setpointC;
                setpointBeforeMs = elapsedMs;
            }
        }
    }

    static double perHour(Leg leg) {
        return Math.abs(leg.toC() - leg.fromC()) / Math.max(1, leg.durationMs()) * MS_PER_HOUR;
    }
}

package org.kilnside.tracking;

import java.util.OptionalDouble;
import org.kilnside.schedule.PlannedCurve.Kind;
import org.kilnside.schedule.PlannedCurve.Leg;

/**
 * What curve and set-point have done since a leg of the plan began, and what that says of the leg: held, left, overshot,
 * falling.
 */
final class LegCurve {
    private static final long MINUTE_MS = 60_000;
    /** A kiln that has become flat this close to a target holds there (common practice). */
    static final double NEAR_K = FiringFigures.HOLD_BAND_K;
    /** Further above a hold than any overshoot (10–20 K at low heat, common practice): the next ramp goes on. */
    static final double BEYOND_OVERSHOOT_K = 25;
    /** A settled hold is left when the temperature goes its next way by this much. */
    private static final double LEAVES_K = 8;

    static final double SETTLED_K_PER_H = 15;
    private static final double FALLING_K_PER_H = -20;

    private double nowC;
    private double highestC;
    private double lowestC;
    /** In a hold: whether the temperature has been level since it began. */
    private boolean settled;

    private long fallingMs;
    private boolean setpointWasThere;

    /** A leg begins: nothing has been seen of it. */
    void begins() {
        settled = false;
        setpointWasThere = false;
        seesNothingFall();
        highestC = nowC;
    }

    /** Free cooling begins: how deep it goes from here is what counts. */
    void seesNothingFall() {
        lowestC = nowC;
        fallingMs = 0;
    }

    /** The smoothed temperature now. */
    void now(double celsius) {
        nowC = celsius;
    }

    /** What has been decided on this reading is decided: it counts among the extremes. */
    void done() {
        highestC = Math.max(highestC, nowC);
        lowestC = Math.min(lowestC, nowC);
    }

    double nowC() {
        return nowC;
    }

    /** How far it has come down since the leg began, K. */
    double dropK() {
        return highestC - nowC;
    }

    double highestC() {
        return highestC;
    }

    /** The hold has been level before. */
    void settle() {
        settled = true;
    }

    /** Whether a ramp has become level near its target: it is reached as well as it will be. */
    boolean levelNear(Leg leg, TemperatureTrend trend, double tenMinutes) {
        boolean level = trend.spanMs() > 10 * MINUTE_MS && Math.abs(tenMinutes) < 0.25 * ControllerVoice.perHour(leg);
        return level && Math.abs(nowC - leg.toC()) <= NEAR_K;
    }

    /** Whether the curve leaves a hold for the leg that follows before it has been held as long as planned. */
    boolean leavesHold(Leg hold, Leg following, double perHour) {
        settled |= Math.abs(perHour) < SETTLED_K_PER_H && Math.abs(nowC - hold.toC()) <= LEAVES_K + 4;
        boolean up = following.kind() == Kind.RAMP;
        double away = up ? nowC - hold.toC() : hold.toC() - nowC;
        double pace = (up ? perHour : -perHour) / Math.max(1, ControllerVoice.perHour(following));
        return (settled && away > LEAVES_K && pace > 0.4) || (away > BEYOND_OVERSHOOT_K && pace > 0.3);
    }

    /** Whether the ramp that seemed to begin turns back: what left the hold was an overshoot. */
    boolean turnsBack(Leg ramp, TemperatureTrend trend) {
        boolean up = ramp.kind() == Kind.RAMP;
        double turnedBack = up ? highestC - nowC : nowC - lowestC;
        double slope = trend.slope(3 * MINUTE_MS).orElse(0);
        return turnedBack > 4 && (up ? slope < 0 : slope > 0);
    }

    /**
     * Whether the temperature falls where the plan does not, clear of noise and overshoot.
     *
     * @param unseen a gap has just ended: less of a fall has to be enough
     */
    boolean falls(Leg leg, TemperatureTrend trend, double tenMinutes, boolean unseen) {
        double slope = unseen ? trend.slope(3 * MINUTE_MS).orElse(0) : tenMinutes;
        boolean falling = dropK() > (unseen ? NEAR_K : BEYOND_OVERSHOOT_K)
                && slope < FALLING_K_PER_H
                && nowC < leg.toC() - LEAVES_K;
        fallingMs = falling ? fallingMs + (trend.ms(0) - trend.ms(Math.min(1, trend.size() - 1))) : 0;
        return falling;
    }

    /** The controller's set-point is seen: whether it has stood at the leg's target by now. */
    boolean setpointWasThere(Leg leg, double setpointC) {
        setpointWasThere |= Math.abs(setpointC - leg.toC()) <= PlanTracker.THERE_K;
        return setpointWasThere;
    }

    /** For how long it has been falling. */
    long fallingMs() {
        return fallingMs;
    }

    /** Whether heat is back: it rises clearly from the lowest since cooling began. */
    boolean risesAgain(TemperatureTrend trend) {
        OptionalDouble slope = trend.slope(5 * MINUTE_MS);
        return nowC - lowestC > 10 && slope.orElse(0) > SETTLED_K_PER_H;
    }
}

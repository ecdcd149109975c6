package org.kilnside.alarm;

import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.schedule.PlannedCurve.Kind;
import org.kilnside.schedule.PlannedCurve.Leg;

/**
 * A third of the power gone at once: a ring, a relay, a phase. While there is reserve the controller makes up for it by
 * asking for half as much again; without reserve the curve bends down, by what a brick or fibre kiln loses with a third
 * of its power (from simulated kilns: 10 K or more within ten minutes).
 */
final class PowerWatch {
    private static final long MINUTE_MS = 60_000;
    private static final double SEEN_FROM_C = 250;
    private static final double ASKS_MORE = 1.32;
    private static final double ASKS_MOST = 1.9;
    private static final double FULL = 0.97;

    /** K that one part of output is worth within ten minutes: 85–120 in brick, 190–250 in fibre. */
    private static final double WORTH_K = 110;

    private static final double LOST = 0.24;
    private static final double BENDS_K = 14;

    private Optional<Finding> lost = Optional.empty();
    private int seen;
    private Leg leg;
    private long legSinceMs;
    private long clearedAtMs = Long.MIN_VALUE;

    /** @param steady whether nothing else explains a change: no power cut, no false sensor */
    Optional<Finding> look(Beats beats, PlanClock clock, boolean steady) {
        long nowMs = beats.nowMs();
        Leg now = clock.leg();
        if (!now.equals(leg)) {
            leg = now;
            legSinceMs = nowMs;
        }
        boolean ramp = now.kind() == Kind.RAMP && clock.isHeatedByBoth();
        if (!ramp) {
            if (!clock.isHeatedByBoth()) {
                lost = Optional.empty();
            }
            return lost;
        }
        if (lost.isPresent() || !steady) {
            return lost;
        }
        boolean same = nowMs - legSinceMs >= 38 * MINUTE_MS && beats.nowC() > SEEN_FROM_C;
        if (!same || nowMs - clearedAtMs < 60 * MINUTE_MS && clearedAtMs != Long.MIN_VALUE) {
            seen = 0;
            return lost;
        }
        Optional<Finding> found = find(beats, now);
        seen = found.isPresent() ? seen + 1 : 0;
        if (seen >= 12) {
            lost = found;
        }
        return lost;
    }

    private static Optional<Finding> find(Beats beats, Leg leg) {
        // A thermostat's bursts want longer stretches than a regulated output; clay's own reaction, around 500 °C,
        // takes
        // more power too, but over an hour and not at once.
        boolean regulated = beats.regulatedShare(30 * MINUTE_MS) > 0.25;
        long gone = (regulated ? 11 : 16) * MINUTE_MS;
        long from = (regulated ? 22 : 38) * MINUTE_MS;
        long lately = (regulated ? 8 : 13) * MINUTE_MS;
        OptionalDouble before = beats.meanOutput(from, gone);
        OptionalDouble after = beats.meanOutput(lately, 0);
        OptionalDouble rateBefore = beats.slope(from, gone);
        OptionalDouble rateAfter = beats.slope(lately);
        OptionalDouble off = beats.offLine(from, gone, 0);
        if (rateBefore.isEmpty() || rateAfter.isEmpty() || off.isEmpty()) {
            return Optional.empty();
        }
        double planned = PlanClock.perHour(leg);
        double bends = -off.getAsDouble();
        if (before.isEmpty() || after.isEmpty()) {
            boolean followed = Math.abs(rateBefore.getAsDouble() - planned) < 0.25 * planned + 8;
            boolean bent = bends > BENDS_K && rateAfter.getAsDouble() < 0.75 * rateBefore.getAsDouble();
            return followed && bent ? found(beats, LOST) : Optional.empty();
        }
        double asked = before.getAsDouble();
        double asks = after.getAsDouble();
        if (asked < 0.08) {
            return Optional.empty();
        }
        if (asks < FULL) {
            boolean alike = Math.abs(rateAfter.getAsDouble() - rateBefore.getAsDouble())
                    < 0.25 * Math.abs(rateBefore.getAsDouble()) + 12;
            double times = asks / asked;
            return alike && times > (regulated ? ASKS_MORE : ASKS_MORE + 0.1) && times < ASKS_MOST
                    ? found(beats, 1 - asked / asks)
                    : Optional.empty();
        }
        double share = 1 - (asked - Math.max(0, bends) / WORTH_K) / asks;
        return share > LOST && bends > 4 ? found(beats, share) : Optional.empty();
    }

    private static Optional<Finding> found(Beats beats, double share) {
        return Optional.of(
                Finding.since(beats.nowMs() - 12 * MINUTE_MS, Measure.ofShare(1 - share), Measure.ofShare(1)));
    }

    /** Something else turned out to be behind it. */
    void forget(long nowMs) {
        lost = Optional.empty();
        clearedAtMs = nowMs;
    }
}

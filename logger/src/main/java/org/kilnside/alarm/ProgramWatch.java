package org.kilnside.alarm;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.schedule.PlannedCurve.Kind;
import org.kilnside.schedule.PlannedCurve.Leg;
import org.kilnside.schedule.Schedule;

/**
 * Whether the controller follows this plan at all. Where it says its set-point, that is held against the plan; else the
 * curve's own rate is, over half an hour and with its own uncertainty: a thermostat swings at low heat.
 */
final class ProgramWatch {
    private static final long MINUTE_MS = 60_000;

    /** The curve is believed this far in: later, power and load have their say. */
    private static final long CURVE_UNTIL_MS = 100 * MINUTE_MS;

    private static final double FASTER = 1.2;
    private static final double SLOWER = 0.83;
    private static final double SETPOINT_LEAST_K_PER_H = 6;
    private static final double WAITS_WHEN_LAGGING_K = 5;

    /** Hotter than this a kiln may be too weak for its plan, and a controller waits for it. */
    private static final double WEAK_FROM_C = 400;

    private static final double JUMP_K = 30;
    private static final double TARGET_K = 4;
    private static final double CURVE_LEAST_K_PER_H = 14;
    private static final double SURE = 1.5;
    private static final long CLIMB_MS = 10 * MINUTE_MS;
    private static final double NEW_CLIMB = 1.35;
    /** So soon after the lighting a relay that sticks closed heats a cold kiln faster than any program does. */
    private static final long EARLY_MS = 45 * MINUTE_MS;

    private static final double FULL_POWER_K_PER_H = 220;
    private static final double SWING_MS = 8.0 * MINUTE_MS;

    /** From turn to turn a swinging curve goes as its set-point does; the first swing out of the cold is one by itself. */
    private static final long FIRST_SWING_MS = 10 * MINUTE_MS;

    private static final double LEAST_SWING_K = 3;
    private static final double TURN_UNSURE_K = 2;

    private final Schedule plan;
    private Optional<Finding> other = Optional.empty();
    private int differs;
    private OptionalDouble target = OptionalDouble.empty();

    ProgramWatch(Schedule plan) {
        this.plan = plan;
    }

    boolean isOther() {
        return other.isPresent();
    }

    Optional<Finding> look(Beats beats, PlanClock clock) {
        if (other.isPresent() || clock.isJoined()) {
            return other;
        }
        OptionalDouble setpoint = beats.setpointC();
        Optional<Finding> found =
                setpoint.isPresent() ? bySetpoint(beats, clock, setpoint.getAsDouble()) : byCurve(beats, clock);
        // Seen for a minute and a half, so that no single look decides.
        differs = found.isPresent() ? differs + 1 : 0;
        if (differs >= 9) {
            other = found;
        }
        return other;
    }

    /** The kiln is far above the plan while its controller asks for heat: it follows something else. */
    void otherProgram(Finding finding) {
        other = Optional.of(finding);
    }

    private Optional<Finding> bySetpoint(Beats beats, PlanClock clock, double setpointC) {
        double topC = plan.top().celsius();
        if (setpointC > topC + TARGET_K) {
            return Optional.of(Finding.since(beats.nowMs(), Measure.ofCelsius(setpointC), Measure.ofCelsius(topC)));
        }
        OptionalDouble before = beats.setpointC(20_000);
        if (before.isPresent() && Math.abs(setpointC - before.getAsDouble()) > JUMP_K) {
            target = OptionalDouble.of(setpointC);
        }
        if (target.isPresent()) {
            return isATarget(setpointC)
                    ? Optional.empty()
                    : Optional.of(Finding.since(
                            beats.nowMs(),
                            Measure.ofCelsius(setpointC),
                            Measure.ofCelsius(clock.leg().toC())));
        }
        OptionalDouble then = beats.setpointC(10 * MINUTE_MS);
        if (then.isEmpty()) {
            return Optional.empty();
        }
        double rate = (setpointC - then.getAsDouble()) * 6;
        // Over ten minutes the set-point's middle lies above the curve's by its lag.
        double lag = (setpointC + then.getAsDouble()) / 2
                - beats.meanC(10 * MINUTE_MS, 0).orElse(setpointC);
        return againstRamp(beats, clock, rate, lag, setpointC);
    }

    private boolean isATarget(double setpointC) {
        return plan.segments().stream()
                .flatMap(segment -> segment.target().stream())
                .anyMatch(to -> Math.abs(to.celsius() - setpointC) <= TARGET_K);
    }

    private Optional<Finding> againstRamp(Beats beats, PlanClock clock, double rate, double lag, double setpointC) {
        // The slowest and fastest ramp the plan has within what the set-point went through.
        double fromC = setpointC - Math.max(0, rate) / 6 - 2;
        double slowest = Double.POSITIVE_INFINITY;
        double fastest = Double.NEGATIVE_INFINITY;
        boolean holds = false;
        for (Leg leg : clock.legs()) {
            if (leg.kind() == Kind.RAMP && leg.fromC() <= setpointC + 2 && leg.toC() >= fromC) {
                slowest = Math.min(slowest, PlanClock.perHour(leg));
                fastest = Math.max(fastest, PlanClock.perHour(leg));
            }
            holds |= leg.kind() == Kind.HOLD && leg.toC() >= fromC - 2 && leg.toC() <= setpointC + 2;
        }
        if (fastest == Double.NEGATIVE_INFINITY || rate < -2) {
            return Optional.empty();
        }
        boolean faster = rate > FASTER * fastest + SETPOINT_LEAST_K_PER_H;
        boolean waits = lag > WAITS_WHEN_LAGGING_K || beats.nowC() > WEAK_FROM_C;
        boolean lastLeg = setpointC >= plan.top().celsius() - 2;
        boolean slower = !waits && !holds && !lastLeg && rate < SLOWER * slowest - SETPOINT_LEAST_K_PER_H;
        return faster || slower
                ? Optional.of(Finding.since(
                        beats.nowMs(),
                        Measure.ofKelvinPerHour(rate),
                        Measure.ofKelvinPerHour(faster ? fastest : slowest)))
                : Optional.empty();
    }

    /**
     * Whether what takes the curve above the plan is no new thing: it has climbed like this from the beginning, so it
     * is another program; a relay that sticks lets it climb as it never has before.
     */
    boolean wasFasterAllAlong(Beats beats, PlanClock clock) {
        long since = Math.round(clock.sinceLitMs());
        if (!clock.isJoined() && since < EARLY_MS && beats.slope(4 * MINUTE_MS).orElse(0) < FULL_POWER_K_PER_H) {
            return true;
        }
        if (clock.isJoined() || since > 2 * CURVE_UNTIL_MS) {
            return false;
        }
        double climbs = climb(beats, 0);
        double before = 0;
        for (long ago = CLIMB_MS; ago + CLIMB_MS <= since; ago += MINUTE_MS) {
            before = Math.max(before, climb(beats, ago));
        }
        return climbs < NEW_CLIMB * before;
    }

    private static double climb(Beats beats, long agoMs) {
        double now = beats.meanC(agoMs + 9_000, agoMs).orElse(Double.NEGATIVE_INFINITY);
        return now - beats.lowestBetween(agoMs + CLIMB_MS, agoMs);
    }

    /** By the curve alone: rate of the last half hour, past the first minutes in which the kiln gathers way. */
    private Optional<Finding> byCurve(Beats beats, PlanClock clock) {
        double since = clock.sinceLitMs();
        if (since > CURVE_UNTIL_MS || since < 30 * MINUTE_MS) {
            return Optional.empty();
        }
        long window = Math.min(40 * MINUTE_MS, Math.round(since) - 12 * MINUTE_MS);
        OptionalDouble rate = beats.slope(window);
        OptionalDouble rough = beats.roughness(window, 0);
        Leg leg = clock.leg();
        double planned = PlanClock.perHour(leg);
        boolean within = leg.kind() == Kind.RAMP
                && leg.durationMs() > 0
                && clock.sinceLitMs() < leg.toMs() - 5 * MINUTE_MS
                && beats.nowC() < leg.toC() - 5
                && clock.legs().indexOf(leg) == 0;
        if (rate.isEmpty() || rough.isEmpty() || !within) {
            return Optional.empty();
        }
        // A swing of amplitude A bends a line through N of them in time T by at most 6 A / (π N T).
        double swings = rough.getAsDouble() < LEAST_SWING_K
                ? Math.max(1.5, window / SWING_MS)
                : Math.max(1, beats.turns(window, rough.getAsDouble()).size() / 2.0);
        double unsure = rough.getAsDouble() * 2.7 / (window / 3_600_000.0) / swings;
        Pace pace = new Pace(rate.getAsDouble(), unsure);
        Optional<Pace> swinging = paceOfSwings(beats, Math.round(since) - FIRST_SWING_MS, rough.getAsDouble());
        pace = swinging.filter(its -> its.unsure() < unsure).orElse(pace);
        double off = pace.perHour() - planned;
        double needed = Math.max(CURVE_LEAST_K_PER_H, 0.22 * planned) + SURE * pace.unsure();
        // Slower may also be a weak kiln that gives all it has.
        boolean weak = off < 0 && beats.meanOutput(10 * MINUTE_MS, 0).orElse(0) > 0.9;
        return Math.abs(off) > needed && !weak
                ? Optional.of(Finding.since(
                        beats.nowMs(), Measure.ofKelvinPerHour(pace.perHour()), Measure.ofKelvinPerHour(planned)))
                : Optional.empty();
    }

    /** How fast it heats, and how unsure that is, K/h. */
    private record Pace(double perHour, double unsure) {}

    /** How fast a swinging kiln heats, from crest to crest and trough to trough; empty where it has not swung twice. */
    private static Optional<Pace> paceOfSwings(Beats beats, long windowMs, double roughK) {
        List<Beats.Peak> turns = beats.turns(windowMs, Math.max(LEAST_SWING_K, roughK));
        int last = turns.size() - 1;
        if (last < 3) {
            return Optional.empty();
        }
        int first = (last + 1) % 2;
        double one = perHour(turns.get(first), turns.get(last - 1));
        double other = perHour(turns.get(first + 1), turns.get(last));
        double hours = (turns.get(last).atMs() - turns.get(first).atMs()) / 3_600_000.0;
        return Optional.of(new Pace((one + other) / 2, Math.abs(one - other) / 2 + TURN_UNSURE_K / hours));
    }

    private static double perHour(Beats.Peak from, Beats.Peak to) {
        return (to.celsius() - from.celsius()) / (to.atMs() - from.atMs()) * 3_600_000.0;
    }
}

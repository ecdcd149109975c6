package org.kilnside.review;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;

/**
 * What a simulated firing was meant to do, and what its controller was told instead, at the sizes of everyday.
 *
 * @param topC the plan's
 * @param heldBack whether the plan has the kiln cool slowly
 * @param byHabit whether it lets the kiln cool by itself, as it did before, and only earlier firings show otherwise
 * @param sensorOffC by how much its sensor reads too high
 */
record TrialPlan(
        Schedule plan,
        Schedule program,
        double topC,
        double holdMinutes,
        double lastRate,
        boolean heldBack,
        boolean byHabit,
        double sensorOffC) {
    static TrialPlan of(Random random, Set<Injected> injected) {
        boolean glaze = random.nextInt(4) > 0
                || injected.contains(Injected.WEAK_ELEMENTS)
                || injected.contains(Injected.AMPLIFIER_UNCORRECTED);
        double topC = Math.round(glaze ? uniform(random, 1205, 1235) : uniform(random, 1000, 1160));
        double lastRate = injected.contains(Injected.RAMP_FAST)
                ? uniform(random, 45, 65)
                : injected.contains(Injected.RAMP_SLOW) ? uniform(random, 80, 130) : uniform(random, 50, 110);
        boolean mayEndAtOnce = !injected.contains(Injected.HOLD_SHORT)
                && !injected.contains(Injected.ENDED_EARLY)
                && !injected.contains(Injected.TOP_LOW);
        double hold = injected.contains(Injected.HOLD_SHORT)
                ? uniform(random, 15, 40)
                : random.nextInt(5) == 0 && mayEndAtOnce ? 0 : uniform(random, 8, 25);
        hold = Math.round(hold);
        boolean cooling = injected.contains(Injected.COOLING_FAST) || injected.contains(Injected.COOLING_SLOW);
        boolean byHabit = injected.contains(Injected.COOLING_SLOW) && random.nextBoolean();
        boolean heldBack = !byHabit && (cooling || random.nextInt(4) == 0);
        double programTop = topC;
        double programHold = hold;
        double programRate = lastRate;
        double programCooling = injected.contains(Injected.COOLING_SLOW) ? uniform(random, 0.3, 0.45) : 1;
        if (injected.contains(Injected.TOP_LOW)) {
            programTop -= uniform(random, 10, 25);
        }
        if (injected.contains(Injected.OVER_FIRED_TOP)) {
            programTop += uniform(random, 10, 25);
        }
        if (injected.contains(Injected.HOLD_SHORT)) {
            programHold = Math.round(hold * uniform(random, 0, 0.35));
        }
        if (injected.contains(Injected.OVER_FIRED_HOLD)) {
            programHold = hold + Math.round(uniform(random, 15, 45));
        }
        if (injected.contains(Injected.RAMP_FAST)) {
            programRate *= uniform(random, 2, 3);
        }
        if (injected.contains(Injected.RAMP_SLOW)) {
            programRate *= uniform(random, 0.35, 0.5);
        }
        double off = 0;
        if (injected.contains(Injected.SENSOR_READS_HIGH)) {
            off = uniform(random, 10, 30);
        }
        if (injected.contains(Injected.SENSOR_READS_LOW)) {
            off = -uniform(random, 10, 30);
        }
        return new TrialPlan(
                schedule(topC, topC, lastRate, hold, heldBack ? 1 : 0),
                schedule(
                        topC,
                        Math.round(programTop),
                        programRate,
                        programHold,
                        (heldBack || byHabit) && !injected.contains(Injected.COOLING_FAST) ? programCooling : 0),
                topC,
                hold,
                lastRate,
                heldBack,
                byHabit,
                off);
    }

    static double uniform(Random random, double from, double to) {
        return from + (to - from) * random.nextDouble();
    }

    /** @param cooling the part of the plan's rates at which it cools; 0 lets the kiln cool by itself */
    private static Schedule schedule(double plannedTop, double top, double rate, double hold, double cooling) {
        List<Segment> segments = new ArrayList<>();
        segments.add(ramp(100, 120, 0));
        segments.add(ramp(150, plannedTop - 110, 0));
        segments.add(ramp(rate, top, hold));
        if (cooling > 0) {
            segments.add(ramp(140 * cooling, plannedTop - 180, 30));
            segments.add(ramp(60 * cooling, plannedTop - 330, 0));
        }
        segments.add(new Segment.FreeCooling());
        return new Schedule("Trial", segments);
    }

    private static Segment ramp(double rate, double to, double hold) {
        return new Segment.Ramp(
                HeatingRate.ofKelvinPerHour(rate),
                Temperature.ofCelsius(to),
                Duration.ofSeconds(Math.round(hold * 60)));
    }

    /** How long the plan has the kiln on its way from just below the top down to the end of the slow cooling, s. */
    private static final double PLANNED_COOLING_S = 160 / 140.0 * 3600 + 1800 + 150 / 60.0 * 3600;

    /** Whether the kiln's earlier firings are told: where they show what this one alone cannot, and often with lack of power. */
    boolean tellsEarlier(Set<Injected> injected, Random random) {
        boolean weak = injected.contains(Injected.WEAK_ELEMENTS) || injected.contains(Injected.ONE_PHASE_LOST);
        return byHabit || weak && random.nextBoolean();
    }

    /**
     * Whether the cooling told: a big kiln may take as long by itself as the plan has it.
     *
     * @param earlier true curves of the firings before
     */
    boolean coolingTells(Trace truth, Set<Injected> injected, List<Trace> earlier) {
        if (byHabit) {
            double usual = TrialTruth.fallS(earlier.get(0), Math.min(1000, topC - 60), 700);
            return TrialTruth.fallS(truth, Math.min(1000, topC - 60), 700) > 2 * usual;
        }
        double took = TrialTruth.fallS(truth, topC - 45, topC - 330);
        return (!injected.contains(Injected.COOLING_FAST) || took < 0.6 * PLANNED_COOLING_S)
                && (!injected.contains(Injected.COOLING_SLOW) || took > 1.8 * PLANNED_COOLING_S);
    }
}

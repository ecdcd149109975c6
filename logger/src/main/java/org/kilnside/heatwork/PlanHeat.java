package org.kilnside.heatwork;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.hipparchus.analysis.solvers.BisectionSolver;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlannedCurve;
import org.kilnside.sensor.SensorUncertainty;

/**
 * The question turned round: which cone a plan comes to in a kiln that follows it, which top brings a cone down, and
 * how long a hold does.
 */
public final class PlanHeat {
    /** So far below its top no cone bends that matters, K. */
    public static final double COUNTS_BELOW_TOP_K = 320;

    private static final double LOWEST_TOP_C = 350;
    /** Above this no top is looked for, °C. */
    public static final double HIGHEST_TOP_C = 1600;

    /** Nobody holds a top for longer. */
    public static final Duration LONGEST_HOLD = Duration.ofDays(2);

    private PlanHeat() {}

    /**
     * Which cone a plan comes to. A plan's cone has the cooling in it as a firing's has, or every clean firing would read
     * over.
     *
     * @param cooled with the cooling after its top, as the plan has it, or as a kiln nobody knows cools by itself
     * @param atEndOfTop where it stands at the end of its planned time at the top, no cooling counted
     */
    public record PlannedCone(CooledCone cooled, ConePosition atEndOfTop) {
        public ConeReached whole() {
            return cooled.whole();
        }
    }

    /** Which cone a plan comes to in a kiln nobody knows that follows it. */
    public static PlannedCone of(ConeTable table, PlannedCurve plan, SensorUncertainty sensor) {
        Trace.Builder untilTop = new Trace.Builder();
        untilTop.add(0, plan.start().celsius());
        List<PlannedCurve.Leg> afterTop = afterTop(plan);
        plan.legs().stream().limit(plan.legs().size() - afterTop.size()).forEach(leg -> {
            untilTop.add(leg.fromMs(), leg.fromC());
            untilTop.add(leg.toMs(), leg.toC());
        });
        Trace risen = untilTop.view();
        return new PlannedCone(
                CooledCone.of(table, risen, afterTop, sensor),
                HeatWork.ofLine(table, risen).reached(sensor).cone());
    }

    /** What a plan has after its last moment at its top. */
    public static List<PlannedCurve.Leg> afterTop(PlannedCurve plan) {
        double topC = plan.schedule().top().celsius();
        List<PlannedCurve.Leg> legs = plan.legs();
        int first = legs.size();
        while (first > 0 && legs.get(first - 1).toC() < topC) {
            first--;
        }
        return legs.subList(first, legs.size());
    }

    /**
     * The top temperature at whose end a cone is just down, cooling not counted. Empty when there is none from 350 to
     * 1600 °C, or the series has no such cone.
     *
     * @param rate of the last ramp, at least its last 100 °C; above 0
     * @param hold at the top
     */
    public static Optional<Temperature> topFor(ConeTable table, Cone cone, HeatingRate rate, Duration hold) {
        int index = table.cones().indexOf(cone);
        if (index < 0 || !(rate.kelvinPerHour() > 0) || hold.isNegative()) {
            return Optional.empty();
        }
        double holdS = hold.toMillis() / 1000.0;
        double lowest = logWork(table, index, LOWEST_TOP_C, rate, holdS);
        double highest = logWork(table, index, HIGHEST_TOP_C, rate, holdS);
        if (lowest > 0 || highest < 0) {
            return Optional.empty();
        }
        return Optional.of(Temperature.ofCelsius(new BisectionSolver(1e-6)
                .solve(200, topC -> logWork(table, index, topC, rate, holdS), LOWEST_TOP_C, HIGHEST_TOP_C)));
    }

    /**
     * How long a hold at a top temperature brings a cone down, cooling not counted: nothing when the ramp alone does.
     * Empty when it would take more than two days, the top is below 350 °C, where no cone comes down in any time, or the series has no such cone.
     *
     * @param rate of the last ramp, at least its last 100 °C; above 0
     */
    public static Optional<Duration> holdFor(ConeTable table, Cone cone, HeatingRate rate, Temperature top) {
        int index = table.cones().indexOf(cone);
        if (index < 0 || !(rate.kelvinPerHour() > 0) || top.celsius() < LOWEST_TOP_C) {
            return Optional.empty();
        }
        double ramp = StrictMath.exp(table.logRate(index)
                + ConeTable.logRampIntegral(table.activationK(index), top.celsius(), rate.kelvinPerHour()));
        if (ramp >= 1) {
            return Optional.of(Duration.ZERO);
        }
        double ratePerS = StrictMath.exp(table.logRate(index) - table.activationK(index) / top.kelvin());
        double seconds = (1 - ramp) / ratePerS;
        return seconds > LONGEST_HOLD.toSeconds()
                ? Optional.empty()
                : Optional.of(Duration.ofMillis(Math.round(seconds * 1000)));
    }

    /**
     * Where such a ramp and hold stand when a cooling has begun after them, as the cone of a firing is told.
     *
     * @param rate of the last ramp, above 0
     */
    public static ConePosition cooled(ConeTable table, HeatingRate rate, Temperature top, Duration hold) {
        Trace.Builder line = new Trace.Builder();
        long upMs = Math.round(ConeTable.RAMP_BELOW_K / rate.kelvinPerHour() * 3_600_000);
        line.add(0, top.celsius() - ConeTable.RAMP_BELOW_K);
        line.add(upMs, top.celsius());
        line.add(upMs + hold.toMillis(), top.celsius());
        return CooledCone.of(table, line.view(), List.of(), SensorUncertainty.UNKNOWN)
                .whole()
                .cone();
    }

    private static double logWork(ConeTable table, int index, double topC, HeatingRate rate, double holdS) {
        double activationK = table.activationK(index);
        double logRamp = ConeTable.logRampIntegral(activationK, topC, rate.kelvinPerHour());
        double logHold = -activationK / (topC + Temperature.ZERO_CELSIUS_K);
        return table.logRate(index) + logRamp + StrictMath.log1p(holdS * StrictMath.exp(logHold - logRamp));
    }
}

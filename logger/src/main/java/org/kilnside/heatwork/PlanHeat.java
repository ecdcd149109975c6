package org.kilnside.heatwork;

import java.time.Duration;
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
    /**
     * How a kiln nobody knows yet cools by itself: towards 20 °C with this time constant, 200 °C/h at 1222 °C (common
     * practice: a cooling of 12 to 30 h). A plan's cone has the cooling in it as a firing's has, or every clean firing
     * would read over.
     */
    public static final Duration USUAL_COOLING = Duration.ofHours(6);

    private static final double ROOM_C = 20;
    private static final long COOLING_STEP_MS = 120_000;
    private static final long COOLING_FOR_MS = 6 * 3_600_000L;

    private static final double LOWEST_TOP_C = 350;
    /** Above this no top is looked for, °C. */
    public static final double HIGHEST_TOP_C = 1600;

    /** Nobody holds a top for longer. */
    public static final Duration LONGEST_HOLD = Duration.ofDays(2);

    private PlanHeat() {}

    /**
     * Which cone a plan comes to.
     *
     * @param whole with the cooling after its last planned moment, as the kiln would cool by itself
     * @param atEndOfTop where it stands at the end of its planned time at the top, no cooling counted
     */
    public record PlannedCone(ConeReached whole, ConePosition atEndOfTop) {}

    /** Which cone a plan comes to in a kiln that follows it and then cools with a time constant. */
    public static PlannedCone of(ConeTable table, PlannedCurve plan, Duration coolingTime, SensorUncertainty sensor) {
        Trace.Builder line = new Trace.Builder();
        Trace.Builder untilTop = new Trace.Builder();
        line.add(0, plan.start().celsius());
        untilTop.add(0, plan.start().celsius());
        double topC = plan.schedule().top().celsius();
        long lastTopMs = plan.legs().stream()
                .filter(leg -> leg.toC() >= topC)
                .mapToLong(PlannedCurve.Leg::toMs)
                .max()
                .orElseThrow();
        for (PlannedCurve.Leg leg : plan.legs()) {
            addLeg(line, leg);
            if (leg.toMs() <= lastTopMs) {
                addLeg(untilTop, leg);
            }
        }
        PlannedCurve.Leg last = plan.legs().get(plan.legs().size() - 1);
        addCooling(line, last.toMs(), last.toC(), coolingTime);
        return new PlannedCone(
                HeatWork.ofLine(table, line.view()).reached(sensor),
                HeatWork.ofLine(table, untilTop.view()).reached(sensor).cone());
    }

    private static void addLeg(Trace.Builder line, PlannedCurve.Leg leg) {
        line.add(leg.fromMs(), leg.fromC());
        line.add(leg.toMs(), leg.toC());
    }

    private static void addCooling(Trace.Builder line, long fromMs, double fromC, Duration coolingTime) {
        for (long after = COOLING_STEP_MS; after <= COOLING_FOR_MS; after += COOLING_STEP_MS) {
            double left = StrictMath.exp(-(double) after / coolingTime.toMillis());
            line.add(fromMs + after, ROOM_C + (fromC - ROOM_C) * left);
        }
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
    public static ConePosition cooled(
            ConeTable table, HeatingRate rate, Temperature top, Duration hold, Duration coolingTime) {
        Trace.Builder line = new Trace.Builder();
        long upMs = Math.round(ConeTable.RAMP_BELOW_K / rate.kelvinPerHour() * 3_600_000);
        line.add(0, top.celsius() - ConeTable.RAMP_BELOW_K);
        line.add(upMs, top.celsius());
        line.add(upMs + hold.toMillis(), top.celsius());
        addCooling(line, upMs + hold.toMillis(), top.celsius(), coolingTime);
        return HeatWork.ofLine(table, line.view())
                .reached(SensorUncertainty.UNKNOWN)
                .cone();
    }

    private static double logWork(ConeTable table, int index, double topC, HeatingRate rate, double holdS) {
        double activationK = table.activationK(index);
        double logRamp = ConeTable.logRampIntegral(activationK, topC, rate.kelvinPerHour());
        double logHold = -activationK / (topC + Temperature.ZERO_CELSIUS_K);
        return table.logRate(index) + logRamp + StrictMath.log1p(holdS * StrictMath.exp(logHold - logRamp));
    }
}

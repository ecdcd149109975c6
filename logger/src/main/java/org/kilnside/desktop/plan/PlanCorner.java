package org.kilnside.desktop.plan;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlanLimits;
import org.kilnside.schedule.PlannedCurve;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.wording.TemperatureUnit;

/**
 * A corner of the plan's curve, by which it can be pulled: up and down changes the temperature, along the time changes
 * the rate of the ramp that ends there, or the length of the hold.
 *
 * @param segment counted from 1
 * @param isHold whether a hold ends there, else a ramp
 * @param atMs planned time
 * @param celsius °C
 */
record PlanCorner(int segment, boolean isHold, long atMs, double celsius) {
    /** The lighting, for corners and times. */
    static final Temperature LIT_AT = Temperature.ofCelsius(20);

    /** A ramp pulled together is no shorter. */
    private static final long SHORTEST_RAMP_MS = 60_000;

    static List<PlanCorner> of(Schedule plan) {
        List<PlanCorner> corners = new ArrayList<>();
        for (PlannedCurve.Leg leg : plan.curveFrom(LIT_AT).legs()) {
            corners.add(new PlanCorner(leg.segment(), leg.kind() == PlannedCurve.Kind.HOLD, leg.toMs(), leg.toC()));
        }
        return corners;
    }

    /**
     * The plan with this corner elsewhere, in round numbers.
     *
     * @param unit in which the numbers are round
     * @return empty where it cannot be there
     */
    Optional<Schedule> pulledTo(Schedule plan, long toMs, double toC, TemperatureUnit unit) {
        PlannedCurve.Leg leg = plan.curveFrom(LIT_AT).legs().stream()
                .filter(each -> each.segment() == segment && (each.kind() == PlannedCurve.Kind.HOLD) == isHold)
                .findFirst()
                .orElseThrow();
        Temperature to = round(toC, unit);
        if (PlanLimits.target(to).isEmpty()) {
            return Optional.empty();
        }
        long lengthMs = toMs - leg.fromMs();
        if (isHold) {
            Duration hold = Duration.ofMinutes(Math.max(0, Math.round(lengthMs / 300_000.0) * 5));
            return PlanLimits.hold(hold)
                    .flatMap(its -> PlanEdits.withRamp(plan, segment, ramp -> new Segment.Ramp(ramp.rate(), to, its)));
        }
        boolean alongTime = Math.abs(toMs - atMs) > 1000;
        return PlanEdits.withRamp(
                plan,
                segment,
                ramp -> new Segment.Ramp(
                        alongTime ? rate(leg, to, lengthMs, unit).orElse(ramp.rate()) : ramp.rate(), to, ramp.hold()));
    }

    private static Optional<HeatingRate> rate(
            PlannedCurve.Leg leg, Temperature to, long lengthMs, TemperatureUnit unit) {
        double spanK = Math.abs(to.celsius() - leg.fromC());
        double perHour = spanK / (Math.max(SHORTEST_RAMP_MS, lengthMs) / 3_600_000.0);
        double step = unit == TemperatureUnit.CELSIUS ? 1 : 1 / 1.8;
        return PlanLimits.rate(HeatingRate.ofKelvinPerHour(Math.max(step, Math.round(perHour / step) * step)));
    }

    /** Five °C or ten °F: nobody pulls finer. */
    private static Temperature round(double celsius, TemperatureUnit unit) {
        return unit == TemperatureUnit.CELSIUS
                ? Temperature.ofCelsius(Math.round(celsius / 5) * 5.0)
                : Temperature.ofFahrenheit(Math.round((celsius * 1.8 + 32) / 10) * 10.0);
    }
}

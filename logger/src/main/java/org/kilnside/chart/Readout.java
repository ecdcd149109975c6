package org.kilnside.chart;

import java.util.List;
import java.util.Optional;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.tracking.FiringFigures;
import org.kilnside.tracking.PlanPosition.PlanPoint;

/**
 * What stands at one moment of a drawing.
 *
 * @param elapsedMs the moment, on the recording's clock
 * @param actual what the kiln had; empty in a gap and in the future
 * @param planned what the plan asks; empty outside it
 */
public record Readout(long elapsedMs, Optional<Temperature> actual, Optional<Temperature> planned) {
    public static Readout at(long elapsedMs, ChartContent content) {
        return new Readout(elapsedMs, actual(elapsedMs, content.curve()), planned(elapsedMs, content.plan()));
    }

    private static Optional<Temperature> actual(long elapsedMs, Trace curve) {
        int before = curve.indexAt(elapsedMs);
        if (before < 0) {
            return Optional.empty();
        }
        long reach = FiringFigures.gapLimitMs(curve);
        if (before + 1 < curve.size()
                && curve.elapsedMs(before + 1) - curve.elapsedMs(before) <= reach
                && curve.elapsedMs(before + 1) - elapsedMs < elapsedMs - curve.elapsedMs(before)) {
            return Optional.of(Temperature.ofCelsius(curve.temperatureC(before + 1)));
        }
        return elapsedMs - curve.elapsedMs(before) <= reach
                ? Optional.of(Temperature.ofCelsius(curve.temperatureC(before)))
                : Optional.empty();
    }

    static Optional<Temperature> planned(long elapsedMs, List<PlanPoint> plan) {
        for (int i = 0; i + 1 < plan.size(); i++) {
            PlanPoint from = plan.get(i);
            PlanPoint to = plan.get(i + 1);
            if (elapsedMs >= from.elapsedMs() && elapsedMs <= to.elapsedMs()) {
                double share = to.elapsedMs() == from.elapsedMs()
                        ? 1
                        : (double) (elapsedMs - from.elapsedMs()) / (to.elapsedMs() - from.elapsedMs());
                return Optional.of(
                        Temperature.ofCelsius(from.temperatureC() + share * (to.temperatureC() - from.temperatureC())));
            }
        }
        return Optional.empty();
    }
}

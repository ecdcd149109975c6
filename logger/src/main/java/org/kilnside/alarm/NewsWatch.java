package org.kilnside.alarm;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Supplier;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast;

/**
 * Good news of the cooling: below the temperatures for lid and unloading. Never by a number that is the air's: then the
 * model has to be sure of it, to the late end of its interval, and it is not told as seen. Where another temperature is
 * set in mid-firing, what was told of the old one is taken back if it is not true of the new.
 */
final class NewsWatch {
    private final Supplier<AlarmLimits> limits;
    private OptionalDouble lidToldC = OptionalDouble.empty();
    private OptionalDouble unloadToldC = OptionalDouble.empty();
    private Optional<Forecast> answer = Optional.empty();

    NewsWatch(Supplier<AlarmLimits> limits) {
        this.limits = limits;
    }

    /** The newest answer of the forecast. */
    void forecast(Forecast its) {
        answer = Optional.of(its);
    }

    /**
     * Looks.
     *
     * @param hottestC of all sensors
     * @param cools whether the firing has been hot and cools
     * @param lid whether the number is the air's, and what a shut kiln would have
     */
    void look(long nowMs, double hottestC, boolean cools, LidWatch lid, AlarmLedger ledger) {
        if (!cools) {
            return;
        }
        double wareC = lid.isOpen() ? Math.max(hottestC, lid.expectedC(nowMs)) : hottestC;
        boolean air = lid.isOpen() || answer.filter(NewsWatch::readsAir).isPresent();
        lidToldC = told(lidToldC, limits.get().lid(), AlarmKind.BELOW_LID_THRESHOLD, nowMs, wareC, air, ledger);
        unloadToldC =
                told(unloadToldC, limits.get().unload(), AlarmKind.BELOW_UNLOAD_THRESHOLD, nowMs, wareC, air, ledger);
    }

    private static boolean readsAir(Forecast its) {
        return its.remarks().stream().anyMatch(remark -> remark.kind() == Forecast.Remark.Kind.SENSOR_READS_AIR);
    }

    /** Whether by the model the ware may still be above it. */
    private boolean mayBeAbove(Temperature threshold, long nowMs) {
        return answer.stream()
                .flatMap(its -> its.below().stream())
                .filter(below -> below.temperature().equals(threshold))
                .flatMap(below -> below.when().stream())
                .anyMatch(when -> when.toS() * 1000 > nowMs);
    }

    /** Below which temperature it has been told to be, now. */
    private OptionalDouble told(
            OptionalDouble toldC,
            Temperature threshold,
            AlarmKind kind,
            long nowMs,
            double wareC,
            boolean air,
            AlarmLedger ledger) {
        double belowC = threshold.celsius();
        if (wareC < belowC) {
            if (toldC.isPresent() && toldC.getAsDouble() <= belowC || air && mayBeAbove(threshold, nowMs)) {
                return toldC;
            }
            Optional<Measure> seen = air ? Optional.empty() : Optional.of(Measure.ofCelsius(wareC));
            ledger.tell(kind, new Finding(nowMs, 0, seen, Optional.of(Measure.ofCelsius(belowC))), nowMs);
            return OptionalDouble.of(belowC);
        }
        if (toldC.isPresent() && toldC.getAsDouble() > belowC) {
            ledger.clear(kind, nowMs);
            return OptionalDouble.empty();
        }
        return toldC;
    }
}

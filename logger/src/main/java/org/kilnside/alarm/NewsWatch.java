package org.kilnside.alarm;

import java.util.OptionalDouble;
import java.util.function.Supplier;

/**
 * Good news of the cooling: below the temperatures for lid and unloading. Never by a number that is the air's. Where another
 * temperature is set in mid-firing, what was told of the old one is taken back if it is not true of the new.
 */
final class NewsWatch {
    private final Supplier<AlarmLimits> limits;
    private OptionalDouble lidToldC = OptionalDouble.empty();
    private OptionalDouble unloadToldC = OptionalDouble.empty();

    NewsWatch(Supplier<AlarmLimits> limits) {
        this.limits = limits;
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
        lidToldC = told(lidToldC, limits.get().lid().celsius(), AlarmKind.BELOW_LID_THRESHOLD, nowMs, wareC, ledger);
        unloadToldC = told(
                unloadToldC, limits.get().unload().celsius(), AlarmKind.BELOW_UNLOAD_THRESHOLD, nowMs, wareC, ledger);
    }

    /** Below which temperature it has been told to be, now. */
    private static OptionalDouble told(
            OptionalDouble toldC, double belowC, AlarmKind kind, long nowMs, double wareC, AlarmLedger ledger) {
        if (wareC < belowC) {
            if (toldC.isPresent() && toldC.getAsDouble() <= belowC) {
                return toldC;
            }
            ledger.tell(kind, Finding.since(nowMs, Measure.ofCelsius(wareC), Measure.ofCelsius(belowC)), nowMs);
            return OptionalDouble.of(belowC);
        }
        if (toldC.isPresent() && toldC.getAsDouble() > belowC) {
            ledger.clear(kind, nowMs);
            return OptionalDouble.empty();
        }
        return toldC;
    }
}

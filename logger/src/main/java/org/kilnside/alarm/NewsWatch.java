package org.kilnside.alarm;

/** Good news of the cooling: below the temperatures for lid and unloading. Never by a number that is the air's. */
final class NewsWatch {
    private final AlarmLimits limits;
    private boolean lidTold;
    private boolean unloadTold;

    NewsWatch(AlarmLimits limits) {
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
        if (!lidTold && wareC < limits.lid().celsius()) {
            lidTold = true;
            tell(AlarmKind.BELOW_LID_THRESHOLD, nowMs, wareC, limits.lid().celsius(), ledger);
        }
        if (!unloadTold && wareC < limits.unload().celsius()) {
            unloadTold = true;
            tell(AlarmKind.BELOW_UNLOAD_THRESHOLD, nowMs, wareC, limits.unload().celsius(), ledger);
        }
    }

    private static void tell(AlarmKind kind, long nowMs, double seenC, double belowC, AlarmLedger ledger) {
        ledger.tell(kind, Finding.since(nowMs, Measure.ofCelsius(seenC), Measure.ofCelsius(belowC)), nowMs);
    }
}

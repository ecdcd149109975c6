package org.kilnside.tracking;

import java.util.OptionalDouble;

/**
 * Whether the number of a cooling kiln is room air's, because its lid was propped or its door opened. A shut kiln cools
 * ever more slowly, so a fall below the straight line of the last quarter of an hour is none of its own. From then on the
 * ware is taken for what a shut kiln would have come down to, until the reading has risen back, or both are cold.
 *
 * <p>Looked at by half minutes, below the heat at which controlled cooling ends and a lid is ever touched. The numbers are
 * common practice, tried on simulated kilns.
 */
final class OpenLid {
    private static final long MINUTE_MS = 60_000;

    /** Nobody lifts a lid above this, and controlled cooling lies above it. */
    private static final double LOOKED_AT_BELOW_C = 350;

    private static final double LEAST_K = 5;
    private static final double SHARE = 0.05;
    private static final double ROOM_C = 20;

    /** The reading has risen back to within this of what a shut kiln has; what rises further is heat. */
    private static final double BACK_K = 4;

    private static final double HEAT_K = 12;

    private boolean open;
    private long openedMs;
    private double openedC;
    private double perMs;

    /** Looks, when another half minute of a cooling kiln's curve is full. */
    void look(TemperatureTrend trend) {
        long nowMs = trend.ms(0);
        double nowC = trend.celsius(0);
        if (open) {
            boolean back = nowC >= shutC(nowMs) - BACK_K && nowMs - openedMs > 10 * MINUTE_MS;
            open = !back;
            return;
        }
        OptionalDouble before = trend.celsiusAgo(5 * MINUTE_MS);
        OptionalDouble earlier = trend.celsiusAgo(20 * MINUTE_MS);
        if (before.isEmpty() || earlier.isEmpty() || earlier.getAsDouble() > LOOKED_AT_BELOW_C) {
            return;
        }
        double fell = earlier.getAsDouble() - before.getAsDouble();
        double expectedC = before.getAsDouble() - fell / 3;
        if (fell >= 0 && nowC < expectedC - Math.max(LEAST_K, SHARE * before.getAsDouble())) {
            open = true;
            openedMs = nowMs - 5 * MINUTE_MS;
            openedC = before.getAsDouble();
            perMs = fell / (15 * MINUTE_MS) / Math.max(1, openedC - ROOM_C);
        }
    }

    /** What the ware has at most, °C, where the number is the air's; empty where it is the kiln's own. */
    OptionalDouble wareC(long nowMs) {
        return open ? OptionalDouble.of(shutC(nowMs)) : OptionalDouble.empty();
    }

    /** Whether a rise is no more than that of a reading whose lid was shut again. */
    boolean explains(long nowMs, double celsius) {
        return open && celsius < shutC(nowMs) + HEAT_K;
    }

    /** A shut kiln's fall dies away towards the room. */
    private double shutC(long nowMs) {
        return ROOM_C + Math.max(0, openedC - ROOM_C) * Math.exp(-perMs * (nowMs - openedMs));
    }
}

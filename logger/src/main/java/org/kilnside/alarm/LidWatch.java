package org.kilnside.alarm;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The kiln was opened while it cools: from then on the sensor reads room air, the ware is hotter. A shut kiln cools ever
 * more slowly, so a fall below the straight line of the last quarter of an hour is no cooling of its own. Shut again, the
 * reading rebounds.
 */
final class LidWatch {
    private static final long MINUTE_MS = 60_000;

    /** Left to itself for this long, the kiln's own fall is a smooth one. */
    private static final long SETTLED_MS = 40 * MINUTE_MS;

    private static final double LEAST_K = 5;
    private static final double SHARE = 0.04;
    private static final double HOT_C = 500;
    private static final double HOT_LEAST_K = 30;
    private static final double REBOUNDS_SHARE = 0.3;
    private static final double REBOUNDS_LEAST_K = 5;

    private long freeSinceMs = Long.MIN_VALUE;
    private Optional<Finding> opened = Optional.empty();
    private double beforeC;
    private double perHourBefore;
    private double lowestC;
    private long shutMs = Long.MIN_VALUE;

    /** @param free whether nothing heats the kiln and nothing is planned to */
    Optional<Finding> look(Beats beats, boolean free) {
        long nowMs = beats.nowMs();
        if (!free) {
            freeSinceMs = Long.MIN_VALUE;
            opened = Optional.empty();
            return opened;
        }
        if (freeSinceMs == Long.MIN_VALUE) {
            freeSinceMs = nowMs;
        }
        if (opened.isPresent()) {
            lowestC = Math.min(lowestC, beats.nowC());
            double rebound = beats.nowC() - lowestC;
            if (rebound > Math.max(REBOUNDS_LEAST_K, REBOUNDS_SHARE * (expectedC(nowMs) - lowestC))) {
                opened = Optional.empty();
                shutMs = nowMs;
            }
            return opened;
        }
        if (nowMs - freeSinceMs < SETTLED_MS || nowMs - shutMs < SETTLED_MS && shutMs != Long.MIN_VALUE) {
            return opened;
        }
        OptionalDouble off = beats.offLine(20 * MINUTE_MS, 5 * MINUTE_MS, 0);
        OptionalDouble rough = beats.roughness(20 * MINUTE_MS, 5 * MINUTE_MS);
        if (off.isEmpty() || rough.isEmpty()) {
            return opened;
        }
        double atC = beats.meanC(5 * MINUTE_MS + 20_000, 5 * MINUTE_MS).orElse(beats.nowC());
        double least = atC > HOT_C ? HOT_LEAST_K : Math.max(LEAST_K, SHARE * atC);
        if (-off.getAsDouble() > Math.max(least, 5 * rough.getAsDouble())) {
            beforeC = atC;
            perHourBefore = beats.slope(20 * MINUTE_MS, 5 * MINUTE_MS).orElse(0);
            lowestC = beats.nowC();
            opened = Optional.of(Finding.since(
                    nowMs - 5 * MINUTE_MS,
                    Measure.ofCelsius(beats.nowC()),
                    Measure.ofCelsius(beats.nowC() - off.getAsDouble())));
        }
        return opened;
    }

    /** Whether the number is the air's now. */
    boolean isOpen() {
        return opened.isPresent();
    }

    /** Whether it was shut again a while ago, so that the reading climbs by itself. */
    boolean rebounds(long nowMs) {
        return isOpen() || shutMs != Long.MIN_VALUE && nowMs - shutMs < 2 * SETTLED_MS;
    }

    /**
     * What a shut kiln would have come down to, °C: the fall as it was, dying away towards the room. Ware in an open
     * kiln cools faster than that, so it is no hotter.
     */
    double expectedC(long nowMs) {
        long openedMs = opened.map(Finding::sinceMs).orElse(nowMs);
        double aboveRoomK = Math.max(1, beforeC - 20);
        double perMs = Math.max(0, -perHourBefore) / 3_600_000 / aboveRoomK;
        return 20 + aboveRoomK * Math.exp(-perMs * (nowMs - openedMs));
    }
}

package org.kilnside.alarm;

import java.util.Optional;
import org.kilnside.firing.Reading;
import org.kilnside.sensor.RawSignal;

/**
 * The same number again and again. How long that may be by chance is learned from the sensor itself: the longest run of
 * one code in the hour before. A code that had to change, because the kiln was heating or cooling, has less time. Where the
 * kiln is meant to stand there, a sensor without noise of its own may well stand still with it, and has half an hour.
 */
final class FrozenWatch {
    private static final long MINUTE_MS = 60_000;
    private static final long FROZEN_MS = 4 * MINUTE_MS;
    private static final long FROZEN_AT_LAST_MS = 30 * MINUTE_MS;
    private static final int LEAST_LINES = 4;
    private static final double TIMES_USUAL = 5;
    private static final double MUST_HAVE_MOVED_K = 4;
    private static final double HOT_C = 60;

    private long code = Long.MIN_VALUE;
    private long sinceMs;
    private int lines;
    private long longestMs;
    private long longestBeforeMs;
    private long hourMs = Long.MIN_VALUE;
    private final Roughness roughness = new Roughness();

    /**
     * Whether readings are off the straight line through their neighbours by more than rounding makes, two of its steps:
     * such a sensor does not come to stand still by itself. Where it does stand still nothing is learned.
     */
    private static final class Roughness {
        private static final double MORE_THAN_ROUNDING = 2.5;
        private static final int LEAST = 20;
        private static final int KEPT = 720;
        private static final double SHARE = 0.1;

        private int before;
        private int beforeThat;
        private int codes;
        private int step = Integer.MAX_VALUE;
        private double rough;
        private double looked;

        void add(int code) {
            if (codes > 0 && code != before) {
                step = Math.min(step, Math.abs(code - before));
            }
            if (codes > 1 && !(code == before && before == beforeThat)) {
                looked++;
                rough += Math.abs(beforeThat - 2.0 * before + code) > MORE_THAN_ROUNDING * step ? 1 : 0;
                if (looked > KEPT) {
                    looked /= 2;
                    rough /= 2;
                }
            }
            codes = Math.min(2, codes + 1);
            beforeThat = before;
            before = code;
        }

        boolean isNoisy() {
            return looked >= LEAST && rough >= SHARE * looked;
        }
    }

    /** Takes each line of the guiding channel; cheap. */
    void line(Reading reading) {
        RawSignal raw = reading.first().raw();
        if (raw.thermocouple().isEmpty()) {
            code = Long.MIN_VALUE;
            lines = 0;
            return;
        }
        long now = reading.elapsedMs();
        roughness.add(raw.thermocouple().getAsInt());
        long its = raw.thermocouple().getAsInt() * 100_000L + raw.coldJunction().orElse(0);
        if (its != code) {
            if (lines > 0) {
                longestMs = Math.max(longestMs, now - sinceMs);
            }
            code = its;
            sinceMs = now;
            lines = 1;
        } else {
            lines++;
        }
        if (hourMs == Long.MIN_VALUE || now - hourMs > 60 * MINUTE_MS) {
            hourMs = now;
            longestBeforeMs = longestMs;
            longestMs = 0;
        }
    }

    /**
     * Looks.
     *
     * @param perHourBefore how fast the temperature changed in the ten minutes before it stood still
     * @param held whether the kiln is meant to stand where the number does
     */
    Optional<Finding> look(long nowMs, double celsius, Optional<Double> perHourBefore, boolean held) {
        long standsMs = nowMs - sinceMs;
        if (lines < LEAST_LINES || standsMs < FROZEN_MS || celsius < HOT_C) {
            return Optional.empty();
        }
        double moves = Math.abs(perHourBefore.orElse(0.0)) * standsMs / 3_600_000.0;
        boolean unusual = standsMs > TIMES_USUAL * Math.max(longestBeforeMs, longestMs)
                && Math.max(longestBeforeMs, longestMs) > 0;
        boolean surprises = (moves > MUST_HAVE_MOVED_K || unusual) && (roughness.isNoisy() || !held);
        return surprises || standsMs > FROZEN_AT_LAST_MS
                ? Optional.of(Finding.since(sinceMs, Measure.ofMillis(standsMs), Measure.ofMillis(0)))
                : Optional.empty();
    }

    /** Since when the number has been the same. */
    long sinceMs() {
        return sinceMs;
    }
}

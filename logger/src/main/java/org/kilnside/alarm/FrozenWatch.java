package org.kilnside.alarm;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.firing.Reading;
import org.kilnside.sensor.RawSignal;

/**
 * The same number again and again. How long that may be by chance is learned from the sensor itself: the longest run of
 * one code in the hour before. A code that had to change, because the kiln was heating or cooling, has less time.
 *
 * <p>A sensor with noise of its own does not come to stand still by itself. One without, such as a display of whole
 * degrees, may well stand still with a kiln that is held: as long as set-point or plan say so it is believed, unless the
 * output shows that the kiln cannot stand. Where nobody tells what the kiln is meant to do, a hold and a frozen sensor
 * look alike, and that is what is said.
 */
final class FrozenWatch {
    private static final long MINUTE_MS = 60_000;
    private static final long FROZEN_MS = 4 * MINUTE_MS;
    private static final long FROZEN_AT_LAST_MS = 30 * MINUTE_MS;
    private static final int LEAST_LINES = 4;
    private static final double TIMES_USUAL = 5;
    private static final double MUST_HAVE_MOVED_K = 4;
    private static final double HOT_C = 60;

    /** Above this a kiln that is not heated falls by degrees within minutes, whatever its wall. */
    private static final double FALLS_FAST_C = 300;

    /** Below this a large kiln may take most of an hour to the next whole degree, cooling by itself. */
    private static final double CRAWLS_BELOW_C = 120;

    private static final long CRAWLS_MS = 120 * MINUTE_MS;

    /** After a hold the set-point runs ahead of the kiln for so long before the number has to follow. */
    private static final long FOLLOWS_MS = 6 * MINUTE_MS;

    /** Who fires without plan and set-point told is asked after so long. */
    private static final long ASKED_MS = 60 * MINUTE_MS;

    private static final long ASKED_SOON_MS = 10 * MINUTE_MS;

    private long code = Long.MIN_VALUE;
    private long sinceMs;
    private int lines;
    private long longestMs;
    private long longestBeforeMs;
    private long hourMs = Long.MIN_VALUE;
    private long meantUntilMs = Long.MIN_VALUE;
    private final Display display = new Display();
    private final Pace pace = new Pace();
    private final Roughness roughness = new Roughness();

    /** What the kiln is meant to do where the number stands. */
    enum Meant {
        TO_STAND,
        TO_MOVE,
        /** The set-point is above it. */
        TO_RISE,
        /** Neither plan nor set-point is told. */
        NOT_TOLD
    }

    /**
     * A number that stands too long.
     *
     * @param frozen whether no kiln explains it; else it may be a hold of which nobody told
     */
    record Standing(Finding found, boolean frozen) {}

    /**
     * In which steps the numbers come, and whether one of them is such as somebody keys in to hold at. Where every number is
     * whole, or a quarter, only a round one is.
     */
    private static final class Display {
        private static final double SAME_K = 0.006;
        private static final double COARSE_STEP_C = 0.25;
        private static final double BETWEEN_SHARE = 0.3;
        private static final double ROUND_C = 5;
        private static final double ROUND_F = 10;

        private int seen;
        private int betweenC;
        private int betweenF;

        void add(double celsius) {
            seen++;
            betweenC += offFrom(celsius, COARSE_STEP_C) > SAME_K ? 1 : 0;
            betweenF += offFrom(fahrenheit(celsius), 1) > SAME_K * 9 / 5 ? 1 : 0;
        }

        private boolean isCoarseC() {
            return betweenC <= BETWEEN_SHARE * seen;
        }

        private boolean isCoarseF() {
            return betweenF <= BETWEEN_SHARE * seen;
        }

        boolean isCoarse() {
            return isCoarseC() || isCoarseF();
        }

        boolean mayBeKeyedIn(double celsius) {
            double stepC = isCoarseC() ? ROUND_C : 1;
            double stepF = isCoarseF() ? ROUND_F : 1;
            boolean asC = offFrom(celsius, stepC) < SAME_K && !isCoarseF();
            boolean asF = offFrom(fahrenheit(celsius), stepF) < SAME_K * 9 / 5 && !isCoarseC();
            return asC || asF;
        }

        private static double fahrenheit(double celsius) {
            return celsius * 9 / 5 + 32;
        }

        private static double offFrom(double value, double step) {
            return Math.abs(value - step * Math.rint(value / step));
        }
    }

    /**
     * How long each of the last numbers stood. Before the crest of an overshoot each stands longer than the one before, and
     * a kiln may be behind it; a sensor that freezes in a ramp stops at full pace.
     */
    private static final class Pace {
        private static final int KEPT = 8;
        private static final int LEAST = 5;
        private static final double SLACKENED = 1.6;

        private final Deque<Long> runs = new ArrayDeque<>();

        void ran(long ms) {
            runs.addLast(ms);
            if (runs.size() > KEPT) {
                runs.removeFirst();
            }
        }

        boolean slackened() {
            if (runs.size() < LEAST) {
                return false;
            }
            long middle =
                    runs.stream().sorted().skip(runs.size() / 2).findFirst().orElseThrow();
            return runs.getLast() >= SLACKENED * middle;
        }
    }

    /**
     * Whether readings are off the straight line through their neighbours by more than rounding makes, two of its steps:
     * such a sensor does not come to stand still by itself. Where it does stand still nothing is learned.
     */
    private static final class Roughness {
        private static final double MORE_THAN_ROUNDING = 2.5;
        private static final int LEAST = 20;
        private static final int KEPT = 720;
        private static final double SHARE = 0.1;
        private static final int LEAST_TO_AND_FRO = 6;
        private static final long FLICKER_MS = MINUTE_MS;

        private int before;
        private int beforeThat;
        private int there;
        private int toAndFro;
        private int codes;
        private int step = Integer.MAX_VALUE;
        private double rough;
        private double looked;

        /** @param stoodMs how long the one before has stood */
        void add(int code, long stoodMs) {
            if (codes > 0 && code != before) {
                step = Math.min(step, Math.abs(code - before));
            }
            if (codes > 0 && code != before) {
                toAndFro += code == there && stoodMs <= FLICKER_MS ? 1 : 0;
                there = before;
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

        /** A new hold, or none. */
        void settlesAnew() {
            toAndFro = 0;
        }

        /** Whether it flickered between two numbers in this hold, which is noise: a kiln takes longer to swing. */
        boolean wentToAndFro() {
            return toAndFro >= LEAST_TO_AND_FRO;
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
        roughness.add(raw.thermocouple().getAsInt(), now - sinceMs);
        long its = raw.thermocouple().getAsInt() * 100_000L + raw.coldJunction().orElse(0);
        if (its != code) {
            reading.first().temperature().ifPresent(shown -> display.add(shown.celsius()));
            if (lines > 0) {
                longestMs = Math.max(longestMs, now - sinceMs);
                pace.ran(now - sinceMs);
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
     * @param perHourJustBefore the same of the last minutes, by which a number without noise is judged
     * @param meant what set-point or plan say of it
     * @param gainsay whether the output is one with which no kiln stands still
     */
    Optional<Standing> look(
            long nowMs,
            double celsius,
            OptionalDouble perHourBefore,
            OptionalDouble perHourJustBefore,
            Meant meant,
            boolean gainsay) {
        if (meant != Meant.TO_STAND) {
            roughness.settlesAnew();
        }
        long standsMs = nowMs - sinceMs;
        if (lines < LEAST_LINES || standsMs < FROZEN_MS || celsius < HOT_C) {
            return Optional.empty();
        }
        boolean wasMeant = meantUntilMs > sinceMs;
        if (meant == Meant.TO_STAND) {
            meantUntilMs = nowMs;
        }
        long longest = Math.max(longestBeforeMs, longestMs);
        boolean noisy = roughness.isNoisy();
        OptionalDouble perHour = noisy || perHourJustBefore.isEmpty() ? perHourBefore : perHourJustBefore;
        boolean moved = Math.abs(perHour.orElse(0)) * standsMs / 3_600_000.0 > MUST_HAVE_MOVED_K
                && (noisy || !pace.slackened());
        boolean unusual = longest > 0 && standsMs > TIMES_USUAL * longest;
        boolean frozen;
        if (noisy) {
            frozen = moved || unusual || standsMs > FROZEN_AT_LAST_MS;
        } else if (meant == Meant.TO_STAND) {
            frozen = gainsay || unusual && roughness.wentToAndFro() && standsMs > FROZEN_AT_LAST_MS;
        } else if (meant == Meant.NOT_TOLD) {
            frozen = gainsay || moved && !display.mayBeKeyedIn(celsius);
        } else if (wasMeant) {
            boolean soon = meant == Meant.TO_RISE || celsius > FALLS_FAST_C;
            frozen = nowMs - meantUntilMs > (soon ? FOLLOWS_MS : FROZEN_AT_LAST_MS);
        } else {
            frozen = moved || standsMs > (celsius > CRAWLS_BELOW_C ? FROZEN_AT_LAST_MS : CRAWLS_MS);
        }
        // Whole degrees that stopped on a round number may have frozen there just as well: that is asked sooner.
        long askedMs = moved && display.isCoarse() ? ASKED_SOON_MS : ASKED_MS;
        if (!frozen && (meant != Meant.NOT_TOLD || standsMs < askedMs)) {
            return Optional.empty();
        }
        Finding found = frozen
                ? Finding.since(sinceMs, Measure.ofMillis(standsMs), Measure.ofMillis(0))
                : new Finding(sinceMs, 0, Optional.of(Measure.ofMillis(standsMs)), Optional.empty());
        return Optional.of(new Standing(found, frozen));
    }

    /** Since when the number has been the same. */
    long sinceMs() {
        return sinceMs;
    }
}

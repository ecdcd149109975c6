package org.kilnside.sensor;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Tells false temperatures from true ones by what a kiln can do, before tracking, heat work, peak or over-temperature
 * see them. Relay noise makes jumps of hundreds of degrees for one reading or a short burst; a kiln with brick in it
 * does not come back from such a jump.
 *
 * <p>Causal, and a function of the readings alone: the same readings give the same judgements, live or replayed. A
 * reading that follows the local trend (within 20 °C of the last good one or of the median of the last five, and 1 °C
 * more for each second between) is accepted at once. Any other is withheld, and readings after it that agree with it
 * or go on the same way join it, until
 * <ul>
 *   <li>a reading follows the old trend again: all that was withheld was false;
 *   <li>or the withheld run has lasted: it was true, and is let through in order. A fall a thermocouple can follow (a
 *       lid lifted), a return to where the kiln was within the last half hour, or a change across a gap lasts after 4
 *       readings and 5 s. A change no kiln can make (up faster than 1 °C/s to where it has not been, or down faster
 *       than 50 °C/s) lasts after 30 readings and 60 s, or 5 readings and 30 minutes.
 * </ul>
 * The first three readings that agree begin the trend. So the lag is 0 readings in a quiet firing, 2 readings at the
 * start, and never more than the times above.
 *
 * <p>The numbers are common practice, not from a standard. Confined to one thread.
 *
 * @param <T> what the caller wants back with each judgement, such as the reading itself
 */
public final class OutlierFilter<T> {
    /** Noise, rounding, and a relay's small disturbances; a false 20 °C for a few readings does no harm. */
    private static final double BAND_K = 20;

    /** 3,600 °C/h: faster than a potter's kiln heats or cools shut. */
    private static final double SHUT_KILN_K_PER_S = 1;

    /** Beyond this much time between readings a kiln's usual 500 °C/h, not its fastest second, bounds the change. */
    private static final double SHORT_GAP_S = 60;

    private static final double USUAL_K_PER_S = 500.0 / 3600;

    /** A sheathed thermocouple pulled from a white-hot kiln falls no faster. */
    private static final double FASTEST_FALL_K_PER_S = 50;

    private static final int FIRST = 3;
    private static final int FEW = 4;
    private static final long A_MOMENT_MS = 5_000;
    private static final int MANY = 30;
    private static final long A_WHILE_MS = 60_000;
    private static final int SOME = 5;
    private static final long A_LONG_WHILE_MS = 1_800_000;
    private static final long LOOK_BACK_MS = 1_800_000;

    private static final int WINDOW = 5;

    private final Listener<? super T> listener;
    private final double[] window = new double[WINDOW];
    private final double[] sorted = new double[WINDOW];
    private int accepted;
    private long lastMs;
    private double lastC;
    private long lastOfferedMs = Long.MIN_VALUE;
    private final RecentHighest recent = new RecentHighest(LOOK_BACK_MS);

    private final List<T> withheld = new ArrayList<>();
    private long[] withheldMs = new long[64];
    private double[] withheldC = new double[64];

    public OutlierFilter(Listener<? super T> listener) {
        this.listener = listener;
    }

    /** Takes the judgements, in the order in which the readings were offered. */
    public interface Listener<T> {
        /** A true temperature. */
        void accepted(long elapsedMs, double celsius, T reading);

        /** A false one: for the book, and for nothing else. */
        void rejected(long elapsedMs, double celsius, T reading);
    }

    /**
     * Offers the next good reading.
     *
     * @param elapsedMs ms on the recording's clock, not before the last one offered
     * @param celsius °C at the tip
     * @param reading handed back with the judgement
     */
    public void offer(long elapsedMs, double celsius, T reading) {
        if (elapsedMs < lastOfferedMs) {
            throw new IllegalArgumentException(
                    "readings are judged in order: " + elapsedMs + " ms came after " + lastOfferedMs + " ms");
        }
        lastOfferedMs = elapsedMs;
        if (accepted > 0 && followsTrend(elapsedMs, celsius)) {
            rejectWithheld();
            accept(elapsedMs, celsius, reading);
            return;
        }
        int count = withheld.size();
        if (count > 0 && !goesOn(elapsedMs, celsius)) {
            rejectWithheld();
        }
        withhold(elapsedMs, celsius, reading);
        if (hasLasted()) {
            acceptWithheld();
        }
    }

    /** Whether the last reading offered is withheld: not yet known to be true or false. */
    public boolean withholds() {
        return !withheld.isEmpty();
    }

    /** Says that no reading follows: what is still withheld is false, but where there never was a trend to judge by. */
    public void flush() {
        if (accepted == 0) {
            acceptWithheld();
        } else {
            rejectWithheld();
        }
    }

    private boolean followsTrend(long elapsedMs, double celsius) {
        long sinceMs = elapsedMs - lastMs;
        return near(celsius, lastC, sinceMs) || near(celsius, median(), sinceMs);
    }

    private static boolean near(double celsius, double otherC, long apartMs) {
        double apartS = apartMs / 1000.0;
        double change =
                Math.min(apartS, SHORT_GAP_S) * SHUT_KILN_K_PER_S + Math.max(0, apartS - SHORT_GAP_S) * USUAL_K_PER_S;
        return Math.abs(celsius - otherC) <= BAND_K + change;
    }

    /** Whether a reading stays where the last withheld one was, or goes on away from the trend as fast as is possible. */
    private boolean goesOn(long elapsedMs, double celsius) {
        int last = withheld.size() - 1;
        long apartMs = elapsedMs - withheldMs[last];
        if (near(celsius, withheldC[last], apartMs)) {
            return true;
        }
        double onward = (celsius - withheldC[last]) * Math.signum(withheldC[0] - lastC);
        return accepted > 0 && onward > 0 && onward <= FASTEST_FALL_K_PER_S * apartMs / 1000.0;
    }

    private boolean hasLasted() {
        int count = withheld.size();
        long lastingMs = withheldMs[count - 1] - withheldMs[0];
        if (accepted == 0) {
            return count >= FIRST;
        }
        if (isPossible()) {
            return count >= FEW && lastingMs >= A_MOMENT_MS;
        }
        return count >= MANY && lastingMs >= A_WHILE_MS || count >= SOME && lastingMs >= A_LONG_WHILE_MS;
    }

    /** Whether a kiln could have gone from the last good reading to the first withheld one. */
    private boolean isPossible() {
        return isPossible(lastC, withheldC[0], withheldMs[0] - lastMs)
                || withheldC[0] > lastC && withheldC[0] <= recent.highestC(lastMs) + BAND_K;
    }

    /**
     * Whether a thermocouple in a kiln can go from one temperature to another in a time: up by no more than 1 °C/s, down
     * by no more than 50 °C/s, and 20 °C more either way.
     */
    public static boolean isPossible(double fromC, double toC, long apartMs) {
        double fastest = toC < fromC ? FASTEST_FALL_K_PER_S : SHUT_KILN_K_PER_S;
        return Math.abs(toC - fromC) <= BAND_K + fastest * apartMs / 1000.0;
    }

    private double median() {
        int count = Math.min(accepted, WINDOW);
        for (int i = 0; i < count; i++) {
            double value = window[i];
            int place = i;
            while (place > 0 && sorted[place - 1] > value) {
                sorted[place] = sorted[place - 1];
                place--;
            }
            sorted[place] = value;
        }
        return sorted[count / 2];
    }

    private void accept(long elapsedMs, double celsius, T reading) {
        window[accepted % WINDOW] = celsius;
        accepted = accepted == 2 * WINDOW - 1 ? WINDOW : accepted + 1;
        lastMs = elapsedMs;
        lastC = celsius;
        recent.add(elapsedMs, celsius);
        listener.accepted(elapsedMs, celsius, reading);
    }

    private void withhold(long elapsedMs, double celsius, T reading) {
        int count = withheld.size();
        if (count == withheldMs.length) {
            withheldMs = Arrays.copyOf(withheldMs, 2 * count);
            withheldC = Arrays.copyOf(withheldC, 2 * count);
        }
        withheldMs[count] = elapsedMs;
        withheldC[count] = celsius;
        withheld.add(reading);
    }

    private void acceptWithheld() {
        for (int i = 0; i < withheld.size(); i++) {
            accept(withheldMs[i], withheldC[i], withheld.get(i));
        }
        withheld.clear();
    }

    private void rejectWithheld() {
        for (int i = 0; i < withheld.size(); i++) {
            listener.rejected(withheldMs[i], withheldC[i], withheld.get(i));
        }
        withheld.clear();
    }

    /** The highest temperature of the last while, remembered in two halves of it. */
    private static final class RecentHighest {
        private final long halfMs;
        private long halfBeganMs = Long.MIN_VALUE;
        private double beforeC = Double.NEGATIVE_INFINITY;
        private double nowC = Double.NEGATIVE_INFINITY;

        RecentHighest(long spanMs) {
            this.halfMs = spanMs / 2;
        }

        void add(long elapsedMs, double celsius) {
            if (halfBeganMs == Long.MIN_VALUE) {
                halfBeganMs = elapsedMs;
            } else if (elapsedMs - halfBeganMs >= halfMs) {
                beforeC = elapsedMs - halfBeganMs < 2 * halfMs ? nowC : Double.NEGATIVE_INFINITY;
                nowC = Double.NEGATIVE_INFINITY;
                halfBeganMs = elapsedMs;
            }
            nowC = Math.max(nowC, celsius);
        }

        double highestC(long elapsedMs) {
            return elapsedMs - halfBeganMs < 2 * halfMs ? Math.max(beforeC, nowC) : nowC;
        }
    }
}

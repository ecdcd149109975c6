package org.kilnside.sensor;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.OptionalDouble;
import java.util.OptionalLong;

/**
 * Watches for an output that stands at full while the kiln cools for hours as kilns without power do. Then it is the output
 * that is not what the elements get (another column, one turned round, elements without power), and that the number is low
 * at full output tells nothing against the number.
 *
 * <p>A harmless number over a kiln that runs away looks otherwise, and when in doubt nothing is seen here: a sensor that
 * slips out or is shorted is elsewhere within minutes and then stands or climbs. A fall like that, a climb, or any less
 * output, and the two hours begin anew. The limits are common practice.
 *
 * <p>A function of the readings alone. Confined to one thread.
 */
public final class CoolingAtFullOutput {
    private static final double FULL = 0.9;
    private static final long PART_MS = 20 * 60_000;

    /** Two hours. */
    private static final int PARTS = 6;

    /** Of all the cooling at full output, K. */
    private static final double COOLED_K = 200;

    /** A cooling dies away: in no third of an hour it falls by more than in the one before, but for what noise and steps make. */
    private static final double OF_BEFORE = 1.05;

    private static final double NOISE_K = 2;

    /** In the last third of an hour of the two hours it falls by less than this of what it fell by in the first. */
    private static final double OF_FIRST = 0.95;

    /** A kiln whose elements are on climbs; a sensor's noise does not reach so far, K. */
    private static final double CLIMBS_K = 15;

    private static final long MINUTE_MS = 60_000;

    /** More than this and this share no kiln without power falls in a minute, nor in the two that follow each other, K. */
    private static final double AT_ONCE_K = 25;

    private static final double AT_ONCE_SHARE = 0.03;

    private final Deque<Double> parts = new ArrayDeque<>();
    private boolean full;
    private boolean fellAtOnce;
    private boolean seen;
    private long beganMs;
    private double highestC;
    private double lowestC;
    private long partMs;
    private long minuteMs;
    private double minuteC;

    /**
     * Takes the next reading.
     *
     * @param elapsedMs ms on the recording's clock, rising
     * @param output element output 0 … 1; empty when the controller does not say
     */
    public void offer(long elapsedMs, double celsius, OptionalDouble output) {
        if (output.orElse(0) < FULL) {
            full = false;
            seen = false;
            return;
        }
        if (!full || celsius > lowestC + CLIMBS_K) {
            begin(elapsedMs, celsius);
            return;
        }
        highestC = Math.max(highestC, celsius);
        lowestC = Math.min(lowestC, celsius);
        if (elapsedMs - minuteMs >= MINUTE_MS) {
            fellAtOnce |= minuteC - celsius > AT_ONCE_K + AT_ONCE_SHARE * minuteC;
            minuteMs = elapsedMs;
            minuteC = celsius;
        }
        if (elapsedMs - partMs >= PART_MS) {
            // After a silence nobody knows what was in it.
            if (elapsedMs - partMs >= 2 * PART_MS) {
                parts.clear();
            }
            partMs = elapsedMs;
            parts.addLast(celsius);
            if (parts.size() > PARTS + 1) {
                parts.removeFirst();
            }
            seen |= !fellAtOnce && highestC - celsius > COOLED_K && diesAway();
        }
    }

    private void begin(long elapsedMs, double celsius) {
        full = true;
        seen = false;
        fellAtOnce = false;
        beganMs = elapsedMs;
        highestC = celsius;
        lowestC = celsius;
        minuteMs = elapsedMs;
        minuteC = celsius;
        partMs = elapsedMs;
        parts.clear();
        parts.addLast(celsius);
    }

    private boolean diesAway() {
        if (parts.size() <= PARTS) {
            return false;
        }
        Double[] celsius = parts.toArray(Double[]::new);
        double fellFirst = celsius[0] - celsius[1];
        double fellBefore = fellFirst;
        for (int part = 1; part <= PARTS; part++) {
            double fell = celsius[part - 1] - celsius[part];
            if (fell <= 0 || fell > OF_BEFORE * fellBefore + NOISE_K) {
                return false;
            }
            fellBefore = fell;
        }
        return fellBefore < OF_FIRST * fellFirst;
    }

    /** When the cooling that gainsays the output began, ms on the recording's clock; empty where none does. */
    public OptionalLong sinceMs() {
        return seen ? OptionalLong.of(beganMs) : OptionalLong.empty();
    }
}

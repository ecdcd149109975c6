package org.kilnside.alarm;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A kiln that takes power which its number does not explain: the wire is of another type than the amplifier takes it for,
 * or shorted, or the elements do not heat. What the power goes into, storing and losing, is {@link #paceK rate and
 * temperature}; what full power would give of both is a kiln's strength. Of simulated kilns of every family, damp loads
 * among them, none that is asked for half its power has less than 250 K/h of it below 400 °C, and cold far more; with
 * elements aged until they no longer reach a glaze's top, 225 K/h cold and 160 K/h where water takes its share. Kilns that no longer
 * reach even a bisque's top (another simulator's, 40 of them) had as little as 155 K/h cold: two of them are still
 * taken for a wrong wire, and a wrong wire is told by 270 °C.
 *
 * <p>Needs a controller that says its output.
 */
final class HungryKilnWatch {
    private static final long MINUTE_MS = 60_000;
    private static final long WINDOW_MS = 6 * MINUTE_MS;

    /** After a change of power the elements, the ware and the sensor follow within some minutes. */
    private static final long LAG_MS = 90_000;

    private static final double TAKES = 0.45;

    /** Below the boiling point no water takes a share. */
    private static final double DRY_BELOW_C = 92;

    private static final double WEAKEST_DRY = 195;
    private static final double WEAKEST_BELOW_250 = 150;
    private static final double WEAKEST_BELOW_400 = 150;
    private static final double FALLS_K_PER_H = 10;

    /**
     * The share of the power that is not explained, added up over looks of ten seconds and taken off by what is left over: half
     * of it for twenty seconds, a twentieth for four minutes. A wire of another type falls short by much, weak elements by little
     * and for a while.
     */
    private static final double UNEXPLAINED = 1;

    /** Losing over storing, K/h for each K above the room; 0.23–0.65 in simulated kilns. */
    private static final double LOSES = 0.45;

    private static final double ROOM_C = 15;

    /**
     * A wire whose voltage is so far off shows no such number while there is a kiln: 400 °C on an input for type K is 1,410 °C
     * of a wire of type R and 1,580 °C of type S (ITS-90, published). Nor does a short or a kiln without elements come there.
     */
    private static final double EXCUSED_ABOVE_C = 400;

    private static final double CLIMBS_K_PER_H = 15;

    /** A controller's own lag at a usual ramp; those whose set-point waits let it run on further than this. */
    private static final double FOLLOWS_K = 2.5;

    private double unexplained;
    private double coldestC = ROOM_C;
    private boolean found;

    /** Rate with what is lost beside it, K/h: in proportion to the power that a kiln takes. */
    private double paceK(double perHour, double celsius) {
        return perHour + LOSES * Math.max(0, celsius - coldestC);
    }

    /** Whether what was found is gainsaid by now: the number has climbed to where such a one cannot come. */
    boolean isGainsaid(Beats beats) {
        boolean gainsaid = found
                && beats.lowestBetween(WINDOW_MS, 0) > EXCUSED_ABOVE_C
                && beats.slope(WINDOW_MS).orElse(0) > CLIMBS_K_PER_H;
        found &= !gainsaid;
        return gainsaid;
    }

    /** @param readsFarTooLow what the signal itself says of it: an hour at full output, and hardly any rise */
    Optional<Finding> look(Beats beats, Optional<Finding> readsFarTooLow) {
        if (isSteered(beats)) {
            unexplained = 0;
            return Optional.empty();
        }
        Optional<Finding> now = readsFarTooLow.or(() -> look(beats));
        found |= now.isPresent();
        return now;
    }

    /**
     * Whether the number has kept to its set-point all the while: a wrong one lags behind, and one that is where it is wanted
     * is given no full output. Then it is the output that is not what the elements get: lines written as seldom as a relay's
     * window comes round meet it on each time.
     */
    private static boolean isSteered(Beats beats) {
        for (long agoMs = 0; agoMs <= WINDOW_MS; agoMs += WINDOW_MS / 3) {
            OptionalDouble wanted = beats.setpointC(agoMs);
            OptionalDouble was = beats.celsiusNear(agoMs);
            if (wanted.isEmpty() || was.isEmpty() || Math.abs(wanted.getAsDouble() - was.getAsDouble()) > FOLLOWS_K) {
                return false;
            }
        }
        return true;
    }

    private Optional<Finding> look(Beats beats) {
        OptionalDouble takes = beats.meanOutput(WINDOW_MS + LAG_MS, LAG_MS);
        OptionalDouble early = beats.meanOutput(WINDOW_MS + 5 * MINUTE_MS, WINDOW_MS);
        OptionalDouble rate = beats.slope(WINDOW_MS);
        OptionalDouble middle = beats.meanC(WINDOW_MS, 0);
        if (takes.isEmpty() || early.isEmpty() || rate.isEmpty() || middle.isEmpty()) {
            unexplained = 0;
            return Optional.empty();
        }
        double celsius = middle.getAsDouble();
        coldestC = Math.min(coldestC, celsius);
        double weakest = celsius < DRY_BELOW_C
                ? WEAKEST_DRY
                : celsius < 250 ? WEAKEST_BELOW_250 : celsius < 400 ? WEAKEST_BELOW_400 : 0;
        // A kiln that falls has lost its power: that is another alarm.
        if (weakest == 0 || rate.getAsDouble() < -FALLS_K_PER_H) {
            unexplained = 0;
            return Optional.empty();
        }
        double share = Math.min(takes.getAsDouble(), early.getAsDouble() * 1.5);
        double expected = paceK(rate.getAsDouble(), celsius) / weakest;
        unexplained = share > TAKES ? Math.max(0, unexplained + 1 - Math.max(0, expected) / share) : 0;
        return unexplained > UNEXPLAINED
                ? Optional.of(Finding.since(
                        beats.nowMs() - WINDOW_MS, Measure.ofShare(takes.getAsDouble()), Measure.ofShare(expected)))
                : Optional.empty();
    }
}

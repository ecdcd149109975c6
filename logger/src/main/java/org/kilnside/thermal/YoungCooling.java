package org.kilnside.thermal;

import java.util.Optional;
import org.kilnside.thermal.Forecast.When;

/**
 * A cooling that has only begun, of a kiln that was seen to cool before. What it shows by itself says little as yet, and what its
 * earlier firings corrected of such answers hardly more: its wall is known from them, and its load from the climb. So both are asked,
 * and the wall's word gives way as the kiln is left alone.
 *
 * @param weight of what the known wall says, 0 … 1
 * @param byItsWall what that is, ln(remaining seconds), a threshold each
 */
record YoungCooling(double weight, Spread[] byItsWall) {
    /**
     * Its weight the moment the elements go off, and after which time alone it has lost two thirds of that, s: least errors of some
     * 1,500 answers of seven kinds of kilns, left alone or led down first, two earlier firings seen (own trials).
     */
    private static final double AT_FIRST = 0.9;

    private static final double FADES_S = 8000;

    /** It fades late, then fast. */
    private static final double FADING = 1.5;

    /** Less than this is not worth the asking. */
    private static final double LEAST = 0.03;

    /** How much narrower it is than what the cooling says by itself, were there nothing but the wall's word (the same trials). */
    private static final double NARROWER = 0.6;

    /** What the two are apart by counts so much of a standard deviation of each. */
    private static final double APART = 0.5;

    /**
     * Asks the known wall.
     *
     * @param data a kiln that is left alone, shut, and was seen to heat
     * @return empty where no earlier firing was seen to cool, or where this one has long said enough by itself
     */
    static Optional<YoungCooling> of(KilnMemory memory, FiringData data, double[] thresholdsC) {
        double weight = AT_FIRST * Math.exp(-Math.pow(data.leftAloneForS() / FADES_S, FADING));
        return weight < LEAST || data.free.isEmpty() || data.openedNow() || data.heatingUnseen()
                ? Optional.empty()
                : EarlierCoolings.fit(memory, data)
                        .map(today -> new YoungCooling(
                                weight, CoolingForecast.asked(data, today.fits(), thresholdsC, Optional.empty())));
    }

    /**
     * Both together.
     *
     * @param at which threshold
     * @param log what the cooling says by itself, ln(remaining seconds)
     * @param half its half-width
     */
    When with(int at, double nowS, double log, double half) {
        if (!byItsWall[at].isKnown()) {
            return When.ofLogs(nowS, log, half);
        }
        double apart = byItsWall[at].mean() - log;
        double between = APART * Spread.NINE_IN_TEN * Math.sqrt(weight * (1 - weight)) * apart;
        return When.ofLogs(nowS, log + weight * apart, Math.hypot(half * (1 - NARROWER * weight), between));
    }
}

package org.kilnside.virtualkiln;

/**
 * How a home-built controller steers.
 *
 * @param regulation how it decides when the relays close
 * @param waits whether the set-point waits for a kiln that lags and a hold counts only once its temperature is reached;
 *     otherwise the program runs by the clock
 * @param waitBandC how far the kiln may lag before the set-point waits, K
 * @param corrects whether it corrects an amplifier that does not linearise
 * @param startDelayS the program starts this long after the power was switched on, s
 * @param reports which numbers it sends beside the temperature
 * @param afterPowerCut what it does when its own power comes back
 */
public record ControllerSpec(
        Regulation regulation,
        boolean waits,
        double waitBandC,
        boolean corrects,
        double startDelayS,
        Reports reports,
        AfterPowerCut afterPowerCut) {
    public ControllerSpec {
        if (!(waitBandC >= 0) || !(startDelayS >= 0)) {
            throw new IllegalArgumentException("a controller's wait band and start delay are not negative, found "
                    + waitBandC + " K and " + startDelayS + " s");
        }
    }

    /** How it decides when the relays close. */
    public sealed interface Regulation permits ProportionalIntegral, Thermostat {}

    /**
     * Proportional and integral on the error; the relays close once in each window, for the share of it that is the
     * output.
     *
     * @param bandC error for full output, K
     * @param integralS integral time, s
     * @param windowS length of a window, s
     */
    public record ProportionalIntegral(double bandC, double integralS, double windowS) implements Regulation {
        public ProportionalIntegral {
            if (!(bandC > 0) || !(integralS > 0) || !(windowS > 0)) {
                throw new IllegalArgumentException("band, integral time and window are above 0, found " + bandC + " K, "
                        + integralS + " s, " + windowS + " s");
            }
        }
    }

    /**
     * On below the set-point, off above, and never on for less than its relays can stand. At low heat one such burst
     * carries a kiln 10–20 K over (common practice).
     *
     * @param hysteresisC half the band in which nothing changes, K
     * @param leastOnS shortest time on, s
     */
    public record Thermostat(double hysteresisC, double leastOnS) implements Regulation {
        public Thermostat {
            if (!(hysteresisC >= 0) || !(leastOnS >= 0)) {
                throw new IllegalArgumentException("hysteresis and shortest time on are not negative, found "
                        + hysteresisC + " K and " + leastOnS + " s");
            }
        }
    }

    /** Which numbers it sends. */
    public record Reports(boolean output, boolean setpoint, boolean segment) {
        public static final Reports ALL = new Reports(true, true, true);
        public static final Reports NONE = new Reports(false, false, false);
    }

    /** What it does when its own power comes back. */
    public enum AfterPowerCut {
        STAY_OFF,
        GO_ON,
        BEGIN_AGAIN
    }

    /** Proportional and integral, relays in windows of 15 s, and it waits for the kiln. */
    public static ControllerSpec waiting() {
        return new ControllerSpec(
                new ProportionalIntegral(25, 600, 15), true, 15, true, 0, Reports.ALL, AfterPowerCut.STAY_OFF);
    }

    /** The same, but its program runs by the clock and does not care whether the kiln follows. */
    public static ControllerSpec byTheClock() {
        return new ControllerSpec(
                new ProportionalIntegral(25, 600, 15), false, 0, true, 0, Reports.ALL, AfterPowerCut.STAY_OFF);
    }

    /** On and off, in bursts of at least 20 s. */
    public static ControllerSpec thermostat() {
        return waiting().regulating(new Thermostat(2, 20));
    }

    public ControllerSpec regulating(Regulation other) {
        return new ControllerSpec(other, waits, waitBandC, corrects, startDelayS, reports, afterPowerCut);
    }

    public ControllerSpec startingAfter(double seconds) {
        return new ControllerSpec(regulation, waits, waitBandC, corrects, seconds, reports, afterPowerCut);
    }

    public ControllerSpec reporting(Reports other) {
        return new ControllerSpec(regulation, waits, waitBandC, corrects, startDelayS, other, afterPowerCut);
    }

    public ControllerSpec correcting(boolean amplifierCorrected) {
        return new ControllerSpec(
                regulation, waits, waitBandC, amplifierCorrected, startDelayS, reports, afterPowerCut);
    }

    public ControllerSpec afterPowerCut(AfterPowerCut policy) {
        return new ControllerSpec(regulation, waits, waitBandC, corrects, startDelayS, reports, policy);
    }
}

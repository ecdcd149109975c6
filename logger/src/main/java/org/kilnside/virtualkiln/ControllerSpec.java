package org.kilnside.virtualkiln;

/**
 * How a home-built controller steers.
 *
 * @param waits whether the set-point waits for a kiln that lags and a hold counts only once its temperature is reached;
 *     otherwise the program runs by the clock
 * @param waitBandC how far the kiln may lag before the set-point waits, K
 * @param proportionalBandC error for full output, K
 * @param integralS integral time, s
 * @param windowS the relays close once in each window, for the share of it that is the output, s
 * @param corrects whether it corrects an amplifier that does not linearise
 * @param startDelayS the program starts this long after the power was switched on, s
 * @param reports which numbers it sends beside the temperature
 * @param afterPowerCut what it does when its own power comes back
 */
public record ControllerSpec(
        boolean waits,
        double waitBandC,
        double proportionalBandC,
        double integralS,
        double windowS,
        boolean corrects,
        double startDelayS,
        Reports reports,
        AfterPowerCut afterPowerCut) {
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

    public ControllerSpec {
        if (!(proportionalBandC > 0) || !(integralS > 0) || !(windowS > 0) || !(startDelayS >= 0)) {
            throw new IllegalArgumentException(
                    "a controller has a proportional band, an integral time and a window above 0, and no negative delay");
        }
    }

    /** Proportional and integral, relays in windows of 15 s, and it waits for the kiln. */
    public static ControllerSpec waiting() {
        return new ControllerSpec(true, 15, 25, 600, 15, true, 0, Reports.ALL, AfterPowerCut.STAY_OFF);
    }

    /** The same, but its program runs by the clock and does not care whether the kiln follows. */
    public static ControllerSpec byTheClock() {
        return new ControllerSpec(false, 0, 25, 600, 15, true, 0, Reports.ALL, AfterPowerCut.STAY_OFF);
    }

    public ControllerSpec startingAfter(double seconds) {
        return new ControllerSpec(
                waits, waitBandC, proportionalBandC, integralS, windowS, corrects, seconds, reports, afterPowerCut);
    }

    public ControllerSpec reporting(Reports other) {
        return new ControllerSpec(
                waits, waitBandC, proportionalBandC, integralS, windowS, corrects, startDelayS, other, afterPowerCut);
    }

    public ControllerSpec correcting(boolean amplifierCorrected) {
        return new ControllerSpec(
                waits,
                waitBandC,
                proportionalBandC,
                integralS,
                windowS,
                amplifierCorrected,
                startDelayS,
                reports,
                afterPowerCut);
    }

    public ControllerSpec afterPowerCut(AfterPowerCut policy) {
        return new ControllerSpec(
                waits, waitBandC, proportionalBandC, integralS, windowS, corrects, startDelayS, reports, policy);
    }

    public ControllerSpec tuned(double otherProportionalBandC, double otherIntegralS, double otherWindowS) {
        return new ControllerSpec(
                waits,
                waitBandC,
                otherProportionalBandC,
                otherIntegralS,
                otherWindowS,
                corrects,
                startDelayS,
                reports,
                afterPowerCut);
    }
}

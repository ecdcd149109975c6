package org.kilnside.thermal;

/**
 * How wide the interval of a time to the top, and of a top-out, must be so that nine in ten hold the truth. Where the output
 * is told the fit for the top knows its own error, and what the mains may do, rather well; hot, the model's own is left. Where
 * it is only guessed the fit believes too much of its error. Set on worn kilns of the virtual kilns (seeds 11 to 13, 31, 32
 * and 77), of the trial kilns and of an outside simulator; judged on others (own trials, docs/validation.md).
 */
final class ArrivalScale {
    private static final double COOL_C = 700;
    private static final double HOT_C = 1100;

    /** What the fit's own half-width of a top-out is multiplied by where the output is told. */
    private static final double TIMES_COOL = 1;

    private static final double TIMES_HOT = 1.4;

    /** Lower down cold walls and water look like weakness: so much more of it upwards. */
    private static final double WIDER_WHERE_COLD = 0.65;

    /**
     * Asked at 700 °C a top-out may lie higher by no less than this part of it, less further up: a wall that still soaks takes
     * what looks like loss, and of 40 weak kilns of a simulator kept out a third came above an interval of the fit's own width.
     */
    private static final double LEAST_HIGHER_COOL = 0.07;

    /**
     * A kiln that has hardly been full yet says so of itself, too loudly: 150 weak kilns of four simulators asked at 700 °C, in a half-width of
     * 120 to 180 K erred by 94 K at the 90th percentile, of 180 to 280 K by 91 K, of 280 to 490 K by 249 K.
     */
    private static final double WIDE_K = 120;

    private static final double OF_MORE = 0.6;

    /** Of the fit's own half-width of a top-out, where little bears it out. */
    private static final double AS_IT_SAYS = 0.9;

    private static final double MANY_STRETCHES = 6;

    private ArrivalScale() {}

    /** What is known of the power a kiln has left. */
    enum Power {
        /** The controller tells its output. */
        TOLD(0.05, 0.05, 0.05, 0.05, 0.65, 0.9, 0.65, 1),
        /** It lags its plan: all it has, very likely. */
        TAKEN_FOR_FULL(0.12, 0.12, 0.12, 0.12, 0.4, 0.2, 0.35, 0.25),
        /** It keeps up with its plan, with nobody knows how much to spare until, near the top, it cannot. */
        UNKNOWN(0.08, 0.06, 0.65, 0.25, 0.5, 0.3, 0.8, 0.7),
        /** No plan is known either: its pace may go on, or be a slow last ramp before long. */
        PACE_ALONE(0.18, 0.18, 0.9, 0.9, 0.5, 0.3, 0.8, 0.7);

        private final double leastSoonerCool;
        private final double leastSoonerHot;
        private final double leastLaterCool;
        private final double leastLaterHot;
        private final double timesSoonerCool;
        private final double timesSoonerHot;
        private final double timesLaterCool;
        private final double timesLaterHot;

        Power(
                double leastSoonerCool,
                double leastSoonerHot,
                double leastLaterCool,
                double leastLaterHot,
                double timesSoonerCool,
                double timesSoonerHot,
                double timesLaterCool,
                double timesLaterHot) {
            this.leastSoonerCool = leastSoonerCool;
            this.leastSoonerHot = leastSoonerHot;
            this.leastLaterCool = leastLaterCool;
            this.leastLaterHot = leastLaterHot;
            this.timesSoonerCool = timesSoonerCool;
            this.timesSoonerHot = timesSoonerHot;
            this.timesLaterCool = timesLaterCool;
            this.timesLaterHot = timesLaterHot;
        }
    }

    /** How far ln(time to the top) may lie below its estimate. */
    static double sooner(double halfWidth, double nowC, Power power) {
        double risen = risen(nowC);
        double least = power.leastSoonerCool + risen * (power.leastSoonerHot - power.leastSoonerCool);
        double times = power.timesSoonerCool + risen * (power.timesSoonerHot - power.timesSoonerCool);
        return Math.hypot(least, times * halfWidth);
    }

    /** The same above it. */
    static double later(double halfWidth, double nowC, Power power) {
        double risen = risen(nowC);
        double least = power.leastLaterCool + risen * (power.leastLaterHot - power.leastLaterCool);
        double times = power.timesLaterCool + risen * (power.timesLaterHot - power.timesLaterCool);
        return Math.hypot(least, times * halfWidth);
    }

    /**
     * How far a top-out may lie below its estimate, K.
     *
     * @param stretches of output it was fitted to: a few that are only taken for full do not bear one another out
     */
    static double topOutLower(Spread top, double nowC, Power power, int stretches) {
        return power == Power.TOLD
                ? lower(top, TIMES_COOL + risen(nowC) * (TIMES_HOT - TIMES_COOL))
                : takenForFull(top, stretches, 0.75 - 0.4 * risen(nowC));
    }

    /** The same above it: lower down cold walls and water look like weakness. */
    static double topOutHigher(Spread top, double nowC, Power power, int stretches) {
        double cool = Math.max(0, Math.min(1, (COOL_C - nowC) / 200));
        return power == Power.TOLD
                ? Math.max(
                        LEAST_HIGHER_COOL * Math.max(0, 1 - 2 * risen(nowC)) * top.mean(),
                        higher(top, TIMES_COOL + risen(nowC) * (TIMES_HOT - TIMES_COOL) + WIDER_WHERE_COLD * cool))
                : takenForFull(top, stretches, 0.75 - 0.4 * risen(nowC) + 0.5 * cool);
    }

    /** What of such a distance nine in ten kilns need; whether it gets there is not said before all of it does. */
    static double needed(double halfK, Power power) {
        return power == Power.TOLD ? Math.min(halfK, WIDE_K) + OF_MORE * Math.max(0, halfK - WIDE_K) : halfK;
    }

    private static double lower(Spread top, double times) {
        return Math.max(times * top.halfWidth(), top.mean() - top.quantile(0.05, times, 0));
    }

    private static double higher(Spread top, double times) {
        return Math.max(times * top.halfWidth(), top.quantile(0.95, times, 0) - top.mean());
    }

    private static double takenForFull(Spread top, int stretches, double times) {
        double borneOut = Math.min(1, stretches / MANY_STRETCHES);
        return 4 + top.halfWidth() * (AS_IT_SAYS + borneOut * (times - AS_IT_SAYS));
    }

    private static double risen(double nowC) {
        return Math.max(0, Math.min(1, (nowC - COOL_C) / (HOT_C - COOL_C)));
    }
}

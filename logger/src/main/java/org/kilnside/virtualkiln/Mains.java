package org.kilnside.virtualkiln;

/**
 * The mains voltage over a firing, against nominal. Power follows its square: −5 % volts = −10 % power.
 *
 * @param share of nominal, 1 = as rated
 * @param sagShare by how much it sags in addition while the neighbourhood cooks, 0.05 = 5 %
 * @param sagFromS when the sag begins, s
 * @param sagForS how long it lasts, s; it comes and goes within five minutes
 * @param restlessness standard deviation of slow wandering about it, 0.005 = half a percent
 */
public record Mains(double share, double sagShare, double sagFromS, double sagForS, double restlessness) {
    private static final double SLOPE_S = 300;

    public Mains {
        if (!(share > 0.5 && share < 1.15) || !(sagShare >= 0 && sagShare < 0.5) || !(restlessness >= 0)) {
            throw new IllegalArgumentException(
                    "mains are 0.5 to 1.15 of nominal and sag by less than half, found " + share + " and " + sagShare);
        }
    }

    /** As rated, all the time. */
    public static final Mains STEADY = new Mains(1, 0, 0, 0, 0);

    public static Mains at(double share) {
        return new Mains(share, 0, 0, 0, 0);
    }

    /** Nominal, but for one sag. */
    public static Mains sagging(double sagShare, double fromS, double forS) {
        return new Mains(1, sagShare, fromS, forS, 0);
    }

    /**
     * Voltage against nominal at a time.
     *
     * @param phase 0 … 1, so that no two firings wander alike
     */
    double at(double elapsedS, double phase) {
        double sag = 0;
        if (sagShare > 0) {
            double in = Math.min((elapsedS - sagFromS) / SLOPE_S, (sagFromS + sagForS - elapsedS) / SLOPE_S);
            sag = sagShare * Math.max(0, Math.min(1, in));
        }
        double wander = 0;
        if (restlessness > 0) {
            // Three tones without a common period, of unit variance in sum.
            double turn = 2 * Math.PI;
            wander = restlessness
                    * 0.8165
                    * (Math.sin(turn * (elapsedS / 1733 + phase))
                            + Math.sin(turn * (elapsedS / 611 + 3.1 * phase))
                            + Math.sin(turn * (elapsedS / 97 + 7.7 * phase)));
        }
        return share * (1 - sag + wander);
    }
}

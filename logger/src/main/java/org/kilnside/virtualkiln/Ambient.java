package org.kilnside.virtualkiln;

/**
 * The room round the kiln: a mean with a swing of day and night.
 *
 * @param meanC °C
 * @param swingC from the coldest to the warmest hour, K; 0 = even
 * @param coldestAtS seconds after the firing's start at which it is coldest
 */
public record Ambient(double meanC, double swingC, double coldestAtS) {
    private static final double DAY_S = 86_400;

    public Ambient {
        if (!(meanC > -40 && meanC < 60) || !(swingC >= 0 && swingC <= 40)) {
            throw new IllegalArgumentException("a room lies between -40 and 60 °C and swings by up to 40 K, found "
                    + meanC + " °C and " + swingC + " K");
        }
    }

    public static Ambient steady(double temperatureC) {
        return new Ambient(temperatureC, 0, 0);
    }

    /** °C at a time in seconds after the firing's start. */
    public double atC(double seconds) {
        return swingC == 0 ? meanC : meanC - swingC / 2 * Math.cos(2 * Math.PI * (seconds - coldestAtS) / DAY_S);
    }
}

package org.kilnside.chart;

import java.util.Random;

/** What an amplifier makes of a temperature: common practice for a thermocouple's, a quarter of a degree a step. */
final class SampleReadings {
    private SampleReadings() {}

    /** @param noise 0.4 K of it, one standard deviation */
    static double withAmplifier(double celsius, Random noise) {
        return Math.round(4 * (celsius + 0.4 * noise.nextGaussian())) / 4.0;
    }
}

package org.kilnside.virtualkiln;

import org.kilnside.quantity.Temperature;

/** Radiation between grey, diffuse surfaces. */
final class Radiation {
    /** W/(m² K⁴), exactly as the SI of 2019 gives it (CODATA 2018). */
    static final double STEFAN_BOLTZMANN = 5.670374419e-8;

    private Radiation() {}

    /** W/(m² K): the coefficient that, times the difference in temperature, gives σ (T₁⁴ − T₂⁴). Never an approximation. */
    static double coefficient(double oneC, double otherC) {
        double one = oneC + Temperature.ZERO_CELSIUS_K;
        double other = otherC + Temperature.ZERO_CELSIUS_K;
        return STEFAN_BOLTZMANN * (one * one + other * other) * (one + other);
    }

    /** Effective emissivity of two large surfaces that face each other: 1/(1/ε₁ + 1/ε₂ − 1) (any handbook). */
    static double greyGap(double oneEmissivity, double otherEmissivity) {
        return 1 / (1 / oneEmissivity + 1 / otherEmissivity - 1);
    }
}

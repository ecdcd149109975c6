package org.kilnside.sensor;

/**
 * One piece of a published approximate inverse: °C from mV within a few hundredths of a degree.
 *
 * @param lowestMv where the piece begins, as printed
 * @param highestMv where it ends, as printed
 * @param coefficients dᵢ of t = Σ dᵢ·Eⁱ
 */
record InversePiece(double lowestMv, double highestMv, double[] coefficients) {
    double temperatureC(double emfMv) {
        double value = 0;
        for (int i = coefficients.length - 1; i >= 0; i--) {
            value = value * emfMv + coefficients[i];
        }
        return value;
    }
}

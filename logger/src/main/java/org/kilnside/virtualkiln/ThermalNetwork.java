package org.kilnside.virtualkiln;

/**
 * A handful of bodies of even temperature that exchange heat, advanced by one implicit step at a time.
 *
 * <p>Each step is assembled anew by its owner: capacities, exchanges between bodies, exchanges with surroundings of
 * fixed temperature, sources, and walls folded into one equation. Every exchange is taken from one body exactly as it
 * is given to the other, so the step itself can lose no energy. The matrix is symmetric and positive definite; it is
 * solved by elimination without pivoting.
 */
final class ThermalNetwork {
    private final int size;
    private final double[] temperatureC;
    private final double[][] matrix;
    private final double[] right;

    ThermalNetwork(int size) {
        this.size = size;
        temperatureC = new double[size];
        matrix = new double[size][size];
        right = new double[size];
    }

    double temperatureC(int body) {
        return temperatureC[body];
    }

    void setTemperatureC(int body, double temperature) {
        temperatureC[body] = temperature;
    }

    /** Begins a step: nothing exchanges, nothing is held. Only the lower triangle is kept. */
    void begin() {
        for (int i = 0; i < size; i++) {
            java.util.Arrays.fill(matrix[i], 0, i + 1, 0);
            right[i] = 0;
        }
    }

    /** A body that holds heat, J/K over the step. */
    void holds(int body, double heatCapacityJK, double seconds) {
        double rate = heatCapacityJK / seconds;
        matrix[body][body] += rate;
        right[body] += rate * temperatureC[body];
    }

    /** A body whose own step is folded into {@code diagonal · T = right + heat flowing in}. */
    void folded(int body, double diagonalWK, double rightW) {
        matrix[body][body] += diagonalWK;
        right[body] += rightW;
    }

    /** Heat goes between two bodies, W/K. */
    void exchange(int one, int other, double conductanceWK) {
        matrix[one][one] += conductanceWK;
        matrix[other][other] += conductanceWK;
        if (one > other) {
            matrix[one][other] -= conductanceWK;
        } else {
            matrix[other][one] -= conductanceWK;
        }
    }

    /** Radiation between two bodies over an effective area (area × view factor × effective emissivity), m². */
    void radiate(int one, int other, double effectiveAreaM2) {
        exchange(one, other, effectiveAreaM2 * Radiation.coefficient(temperatureC[one], temperatureC[other]));
    }

    /** Heat goes between a body and surroundings of a fixed temperature, W/K. */
    void surroundings(int body, double conductanceWK, double outsideC) {
        matrix[body][body] += conductanceWK;
        right[body] += conductanceWK * outsideC;
    }

    /** Heat is put into a body, W; negative = taken. */
    void source(int body, double watts) {
        right[body] += watts;
    }

    /** Ends the step: all temperatures at its end. */
    void solve() {
        for (int k = 0; k < size; k++) {
            double pivot = 1 / matrix[k][k];
            double rightK = right[k];
            for (int i = k + 1; i < size; i++) {
                double factor = matrix[i][k] * pivot;
                if (factor != 0) {
                    double[] row = matrix[i];
                    for (int j = k + 1; j <= i; j++) {
                        row[j] -= factor * matrix[j][k];
                    }
                    right[i] -= factor * rightK;
                }
            }
        }
        for (int i = size - 1; i >= 0; i--) {
            double sum = right[i];
            for (int j = i + 1; j < size; j++) {
                sum -= matrix[j][i] * temperatureC[j];
            }
            temperatureC[i] = sum / matrix[i][i];
        }
    }
}

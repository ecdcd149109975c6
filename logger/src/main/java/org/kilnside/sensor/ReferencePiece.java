package org.kilnside.sensor;

/**
 * One piece of a thermocouple's reference function: a polynomial, for type K above 0 °C with a bell-shaped term added.
 *
 * <p>Inner loops: °C and mV as raw doubles. The bell is taken with {@link StrictMath}, so that a replayed reading is
 * the live one bit for bit on every machine.
 */
final class ReferencePiece {
    /** Once a Newton step is this small, in °C, what it leaves is far below 1e-9 °C: the error squares with each step. */
    private static final double LAST_STEP_C = 1e-5;

    private static final int MOST_STEPS = 30;

    /** Down here the polynomials' terms cancel to a thousandth while the emf hardly changes: see {@link #compensated}. */
    private static final double NEAR_ABSOLUTE_ZERO_C = -250;

    /** 2²⁷ + 1: splits a double into two halves whose products are exact (Dekker, 1971). */
    private static final double SPLITTER = 134_217_729;

    private final double lowestC;
    private final double highestC;
    private final double[] coefficients;
    private final Bell bell;
    private final boolean cancels;
    private final double emfAtLowestMv;
    private final double emfAtHighestMv;

    ReferencePiece(double lowestC, double highestC, double[] coefficients, Bell bell) {
        this.lowestC = lowestC;
        this.highestC = highestC;
        this.coefficients = coefficients;
        this.bell = bell;
        this.cancels = lowestC <= NEAR_ABSOLUTE_ZERO_C;
        this.emfAtLowestMv = emfMv(lowestC);
        this.emfAtHighestMv = emfMv(highestC);
    }

    double lowestC() {
        return lowestC;
    }

    double highestC() {
        return highestC;
    }

    double emfAtLowestMv() {
        return emfAtLowestMv;
    }

    double emfAtHighestMv() {
        return emfAtHighestMv;
    }

    double emfMv(double temperatureC) {
        if (cancels) {
            return compensated(temperatureC);
        }
        double value = 0;
        for (int i = coefficients.length - 1; i >= 0; i--) {
            value = value * temperatureC + coefficients[i];
        }
        return bell.heightMv == 0 ? value : value + bell.at(temperatureC);
    }

    double slopeMvPerK(double temperatureC) {
        double slope = 0;
        for (int i = coefficients.length - 1; i > 0; i--) {
            slope = slope * temperatureC + i * coefficients[i];
        }
        return bell.heightMv == 0
                ? slope
                : slope + bell.at(temperatureC) * 2 * bell.narrowness * (temperatureC - bell.middleC);
    }

    /** The temperature in this piece whose emf this is, by Newton's method from a start near it. */
    double temperatureC(double emfMv, double startC) {
        double temperatureC = startC;
        for (int step = 0; step < MOST_STEPS; step++) {
            double value = 0;
            double slope = 0;
            for (int i = coefficients.length - 1; i >= 0; i--) {
                slope = slope * temperatureC + value;
                value = value * temperatureC + coefficients[i];
            }
            if (cancels) {
                value = compensated(temperatureC);
            } else if (bell.heightMv != 0) {
                double height = bell.at(temperatureC);
                value += height;
                slope += height * 2 * bell.narrowness * (temperatureC - bell.middleC);
            }
            double next = temperatureC - (value - emfMv) / slope;
            double moved = next - temperatureC;
            temperatureC = Math.min(highestC, Math.max(lowestC, next));
            if (Math.abs(moved) < LAST_STEP_C) {
                break;
            }
        }
        return temperatureC;
    }

    /**
     * Horner's scheme with the rounding of every step carried along (Graillat, Langlois and Louvet, 2009), as if in
     * twice the precision. Plain rounding would leave 2e-9 °C below −250 °C.
     */
    private double compensated(double temperatureC) {
        double shifted = SPLITTER * temperatureC;
        double high = shifted - (shifted - temperatureC);
        double low = temperatureC - high;
        double value = 0;
        double lost = 0;
        for (int i = coefficients.length - 1; i >= 0; i--) {
            double product = value * temperatureC;
            double split = SPLITTER * value;
            double valueHigh = split - (split - value);
            double valueLow = value - valueHigh;
            double productLost = valueLow * low - (((product - valueHigh * high) - valueLow * high) - valueHigh * low);
            double sum = product + coefficients[i];
            double back = sum - product;
            double sumLost = (product - (sum - back)) + (coefficients[i] - back);
            lost = lost * temperatureC + (productLost + sumLost);
            value = sum;
        }
        return value + lost;
    }

    /** a₀·exp(a₁·(t − a₂)²) in mV; {@link #NONE} for every piece but the upper one of type K. */
    record Bell(double heightMv, double narrowness, double middleC) {
        static final Bell NONE = new Bell(0, 0, 0);

        double at(double temperatureC) {
            double off = temperatureC - middleC;
            return heightMv * StrictMath.exp(narrowness * off * off);
        }
    }
}

package org.kilnside.thermal;

/**
 * The network of {@link TrialBias}: one layer of 16 units. Its numbers were set by least squares with weight decay on
 * trial kilns, each kind of physics counting alike (docs/decisions/0021), and are rounded.
 */
final class TrialBiasNumbers {
    /** The fit's ten numbers in prior spreads; then as in {@link TrialBias}: ln of time alone and of time heated, ln of both misfits, layered, peak, ln ψ, bound water, room, whether the output is told, ln of the temperature now, ln of the fall. */
    static final int INPUTS = 22;

    private static final double[] MEAN = {
        0.115, -0.008, 0.495, -0.206, 0.016, -0.087, -0.003, 0.267, 0.036, -0.117, 0.603, 0.049, -0.794, -0.4, 0.127,
        0.13, 0.275, 0.228, -0.11, 0.66, -0.152, 0.054
    };
    private static final double[] SPREAD = {
        0.871, 0.217, 0.555, 0.523, 0.239, 0.441, 0.347, 0.463, 0.187, 0.422, 1.07, 0.366, 0.562, 0.559, 0.102, 1.03,
        0.288, 0.461, 0.744, 0.474, 0.771, 0.704
    };

    /** How wrong forecasts usually are, as the exponent of 1, ln(now/500 °C), its square, ln fall, its square. */
    private static final double[] SIZE = {-3.373, 0.751, 0.644, 0.459, 0.026};

    private static final double LEAST_SIZE = 0.004;
    private static final double MOST_SIZE = 0.12;

    /** Nothing lies further out than this in what it was set on: inputs and answers are held there, in spreads. */
    private static final double MOST = 2.5;

    /** A unit a row: what it gives without any input, then what each input counts. */
    private static final double[][] UNITS = {
        {
            -0.082, -0.013, 0.014, -0.023, 0.01, -0.02, -0.009, 0.022, 0, -0.008, -0.01, -0.018, 0, -0.025, -0.014,
            -0.018, -0.005, -0.004, -0.02, 0.001, 0.009, -0.006, 0.01
        },
        {
            0, 0.001, 0, 0.003, -0.001, -0.001, 0.005, 0.002, 0.001, 0, 0.002, 0.002, -0.003, -0.005, -0.002, -0.001,
            0.003, -0.003, -0.001, 0.004, 0.002, 0, 0.002
        },
        {
            0.579, 0.305, -0.306, -0.336, -0.177, 0.102, 0.101, 0.009, -0.117, 0.024, 0.015, 0.117, 0.021, 0.035,
            -0.032, 0.223, -0.089, 0.018, -0.07, 0.01, 0.071, -0.193, -0.075
        },
        {
            -0.082, 0.135, 0.039, 0.038, 0.113, -0.012, 0.073, 0.112, -0.263, -0.195, -0.027, 0.074, 0.11, 0.196, -0.04,
            -0.128, -0.053, 0.07, -0.085, -0.001, -0.087, -0.651, 0.028
        },
        {
            0.057, -0.182, 0.172, 0.44, -0.004, 0.11, 0.017, -0.121, 0.055, 0.016, 0.06, 0.572, 0.087, -0.072, 0.124,
            0.033, 0.08, -0.079, 0.073, 0.059, 0.092, -0.384, 0.067
        },
        {
            -1.311, -0.162, 0.065, 0.048, 0.038, 0.08, -0.256, 0.277, 0.138, -0.314, -0.114, 0.274, -0.269, 0.025,
            0.091, -0.056, 0.031, 0.055, 0.212, -0.075, -0.094, -0.247, 0.504
        },
        {
            -0.626, 0.245, -0.026, 0.167, -0.242, -0.059, -0.087, -0.022, -0.034, -0.279, -0.054, -0.705, -0.11, -0.118,
            -0.094, 0.096, 0.005, 0.022, 0.155, -0.037, -0.131, 0.607, -0.004
        },
        {
            0.873, -0.013, 0.047, 0.055, -0.193, -0.084, 0.083, 0.167, 0.019, -0.099, 0.061, 0.499, -0.069, -0.183,
            -0.27, -0.001, 0.017, 0.061, -0.168, 0.016, -0.027, -0.328, 0.008
        },
        {
            -0.963, 0.138, -0.035, -0.187, 0.127, -0.122, -0.141, -0.177, 0.136, 0.114, 0.039, -0.316, -0.121, -0.096,
            -0.009, 0.113, -0.036, 0.097, -0.168, 0.055, 0.03, 0.14, 0.105
        },
        {
            0.538, -0.181, 0.087, 0.259, -0.077, 0.073, -0.062, 0.002, -0.061, -0.187, -0.135, -0.332, -0.036, 0.36,
            0.053, -0.277, 0.139, 0.063, 0.053, -0.085, -0.046, 0.196, -0.003
        },
        {
            -0.022, -0.03, 0.018, -0.021, 0.019, -0.006, 0.002, 0.008, 0.001, 0.018, -0.008, -0.006, 0.02, 0.002,
            -0.003, -0.03, -0.007, 0.013, -0.001, 0.008, 0.012, 0.006, 0.013
        },
        {
            -0.507, -0.044, 0.041, -0.195, 0.074, 0.03, 0.078, 0.099, -0.009, -0.034, -0.005, -0.098, 0.074, -0.076,
            -0.046, -0.136, -0.049, -0.044, -0.117, 0.022, 0.062, -0.066, 0.02
        },
        {
            0.969, -0.066, 0.121, -0.229, -0.058, -0.119, -0.207, 0.199, 0.246, 0.009, -0.12, -0.032, -0.18, -0.139,
            -0.018, -0.063, 0.031, -0.027, 0.034, -0.007, 0.03, 0.05, -0.372
        },
        {
            0.003, -0.005, -0.003, -0.007, 0.013, -0.004, -0.033, -0.01, -0.011, 0.002, -0.001, -0.009, 0.014, 0.029,
            0.017, 0.014, -0.012, 0.023, 0.002, -0.027, -0.017, 0.001, -0.022
        },
        {
            0.552, -0.012, 0.035, -0.059, 0.126, -0.058, -0.086, 0.006, -0.226, -0.125, -0.048, 0.044, 0.089, -0.187,
            -0.316, -0.103, -0.045, -0.001, -0.085, -0.108, -0.044, 0.006, 0.169
        },
        {
            -0.8, 0.357, -0.278, -0.416, -0.154, -0.01, 0.008, 0.143, -0.073, 0.094, 0.026, -0.437, 0.087, 0.024,
            -0.123, 0.261, -0.209, 0.002, -0.211, 0.021, -0.037, -0.049, -0.056
        }
    };

    private static final double[] ANSWER = {
        0.316, 0.032, -0.003, 0.553, -0.627, 0.765, 0.804, -0.715, -0.557, 0.457, 0.651, 0.032, 0.252, 0.577, 0.005,
        0.426, 0.694
    };

    private TrialBiasNumbers() {}

    /**
     * What is to be expected of ln(true remaining time / forecast).
     *
     * @param seen {@link #INPUTS} numbers
     */
    static double answer(double[] seen) {
        double now = seen[INPUTS - 2];
        double fall = seen[INPUTS - 1];
        double size = Math.exp(SIZE[0] + SIZE[1] * now + SIZE[2] * now * now + SIZE[3] * fall + SIZE[4] * fall * fall);
        double sum = ANSWER[0];
        for (int unit = 0; unit < UNITS.length; unit++) {
            double at = UNITS[unit][0];
            for (int i = 0; i < INPUTS; i++) {
                at += UNITS[unit][1 + i] * within((seen[i] - MEAN[i]) / SPREAD[i]);
            }
            sum += ANSWER[1 + unit] * Math.tanh(at);
        }
        return within(sum) * Math.max(LEAST_SIZE, Math.min(MOST_SIZE, size));
    }

    private static double within(double value) {
        return Math.max(-MOST, Math.min(MOST, value));
    }
}

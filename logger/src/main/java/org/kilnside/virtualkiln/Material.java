package org.kilnside.virtualkiln;

/**
 * A solid whose conductivity and heat capacity change with temperature, by linear interpolation between given points
 * and along the last two beyond them.
 *
 * <p>Read in the innermost loop, so the points are laid out once on an even grid; enthalpy is the exact integral of
 * the heat capacity interpolated on that grid, and so an audit of stored heat does not share the step's error.
 */
public final class Material {
    private static final double GRID_FROM_C = -50;
    private static final double GRID_STEP_C = 25;
    private static final int GRID_SIZE = 69;

    private final String name;
    private final double densityKgM3;
    private final double[] conductivity = new double[GRID_SIZE];
    private final double[] heatCapacity = new double[GRID_SIZE];
    private final double[] enthalpy = new double[GRID_SIZE];

    private Material(String name, double densityKgM3, Points conductivity, Points heatCapacity) {
        if (!(densityKgM3 > 0)) {
            throw new IllegalArgumentException(name + ": a density is above 0 kg/m³, found " + densityKgM3);
        }
        this.name = name;
        this.densityKgM3 = densityKgM3;
        for (int i = 0; i < GRID_SIZE; i++) {
            double temperatureC = GRID_FROM_C + i * GRID_STEP_C;
            this.conductivity[i] = Math.max(conductivity.at(temperatureC), 0.01);
            this.heatCapacity[i] = Math.max(heatCapacity.at(temperatureC), 50);
            if (i > 0) {
                enthalpy[i] = enthalpy[i - 1] + GRID_STEP_C * (this.heatCapacity[i - 1] + this.heatCapacity[i]) / 2;
            }
        }
    }

    /**
     * @param densityKgM3 kg/m³
     * @param conductivity W/(m K) against °C
     * @param heatCapacity J/(kg K) against °C
     */
    public static Material of(String name, double densityKgM3, Points conductivity, Points heatCapacity) {
        return new Material(name, densityKgM3, conductivity, heatCapacity);
    }

    /** A material whose properties do not change, as handbook examples have them. */
    public static Material constant(String name, double densityKgM3, double conductivityWMK, double heatCapacityJKgK) {
        return of(name, densityKgM3, Points.constant(conductivityWMK), Points.constant(heatCapacityJKgK));
    }

    /** The same material with its conductivity scaled: makes and batches of brick scatter by some ±15 % (common practice). */
    public Material withConductivityTimes(double factor) {
        Material scaled = new Material(name, densityKgM3, Points.constant(1), Points.constant(1));
        for (int i = 0; i < GRID_SIZE; i++) {
            scaled.conductivity[i] = conductivity[i] * factor;
            scaled.heatCapacity[i] = heatCapacity[i];
            scaled.enthalpy[i] = enthalpy[i];
        }
        return scaled;
    }

    public String name() {
        return name;
    }

    /** kg/m³. */
    public double densityKgM3() {
        return densityKgM3;
    }

    /** W/(m K) at a temperature in °C. */
    public double conductivity(double temperatureC) {
        return interpolate(conductivity, temperatureC);
    }

    /** J/(kg K) at a temperature in °C. */
    public double heatCapacity(double temperatureC) {
        return interpolate(heatCapacity, temperatureC);
    }

    /** J/kg above the enthalpy at −50 °C; only differences mean something. */
    public double enthalpy(double temperatureC) {
        int i = cell(temperatureC);
        double beyond = temperatureC - (GRID_FROM_C + i * GRID_STEP_C);
        double slope = (heatCapacity[i + 1] - heatCapacity[i]) / GRID_STEP_C;
        return enthalpy[i] + beyond * (heatCapacity[i] + slope * beyond / 2);
    }

    private static double interpolate(double[] values, double temperatureC) {
        int i = cell(temperatureC);
        double part = (temperatureC - GRID_FROM_C) * (1 / GRID_STEP_C) - i;
        return values[i] + part * (values[i + 1] - values[i]);
    }

    private static int cell(double temperatureC) {
        int i = (int) ((temperatureC - GRID_FROM_C) * (1 / GRID_STEP_C));
        return Math.max(0, Math.min(GRID_SIZE - 2, i));
    }

    @Override
    public String toString() {
        return name;
    }

    /** A property given at a few temperatures. */
    public static final class Points {
        private final double[] temperatureC;
        private final double[] value;

        private Points(double[] temperatureC, double[] value) {
            this.temperatureC = temperatureC;
            this.value = value;
        }

        public static Points constant(double value) {
            return new Points(new double[] {0}, new double[] {value});
        }

        /** Pairs of °C and value, in rising order of temperature. */
        public static Points of(double... temperatureAndValue) {
            int size = temperatureAndValue.length / 2;
            if (size == 0 || temperatureAndValue.length % 2 != 0) {
                throw new IllegalArgumentException("points come as pairs of °C and value");
            }
            double[] temperatureC = new double[size];
            double[] value = new double[size];
            for (int i = 0; i < size; i++) {
                temperatureC[i] = temperatureAndValue[2 * i];
                value[i] = temperatureAndValue[2 * i + 1];
                if (i > 0 && temperatureC[i] <= temperatureC[i - 1]) {
                    throw new IllegalArgumentException("points rise in temperature, found " + temperatureC[i]
                            + " °C after " + temperatureC[i - 1] + " °C");
                }
            }
            return new Points(temperatureC, value);
        }

        double at(double atC) {
            if (value.length == 1) {
                return value[0];
            }
            int i = 0;
            while (i < value.length - 2 && atC > temperatureC[i + 1]) {
                i++;
            }
            double part = (atC - temperatureC[i]) / (temperatureC[i + 1] - temperatureC[i]);
            return value[i] + part * (value[i + 1] - value[i]);
        }
    }
}

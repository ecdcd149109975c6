package org.kilnside.thermal;

/**
 * A refractory of the trial kilns: conductivity and heat capacity by the numbers a handbook prints.
 *
 * @param densityKgM3 kg/m³
 * @param conductivity W/(m K) at 0, 200, 400, 600, 800, 1000, 1200 °C
 * @param capacity J/(kg K) at the same temperatures
 */
record TrialMaterial(String name, double densityKgM3, double[] conductivity, double[] capacity) {
    private static final double[] ALUMINA_SILICA = {770, 870, 945, 990, 1015, 1033, 1050};

    // Rows from 400 °C up: VDI Heat Atlas, 2nd ed. 2010 (one copy); below 400 °C and the maker's and fibre
    // rows: from memory, orders of magnitude.
    static final TrialMaterial L1260 =
            new TrialMaterial("L1260", 490, new double[] {0.10, 0.12, 0.14, 0.16, 0.18, 0.20, 0.22}, ALUMINA_SILICA);
    static final TrialMaterial L1400 =
            new TrialMaterial("L1400", 790, new double[] {0.22, 0.25, 0.27, 0.30, 0.32, 0.34, 0.36}, ALUMINA_SILICA);
    static final TrialMaterial L1540 =
            new TrialMaterial("L1540", 890, new double[] {0.27, 0.29, 0.32, 0.35, 0.38, 0.41, 0.43}, ALUMINA_SILICA);
    static final TrialMaterial MAKER_23 =
            new TrialMaterial("23", 480, new double[] {0.09, 0.10, 0.12, 0.14, 0.17, 0.19, 0.22}, ALUMINA_SILICA);
    static final TrialMaterial MAKER_26 =
            new TrialMaterial("26", 800, new double[] {0.21, 0.23, 0.25, 0.27, 0.30, 0.33, 0.35}, ALUMINA_SILICA);
    static final TrialMaterial FIBRE =
            new TrialMaterial("fibre", 128, new double[] {0.035, 0.06, 0.10, 0.15, 0.21, 0.28, 0.37}, new double[] {
                800, 900, 1000, 1050, 1090, 1130, 1150
            });
    static final TrialMaterial BOARD =
            new TrialMaterial("board", 260, new double[] {0.05, 0.06, 0.08, 0.11, 0.14, 0.18, 0.22}, ALUMINA_SILICA);
    static final TrialMaterial DENSE = new TrialMaterial(
            "dense fireclay", 2150, new double[] {0.95, 1.0, 1.05, 1.10, 1.15, 1.18, 1.22}, ALUMINA_SILICA);

    /** A brick that conducts four times as much at the top as cold: none of a maker's. */
    static final TrialMaterial STEEP =
            new TrialMaterial("steep", 620, new double[] {0.07, 0.09, 0.12, 0.16, 0.21, 0.26, 0.32}, new double[] {
                720, 840, 930, 1000, 1060, 1110, 1150
            });

    double conductivityAt(double celsius) {
        return at(conductivity, celsius);
    }

    double capacityAt(double celsius) {
        return at(capacity, celsius);
    }

    TrialMaterial scaled(double ofConductivity, double ofDensity) {
        double[] scaled = conductivity.clone();
        for (int i = 0; i < scaled.length; i++) {
            scaled[i] *= ofConductivity;
        }
        return new TrialMaterial(name, densityKgM3 * ofDensity, scaled, capacity);
    }

    TrialMaterial withConstantCapacity() {
        return new TrialMaterial(name, densityKgM3, conductivity, new double[] {980, 980, 980, 980, 980, 980, 980});
    }

    private static double at(double[] table, double celsius) {
        double place = Math.max(0, Math.min(celsius / 200, table.length - 1.001));
        int below = (int) place;
        return table[below] + (place - below) * (table[below + 1] - table[below]);
    }
}

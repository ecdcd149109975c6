package org.kilnside.virtualkiln;

import org.kilnside.quantity.Temperature;

/** Air at atmospheric pressure: its density, free convection from surfaces, and what its buoyancy drives through holes. */
final class Air {
    static final double PRESSURE_PA = 101_325;
    static final double GAS_CONSTANT = 8.314462618;
    static final double MOLAR_MASS_KG = 0.028964;
    /** J/(kg K); 1005 at room temperature, 1180 at 1000 °C (any handbook): one value between, as little of the heat is in air. */
    static final double HEAT_CAPACITY = 1060;

    private static final double GRAVITY = 9.80665;
    /** Of a sharp-edged opening, 0.6 (any handbook of ventilation). */
    private static final double DISCHARGE = 0.6;

    private Air() {}

    /** kg/m³, the ideal gas. */
    static double density(double temperatureC) {
        return PRESSURE_PA * MOLAR_MASS_KG / (GAS_CONSTANT * (temperatureC + Temperature.ZERO_CELSIUS_K));
    }

    /** Which way a surface looks decides how the warm air leaves it. */
    enum Attitude {
        VERTICAL(1.42, 1.31),
        FACING_UP(1.32, 1.52),
        FACING_DOWN(0.59, 0);

        private final double laminar;
        private final double turbulent;

        Attitude(double laminar, double turbulent) {
            this.laminar = laminar;
            this.turbulent = turbulent;
        }

        /**
         * W/(m² K): the simplified equations for free convection to air at atmospheric pressure, Holman, Heat
         * Transfer, Table 7-2 (from memory): laminar c (ΔT/L)^¼, turbulent c ΔT^⅓; the larger holds.
         */
        double freeConvection(double surfaceC, double airC, double lengthM) {
            double difference = Math.abs(surfaceC - airC);
            double slow = laminar * Math.sqrt(Math.sqrt(difference / lengthM));
            return turbulent > 0 ? Math.max(slow, turbulent * Math.cbrt(difference)) : slow;
        }
    }

    /**
     * kg/s that warm air in a chamber draws through one opening below and one above: the two in series under the
     * pressure g H (ρ_out − ρ_in), each with a discharge coefficient of 0.6 (ventilation handbooks, from memory).
     */
    static double draught(double insideC, double outsideC, double heightM, double lowerM2, double upperM2) {
        double outside = density(outsideC);
        double inside = density(insideC);
        double pressure = GRAVITY * heightM * (outside - inside);
        if (pressure <= 0 || lowerM2 <= 0 || upperM2 <= 0) {
            return 0;
        }
        return DISCHARGE
                * Math.sqrt(2 * pressure / (1 / (outside * lowerM2 * lowerM2) + 1 / (inside * upperM2 * upperM2)));
    }

    /**
     * kg/s exchanged through a single upright opening, warm air out above and cold in below: a third of C_d A √(g h
     * Δρ ρ) (ventilation handbooks, from memory).
     */
    static double exchange(double insideC, double outsideC, double areaM2, double openingHeightM) {
        double outside = density(outsideC);
        double inside = density(insideC);
        double lift = GRAVITY * openingHeightM * (outside - inside) * inside;
        return lift <= 0 ? 0 : DISCHARGE / 3 * areaM2 * Math.sqrt(lift);
    }
}

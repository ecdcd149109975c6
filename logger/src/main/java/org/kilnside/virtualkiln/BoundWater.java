package org.kilnside.virtualkiln;

import org.kilnside.quantity.Temperature;

/**
 * Clay losing its chemically bound water between about 400 and 700 °C, once and for good.
 *
 * <p>First order with 190 kJ/mol; the heat is about 650 kJ per kg of kaolinite, of which a body holds about 45 % (from
 * memory).
 */
final class BoundWater {
    private static final double HEAT_J_PER_KG_WARE = 0.45 * 650e3;
    private static final double ACTIVATION_J_MOL = 190e3;
    private static final double FREQUENCY_S = 1.5e9;

    private final double wareKg;
    private double left;
    private double takenJ;

    BoundWater(double wareKg, boolean raw) {
        this.wareKg = wareKg;
        left = raw ? 1 : 0;
    }

    /** Takes from a body what the reaction needs in this step. */
    void react(ThermalNetwork network, int body, double seconds) {
        takenJ = 0;
        double temperatureC = network.temperatureC(body);
        if (left < 1e-4 || temperatureC < 300) {
            return;
        }
        double rate = FREQUENCY_S
                * Math.exp(-ACTIVATION_J_MOL / (Air.GAS_CONSTANT * (temperatureC + Temperature.ZERO_CELSIUS_K)));
        double gone = left * rate * seconds / (1 + rate * seconds);
        left -= gone;
        takenJ = gone * wareKg * HEAT_J_PER_KG_WARE;
        network.source(body, -takenJ / seconds);
    }

    double takenJ() {
        return takenJ;
    }
}

package org.kilnside.virtualkiln;

import org.kilnside.quantity.Temperature;

/**
 * Pore water leaving one body of ware.
 *
 * <p>It evaporates as the vapour pressure over the ware exceeds that in the chamber; in a kiln with little draught the
 * chamber's own steam holds it back until, near 100 °C, the steam pushes itself out. The drier, the harder: the rate
 * falls with the water left. Mass transfer from heat transfer by Lewis' relation (any handbook).
 */
final class Moisture {
    private static final double LIQUID_J_KGK = 4186;
    private static final double MOLAR_MASS_KG = 0.018015;
    /** Share of a free water surface that clay gives while half its water is left: an estimate. */
    private static final double OPENNESS = 0.3;

    private final double startKg;
    private final double areaM2;
    private final double startC;
    private double waterKg;

    private double rateKgS;
    private double slopeKgSK;
    private double atC;
    private double latentJKg;

    /**
     * @param startC from which its heat is counted, °C
     */
    Moisture(double waterKg, double areaM2, double startC) {
        this.startC = startC;
        this.startKg = waterKg;
        this.waterKg = waterKg;
        this.areaM2 = areaM2;
    }

    boolean isLeft() {
        return waterKg > startKg * 1e-4 && waterKg > 1e-6;
    }

    double waterKg() {
        return waterKg;
    }

    double heatCapacityJK() {
        return waterKg * LIQUID_J_KGK;
    }

    double storedJ(double temperatureC) {
        return waterKg * LIQUID_J_KGK * (temperatureC - startC);
    }

    /** Adds to a body what its evaporation takes in this step, linearised about its temperature. */
    void evaporate(ThermalNetwork network, int body, double convectionWM2K, double airKgS, double seconds) {
        atC = network.temperatureC(body);
        latentJKg = Math.max(1e6, 2.501e6 - 2361 * atC);
        double here = rate(atC, convectionWM2K, airKgS);
        double warmer = rate(atC + 0.1, convectionWM2K, airKgS);
        double drain = 1 + here * seconds / waterKg;
        rateKgS = here / drain;
        slopeKgSK = Math.max(0, (warmer - here) / 0.1) / (drain * drain);
        network.surroundings(body, slopeKgSK * latentJKg, atC);
        network.source(body, -rateKgS * latentJKg);
    }

    /** Ends the step: J that left with the water. */
    double settle(double temperatureC, double seconds) {
        double gone = (rateKgS + slopeKgSK * (temperatureC - atC)) * seconds;
        double held = storedJ(temperatureC);
        waterKg -= gone;
        return gone * latentJKg + held - storedJ(temperatureC);
    }

    private double rate(double temperatureC, double convectionWM2K, double airKgS) {
        double kelvin = temperatureC + Temperature.ZERO_CELSIUS_K;
        double density = Air.density(temperatureC);
        double massTransfer = convectionWM2K / (density * Air.HEAT_CAPACITY * 0.9);
        double molesPerPascal = massTransfer * areaM2 * OPENNESS * (waterKg / startKg) / (Air.GAS_CONSTANT * kelvin);
        double airMoles = Math.max(airKgS, 1e-6) / Air.MOLAR_MASS_KG;
        double saturation = saturationPa(temperatureC);
        // n = K (p_sat − p n/(a + n)): the steam leaving sets the steam's share of the chamber.
        double linear = airMoles + molesPerPascal * (Air.PRESSURE_PA - saturation);
        double moles = (-linear + Math.sqrt(linear * linear + 4 * molesPerPascal * saturation * airMoles)) / 2;
        return moles * MOLAR_MASS_KG;
    }

    /** Vapour pressure of water, Pa: Antoine's equation with the usual two sets of constants (any handbook). */
    static double saturationPa(double temperatureC) {
        double t = Math.max(-20, Math.min(300, temperatureC));
        double log = t <= 100 ? 8.07131 - 1730.63 / (233.426 + t) : 8.14019 - 1810.94 / (244.485 + t);
        return 133.322 * Math.pow(10, log);
    }
}

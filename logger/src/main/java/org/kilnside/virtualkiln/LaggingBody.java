package org.kilnside.virtualkiln;

/**
 * A small body in surroundings that it does not change, such as a thermocouple: it takes heat by convection and by
 * radiation from what it sees, and a core follows it with a lag of its own. All per m² of its surface.
 */
final class LaggingBody {
    private static final int OUTSIDE = 0;
    private static final int CORE = 1;
    /** Of the core, J/(m² K): small beside any sheath. */
    private static final double CORE_HEAT_CAPACITY_JM2K = 200;

    private final ThermalNetwork network = new ThermalNetwork(2);
    private final double heatCapacityJM2K;
    private final double emissivity;
    private final double coreConductanceWM2K;

    /**
     * @param heatCapacityJM2K heat capacity over surface, J/(m² K): ρ c D/6 for a ball, ρ c D/4 for a rod
     * @param coreLagS time constant of the core behind the outside, s; infinite = it takes no heat
     */
    LaggingBody(double heatCapacityJM2K, double emissivity, double coreLagS, double startC) {
        this.heatCapacityJM2K = heatCapacityJM2K;
        this.emissivity = emissivity;
        coreConductanceWM2K = CORE_HEAT_CAPACITY_JM2K / coreLagS;
        network.setTemperatureC(OUTSIDE, startC);
        network.setTemperatureC(CORE, startC);
    }

    /**
     * Goes on by a step.
     *
     * @param sees shares of the surface that see each radiating temperature
     * @param seenC the temperatures seen
     */
    void step(double seconds, double convectionWM2K, double airC, double[] sees, double[] seenC) {
        network.begin();
        network.holds(OUTSIDE, heatCapacityJM2K, seconds);
        network.surroundings(OUTSIDE, convectionWM2K, airC);
        for (int i = 0; i < sees.length; i++) {
            double radiation = emissivity * sees[i] * Radiation.coefficient(network.temperatureC(OUTSIDE), seenC[i]);
            network.surroundings(OUTSIDE, radiation, seenC[i]);
        }
        network.holds(CORE, CORE_HEAT_CAPACITY_JM2K, seconds);
        network.exchange(OUTSIDE, CORE, coreConductanceWM2K);
        network.solve();
    }

    double outsideC() {
        return network.temperatureC(OUTSIDE);
    }

    double coreC() {
        return network.temperatureC(CORE);
    }
}

package org.kilnside.virtualkiln;

/**
 * A load where it stands: on each level an outer body that sees the elements, the wall and its neighbours, and a core
 * that only the outer body and the air reach. Both hold heat, dry, and lose their bound water; shelves count as ware.
 *
 * <p>In the network of a kiln of n levels the outer bodies are the nodes n … 2n − 1 and the cores 2n … 3n − 1, both from
 * the top down.
 */
final class Ware {
    static final double EMISSIVITY = 0.85;

    private final ThermalNetwork network;
    private final int levels;
    private final double jacketM2;
    private final double thicknessM;
    private final double inside;
    private final double bodyAreaM2;
    private final double[] bodyKg;
    private final Moisture[] moisture;
    private final BoundWater[] boundWater;
    private double withWaterJ;
    private double boundWaterJ;

    /**
     * @param jacketM2 the jacket's hot face
     * @param startC from which the heat of its water is counted, °C
     */
    Ware(ThermalNetwork network, Load load, int levels, double jacketM2, double startC) {
        this.network = network;
        this.levels = levels;
        this.jacketM2 = jacketM2;
        thicknessM = load.thicknessM();
        inside = load.inside();
        bodyKg = new double[2 * levels];
        moisture = new Moisture[2 * levels];
        boundWater = new BoundWater[2 * levels];
        // Both faces of a wall of the load's thickness.
        double kilograms = Math.max(load.wareKg() + load.furnitureKg(), 1);
        bodyAreaM2 = 2 * kilograms / (Materials.WARE.densityKgM3() * thicknessM) / (2 * levels);
        for (int i = 0; i < 2 * levels; i++) {
            double share = (i < levels ? 1 - inside : inside) / levels;
            bodyKg[i] = kilograms * share;
            moisture[i] = new Moisture(load.waterKg() * share, bodyAreaM2, startC);
            boundWater[i] = new BoundWater(load.wareKg() * share, load.raw());
        }
    }

    /**
     * Each body's own part in a step: the heat it holds, what it gets from the air, and what its water takes.
     *
     * @param gas the air's node
     * @param convectionWM2K from the air to what it sweeps over
     * @param airKgS the draught through the whole chamber
     */
    void hold(int gas, double convectionWM2K, double airKgS, double seconds) {
        for (int i = 0; i < 2 * levels; i++) {
            int node = levels + i;
            double wareC = network.temperatureC(node);
            network.holds(node, bodyKg[i] * Materials.WARE.heatCapacity(wareC) + moisture[i].heatCapacityJK(), seconds);
            // Air hardly moves among the ware of the core.
            double reach = i < levels ? convectionWM2K : convectionWM2K / 2;
            network.exchange(node, gas, reach * Math.min(bodyAreaM2, jacketM2 * 1.5 / levels));
            if (moisture[i].isLeft()) {
                moisture[i].evaporate(network, node, reach, airKgS / (2 * levels), seconds);
            }
            boundWater[i].react(network, node, seconds);
        }
    }

    /** A level's outer body radiates to its core, and the heat goes on through the core's own walls. */
    void joinCore(int level) {
        int outer = levels + level;
        int core = 2 * levels + level;
        double betweenWM2K = Radiation.coefficient(network.temperatureC(outer), network.temperatureC(core))
                * Radiation.greyGap(EMISSIVITY, EMISSIVITY);
        double conductance = 0.6 * (jacketM2 / levels) * betweenWM2K;
        double throughWare = Materials.WARE.conductivity(network.temperatureC(core)) * bodyAreaM2 / (thicknessM / 2);
        network.exchange(outer, core, conductance * throughWare / (conductance + throughWare));
    }

    /** Ends the step: the water that has gone took its heat along. */
    void settle(double seconds) {
        for (int i = 0; i < 2 * levels; i++) {
            if (moisture[i].isLeft()) {
                withWaterJ += moisture[i].settle(network.temperatureC(levels + i), seconds);
            }
            boundWaterJ += boundWater[i].takenJ();
        }
    }

    /** °C of the ware on a level that sees elements and wall. */
    double outerC(int level) {
        return network.temperatureC(levels + level);
    }

    /** °C of the ware on a level inside the stack. */
    double coreC(int level) {
        return network.temperatureC(2 * levels + level);
    }

    /** °C of the ware on a level, outside and core weighed by their masses. */
    double meanC(int level) {
        return (1 - inside) * outerC(level) + inside * coreC(level);
    }

    /** °C of the hottest of it anywhere. */
    double hottestC() {
        double hottest = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < 2 * levels; i++) {
            hottest = Math.max(hottest, network.temperatureC(levels + i));
        }
        return hottest;
    }

    /** kg of pore water still in it. */
    double waterKg() {
        double sum = 0;
        for (Moisture water : moisture) {
            sum += water.waterKg();
        }
        return sum;
    }

    /** J that left with pore water so far. */
    double withWaterJ() {
        return withWaterJ;
    }

    /** J that bound water took so far. */
    double boundWaterJ() {
        return boundWaterJ;
    }

    /** J it holds. */
    double storedJ() {
        double sum = 0;
        for (int i = 0; i < 2 * levels; i++) {
            double wareC = network.temperatureC(levels + i);
            sum += bodyKg[i] * Materials.WARE.enthalpy(wareC) + moisture[i].storedJ(wareC);
        }
        return sum;
    }
}

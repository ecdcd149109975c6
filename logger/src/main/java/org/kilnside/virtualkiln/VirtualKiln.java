package org.kilnside.virtualkiln;

import java.util.Arrays;
import org.kilnside.virtualkiln.VirtualKilnSpec.Side;

/**
 * A kiln with a load in it, stepped through time.
 *
 * <p>Beside each ring of elements stands a level of {@link Ware}. Element rings, ware, air and the hot faces of
 * jacket, lid and floor exchange heat by radiation and convection; behind each hot face a {@link Wall} conducts to a
 * shell that radiates and convects to the room. All of it is solved together, implicitly, once a step, so a step of 1 s
 * and one of 60 s are both stable.
 *
 * <p>View factors and effective areas are estimates from the geometry, marked below; the balance of energy does not
 * depend on them.
 */
public final class VirtualKiln {
    private static final double WALL_EMISSIVITY = 0.75;
    private static final double ELEMENT_EMISSIVITY = 0.75;
    /** Sheet steel 0.8 mm thick, J/(m² K). */
    private static final double SHELL_HEAT_CAPACITY_JM2K = 3100;
    /** Free convection inside a chamber, W/(m² K): an estimate; small beside radiation from 300 °C up. */
    private static final double INNER_CONVECTION = 6;
    /** Share of a ring's surface that looks out of its groove at the ware: an estimate. */
    private static final double RING_SEES_WARE = 0.45;
    /** Of that, what it sees of each neighbouring level: an estimate. */
    private static final double RING_SEES_NEIGHBOUR = 0.1;

    private final VirtualKilnSpec spec;
    private final Ambient ambient;
    private final int levels;
    private final ThermalNetwork network;
    private final Wall[] walls;
    private final Side[] sides;
    private final Air.Attitude[] attitudes = {Air.Attitude.VERTICAL, Air.Attitude.FACING_UP, Air.Attitude.FACING_DOWN};
    private final int gas;
    private final int faces;
    /** Of the air in the cold chamber; a thousandth of what the load holds. */
    private final double gasHeatCapacityJK;

    private final double[] faceAreasM2;

    private final Ware ware;
    private final Elements elements;
    private final Openings openings;
    private final int[] seenThroughGap;
    private final double[] shellWK = new double[3];

    private double elapsedS;
    private double powerW;
    private double airKgS;
    private double suppliedJ;
    private double throughShellJ;
    private double withAirJ;
    private double throughOpeningsJ;
    private final double storedAtStartJ;

    /** A kiln that has stood in its room long enough to be as cold as the room. */
    public static VirtualKiln cold(VirtualKilnSpec spec, Load load, Ambient ambient) {
        return new VirtualKiln(spec, load, ambient, 1);
    }

    /**
     * As {@link #cold}, on a mesh through the walls finer by a factor, to see what the mesh costs.
     *
     * @param finer 1 = as usual
     */
    static VirtualKiln onMesh(VirtualKilnSpec spec, Load load, Ambient ambient, double finer) {
        return new VirtualKiln(spec, load, ambient, finer);
    }

    private VirtualKiln(VirtualKilnSpec spec, Load load, Ambient ambient, double finer) {
        this.spec = spec;
        this.ambient = ambient;
        levels = spec.rings().size();
        gas = 3 * levels;
        faces = gas + 1;
        gasHeatCapacityJK = spec.volumeM3() * Air.density(ambient.atC(0)) * Air.HEAT_CAPACITY;
        network = new ThermalNetwork(faces + 3);
        sides = new Side[] {spec.jacket(), spec.lid(), spec.floor()};
        walls = new Wall[sides.length];
        faceAreasM2 = new double[sides.length];
        for (int i = 0; i < sides.length; i++) {
            Side side = sides[i];
            walls[i] = new Wall(
                    side.layers(),
                    side.innerAreaM2(),
                    side.outerAreaM2(),
                    SHELL_HEAT_CAPACITY_JM2K * side.outerAreaM2(),
                    0.0015 / finer,
                    0.18 / finer);
            faceAreasM2[i] = side.innerAreaM2();
        }
        double startC = ambient.atC(0);
        Arrays.stream(walls).forEach(wall -> wall.startAt(startC));
        for (int i = 0; i < faces + 3; i++) {
            network.setTemperatureC(i, startC);
        }
        ware = new Ware(network, load, levels, faceAreasM2[0], startC);
        elements = new Elements(spec.rings());
        openings = new Openings(spec);
        seenThroughGap = new int[] {levels, faces, faces + 1};
        storedAtStartJ = storedJ();
    }

    public VirtualKilnSpec spec() {
        return spec;
    }

    // ---- what hands, mains and age do to it

    /** How far the bung is out, 0 = in … 1 = out. */
    public void openBung(double share) {
        openings.openBung(between(share, 0, 1, "a bung is out by 0 to 1"));
    }

    /** Props the lid up by a gap, m; 0 = shut. */
    public void propLid(double gapM) {
        openings.propLid(between(gapM, 0, 1, "a lid is propped by 0 to 1 m"));
    }

    /** A vent's fan draws room air through the chamber, kg/s; 0 = off. 0.001 is usual (from memory). */
    public void runVent(double kilogramsPerSecond) {
        openings.vent(between(kilogramsPerSecond, 0, 0.1, "a vent draws 0 to 0.1 kg/s"));
    }

    public double lidGapM() {
        return openings.lidGapM();
    }

    /** Its supply is cut, or back. */
    public void setPowered(boolean on) {
        elements.setPowered(on);
    }

    /** Mains voltage against nominal: power follows its square. */
    public void setMains(double share) {
        elements.setMains(between(share, 0, 1.2, "mains lie between 0 and 1.2 of nominal"));
    }

    /** Resistance of all elements against new ones: 1.1 = aged by 10 %. */
    public void ageElements(double resistanceTimes) {
        elements.age(between(resistanceTimes, 0.5, 5, "aged elements have 0.5 to 5 times new resistance"));
    }

    /** A ring, its relay or its phase is lost, or back. */
    public void setRing(int ring, boolean alive) {
        elements.setAlive(ring, alive);
    }

    /** A ring's relay has welded: it heats whatever the controller says; or works again. */
    public void weldRelay(int ring, boolean welded) {
        elements.weld(ring, welded);
    }

    // ---- time

    /**
     * Goes on by a step.
     *
     * @param seconds above 0; at most 60 for a firing to be resolved
     * @param onShare share of the step for which the controller closes the relays, 0 … 1
     */
    public void step(double seconds, double onShare) {
        between(seconds, 1e-6, 600, "a step lasts up to 600 s");
        between(onShare, 0, 1, "relays are closed for 0 to 1 of a step");
        double roomC = ambient.atC(elapsedS + seconds);
        network.begin();
        powerW = elements.heat(network, seconds, onShare);
        airKgS = openings.airKgS(network.temperatureC(gas), roomC);
        // A draught stirs: an estimate.
        double convection = INNER_CONVECTION + Math.min(15, 600 * airKgS);
        ware.hold(gas, convection, airKgS, seconds);
        for (int i = 0; i < levels; i++) {
            radiateRing(i);
            radiateLevel(i);
        }
        radiateEnds();
        network.holds(gas, gasHeatCapacityJK, seconds);
        network.surroundings(gas, airKgS * Air.HEAT_CAPACITY, roomC);
        double[] gapWK = openings.radiate(network, seenThroughGap, roomC);
        for (int i = 0; i < walls.length; i++) {
            shellWK[i] = shellConductance(i, roomC);
            walls[i].eliminate(seconds, shellWK[i], roomC);
            network.folded(faces + i, walls[i].faceDiagonal(), walls[i].faceRight());
            network.exchange(gas, faces + i, convection * faceAreasM2[i]);
        }
        network.solve();
        elements.settle(network);
        settle(seconds, roomC, gapWK);
        elapsedS += seconds;
    }

    private void radiateRing(int ring) {
        double surfaceM2 = spec.rings().get(ring).surfaceM2();
        double toWare = surfaceM2 * RING_SEES_WARE * Radiation.greyGap(ELEMENT_EMISSIVITY, Ware.EMISSIVITY);
        double own = 1;
        for (int neighbour = Math.max(0, ring - 1); neighbour <= Math.min(levels - 1, ring + 1); neighbour++) {
            if (neighbour != ring) {
                network.radiate(ring, levels + neighbour, toWare * RING_SEES_NEIGHBOUR);
                own -= RING_SEES_NEIGHBOUR;
            }
        }
        network.radiate(ring, levels + ring, toWare * own);
        network.radiate(
                ring, faces, surfaceM2 * (1 - RING_SEES_WARE) * Radiation.greyGap(ELEMENT_EMISSIVITY, WALL_EMISSIVITY));
        network.exchange(ring, gas, 2 * INNER_CONVECTION * surfaceM2);
    }

    private void radiateLevel(int level) {
        int outer = levels + level;
        double sideM2 = faceAreasM2[0] / levels;
        network.radiate(outer, faces, 0.75 * sideM2 * Radiation.greyGap(Ware.EMISSIVITY, WALL_EMISSIVITY));
        if (level + 1 < levels) {
            // Shelves between the levels halve what passes.
            network.radiate(
                    outer,
                    outer + 1,
                    0.4 * spec.crossSectionM2() * Radiation.greyGap(Ware.EMISSIVITY, Ware.EMISSIVITY));
        }
        ware.joinCore(level);
    }

    private void radiateEnds() {
        double end = spec.crossSectionM2();
        double gap = Radiation.greyGap(Ware.EMISSIVITY, WALL_EMISSIVITY);
        network.radiate(levels, faces + 1, 0.75 * end * gap);
        network.radiate(2 * levels - 1, faces + 2, 0.75 * end * gap);
        network.radiate(faces, faces + 1, 0.25 * end * WALL_EMISSIVITY);
        network.radiate(faces, faces + 2, 0.25 * end * WALL_EMISSIVITY);
    }

    private double shellConductance(int side, double roomC) {
        double shellC = walls[side].shellC();
        double length = side == 0 ? spec.heightM() : Math.sqrt(sides[side].outerAreaM2());
        return sides[side].outerAreaM2()
                * (attitudes[side].freeConvection(shellC, roomC, length)
                        + spec.shellEmissivity() * Radiation.coefficient(shellC, roomC));
    }

    private void settle(double seconds, double roomC, double[] gapWK) {
        suppliedJ += powerW * seconds;
        for (int i = 0; i < walls.length; i++) {
            walls[i].settle(network.temperatureC(faces + i));
            throughShellJ += shellWK[i] * (walls[i].shellC() - roomC) * seconds;
        }
        withAirJ += airKgS * Air.HEAT_CAPACITY * (network.temperatureC(gas) - roomC) * seconds;
        for (int i = 0; i < gapWK.length; i++) {
            throughOpeningsJ += gapWK[i] * (network.temperatureC(seenThroughGap[i]) - roomC) * seconds;
        }
        ware.settle(seconds);
    }

    // ---- what is so

    /** Seconds since it was cold. */
    public double elapsedS() {
        return elapsedS;
    }

    public int levels() {
        return levels;
    }

    /** W going into the elements in the last step. */
    public double powerW() {
        return powerW;
    }

    /** °C of the ware on a level, top = 0, outside and core weighed by their masses. */
    public double wareC(int level) {
        return ware.meanC(level);
    }

    /** °C of the ware that sees elements and wall. */
    public double outerWareC(int level) {
        return ware.outerC(level);
    }

    /** °C of the ware inside the stack. */
    public double coreWareC(int level) {
        return ware.coreC(level);
    }

    /** °C of the hottest ware anywhere in the kiln. */
    public double hottestWareC() {
        return ware.hottestC();
    }

    /** °C of the wire of a ring. */
    public double elementC(int ring) {
        return network.temperatureC(ring);
    }

    /** °C of the air in the chamber, mixed. */
    public double airC() {
        return network.temperatureC(gas);
    }

    /** °C of the jacket's hot face. */
    public double faceC() {
        return walls[0].faceC();
    }

    /** °C of the jacket's shell. */
    public double shellC() {
        return walls[0].shellC();
    }

    /** °C of the room. */
    public double roomC() {
        return ambient.atC(elapsedS);
    }

    /** kg of pore water still in the ware. */
    public double waterKg() {
        return ware.waterKg();
    }

    public EnergyBalance energy() {
        return new EnergyBalance(
                suppliedJ,
                storedJ() - storedAtStartJ,
                throughShellJ,
                withAirJ,
                throughOpeningsJ,
                ware.withWaterJ(),
                ware.boundWaterJ());
    }

    private double storedJ() {
        double sum = ware.storedJ() + gasHeatCapacityJK * network.temperatureC(gas) + elements.storedJ(network);
        for (Wall wall : walls) {
            sum += wall.storedJ();
        }
        return sum;
    }

    private static double between(double value, double lowest, double highest, String rule) {
        if (!(value >= lowest && value <= highest)) {
            throw new IllegalArgumentException(rule + ", found " + value);
        }
        return value;
    }
}

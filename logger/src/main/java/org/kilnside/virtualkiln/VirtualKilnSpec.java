package org.kilnside.virtualkiln;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * A kiln as it is built, in SI units.
 *
 * @param name what it is called
 * @param volumeM3 of the chamber
 * @param heightM of the chamber
 * @param jacket the wall round the chamber
 * @param lid the lid (or door) on top
 * @param floor the floor
 * @param rings heating elements from the top ring down, at least one; each heats the level beside it most
 * @param upperLeakM2 gaps at the lid with the lid shut
 * @param lowerLeakM2 gaps at the floor and round the elements' ends
 * @param bungM2 the hole a bung leaves in the upper third
 * @param shellEmissivity of the jacket's outside: sheet steel 0.2 polished … 0.6 oxidised, painted 0.9 (any handbook)
 */
public record VirtualKilnSpec(
        String name,
        double volumeM3,
        double heightM,
        Side jacket,
        Side lid,
        Side floor,
        List<Ring> rings,
        double upperLeakM2,
        double lowerLeakM2,
        double bungM2,
        double shellEmissivity) {
    public VirtualKilnSpec {
        rings = List.copyOf(rings);
        if (rings.isEmpty()) {
            throw new IllegalArgumentException(name + ": a kiln has at least one ring of elements");
        }
        if (!(volumeM3 > 0 && volumeM3 < 5) || !(heightM > 0 && heightM < 3)) {
            throw new IllegalArgumentException(name + ": a chamber has up to 5 m³ and 3 m of height, found " + volumeM3
                    + " m³ and " + heightM + " m");
        }
        if (!(upperLeakM2 >= 0 && lowerLeakM2 >= 0 && bungM2 >= 0)) {
            throw new IllegalArgumentException(name + ": openings are not negative");
        }
    }

    /**
     * One side of the kiln.
     *
     * @param layers hot side first
     * @param innerAreaM2 of the hot face
     * @param outerAreaM2 of the shell
     */
    public record Side(List<Layer> layers, double innerAreaM2, double outerAreaM2) {
        public Side {
            layers = List.copyOf(layers);
            if (layers.isEmpty() || !(innerAreaM2 > 0) || !(outerAreaM2 > 0)) {
                throw new IllegalArgumentException("a side has a layer and an area above 0 m² on either face");
            }
        }

        public double thicknessM() {
            return layers.stream().mapToDouble(Layer::thicknessM).sum();
        }
    }

    /** One layer of a side. */
    public record Layer(Material material, double thicknessM) {
        public Layer {
            if (!(thicknessM > 0 && thicknessM <= 20)) {
                throw new IllegalArgumentException(
                        "a layer of " + material + " is between 0 and 20 m thick, found " + thicknessM);
            }
        }

        public static Layer of(Material material, double millimetres) {
            return new Layer(material, millimetres / 1000);
        }
    }

    /**
     * One ring of elements.
     *
     * @param ratedW power when new, at nominal mains, hot
     * @param massKg of the wire
     * @param surfaceM2 of the wire
     */
    public record Ring(double ratedW, double massKg, double surfaceM2) {
        /** A surface load of 2 W/cm² and 0.27 kg/kW, as common elements have (from memory). */
        static Ring of(double ratedW) {
            return new Ring(ratedW, 0.27e-3 * ratedW, ratedW / 20_000);
        }
    }

    /** W of all rings when new, at nominal mains. */
    public double ratedW() {
        return rings.stream().mapToDouble(Ring::ratedW).sum();
    }

    /** m² of the chamber's cross-section. */
    public double crossSectionM2() {
        return volumeM3 / heightM;
    }

    /** This kiln under another name and with other power, spread over the rings as before. */
    public VirtualKilnSpec withPower(double watts) {
        double factor = watts / ratedW();
        List<Ring> other =
                rings.stream().map(ring -> Ring.of(ring.ratedW() * factor)).toList();
        return new VirtualKilnSpec(
                name, volumeM3, heightM, jacket, lid, floor, other, upperLeakM2, lowerLeakM2, bungM2, shellEmissivity);
    }

    /** A round, top-loaded kiln: the geometry follows from a few numbers. */
    public static Drum drum(String name) {
        return new Drum(name);
    }

    /** Builds a round kiln. */
    public static final class Drum {
        private final String name;
        private double volumeM3 = 0.068;
        private double slenderness = 1.35;
        private double watts = 5600;
        private double[] ringShares = {0.34, 0.31, 0.35};
        private double leakTimes = 1;
        private double shellEmissivity = 0.5;
        private List<Layer> sides = List.of(Layer.of(Materials.BRICK_1260, 75));
        private List<Layer> ends = sides;

        private Drum(String name) {
            this.name = name;
        }

        public Drum litres(double litres) {
            volumeM3 = litres / 1000;
            return this;
        }

        /** Height over diameter. */
        public Drum slenderness(double heightOverDiameter) {
            slenderness = heightOverDiameter;
            return this;
        }

        public Drum kilowatts(double kilowatts) {
            watts = kilowatts * 1000;
            return this;
        }

        /** How the power is shared among the rings, top first; they add up to 1. */
        public Drum ringShares(double... shares) {
            ringShares = shares.clone();
            return this;
        }

        /** Gaps against those of a well-kept kiln of this size, 1 = well kept. */
        public Drum leaks(double times) {
            leakTimes = times;
            return this;
        }

        public Drum shellEmissivity(double emissivity) {
            shellEmissivity = emissivity;
            return this;
        }

        /** Layers all round, hot side first. */
        public Drum walls(Layer... layers) {
            sides = List.of(layers);
            ends = sides;
            return this;
        }

        /** Layers of lid and floor where they differ from the sides. */
        public Drum lidAndFloor(Layer... layers) {
            ends = List.of(layers);
            return this;
        }

        public VirtualKilnSpec build() {
            double diameter = Math.cbrt(4 * volumeM3 / (Math.PI * slenderness));
            double height = diameter * slenderness;
            double sideM = sides.stream().mapToDouble(Layer::thicknessM).sum();
            double endM = ends.stream().mapToDouble(Layer::thicknessM).sum();
            Side jacket =
                    new Side(sides, Math.PI * diameter * height, Math.PI * (diameter + 2 * sideM) * (height + endM));
            double inner = Math.PI / 4 * diameter * diameter;
            double outer = Math.PI / 4 * Math.pow(diameter + 2 * sideM, 2);
            Side end = new Side(ends, inner, outer);
            // A seam 0.25 mm wide on average round the lid, the same about the elements' ends and the floor: an
            // estimate.
            double seam = Math.PI * diameter * 0.00025 * leakTimes;
            List<Ring> rings = new ArrayList<>();
            double sum = Arrays.stream(ringShares).sum();
            for (double share : ringShares) {
                rings.add(Ring.of(watts * share / sum));
            }
            return new VirtualKilnSpec(
                    name, volumeM3, height, jacket, end, end, rings, seam, seam, 5e-4, shellEmissivity);
        }
    }
}

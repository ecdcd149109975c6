package org.kilnside.virtualkiln;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.virtualkiln.VirtualKilnSpec.Layer;

/**
 * Any number of different kilns, in families whose physics differ, the same for the same family, seed and number.
 *
 * <p>Made to judge forecasts, alarms and reviews: tune on one family or seed, judge on another. Chambers of 20–400
 * litres, walls of 50–115 mm, rooms of 2–26 °C.
 *
 * @param family which physics
 * @param seed which population of that family
 */
public record Population(Family family, long seed) {
    /** Kilns whose walls work alike. */
    public enum Family {
        /** Light insulating brick, its conductivity low and rising fast. */
        LIGHT_BRICK,
        /** Heavier insulating brick that holds two or three times the heat. */
        HEAVY_BRICK,
        /** Brick with fibre or board behind it. */
        LAYERED,
        /** Fibre alone: holds little, conducts three times as much at the top as when cold. */
        FIBRE
    }

    /** Kiln number 0, 1, 2 … of this population. */
    public Specimen specimen(int number) {
        Random random = new Random(mix(seed, family.ordinal(), number));
        double litres = logUniform(random, 20, 400);
        List<Layer> walls = walls(random);
        VirtualKilnSpec unpowered = VirtualKilnSpec.drum(
                        family.name().toLowerCase(java.util.Locale.ROOT) + "-" + seed + "-" + number)
                .litres(litres)
                .slenderness(uniform(random, 0.8, 1.7))
                .ringShares(uniform(random, 0.31, 0.37), uniform(random, 0.27, 0.33), uniform(random, 0.31, 0.37))
                .leaks(logUniform(random, 0.8, 5) * (family == Family.FIBRE ? 2 : 1))
                .shellEmissivity(uniform(random, 0.25, 0.85))
                .walls(walls.toArray(Layer[]::new))
                .build();
        // Half a kilogram a litre in a small kiln, less in a big one, least between thin fibre walls: an estimate.
        double kilograms =
                litres * uniform(random, 0.3, 0.65) * Math.pow(68 / litres, 0.12) * (family == Family.FIBRE ? 0.7 : 1);
        double watts = PowerNeed.watts(unpowered, kilograms, 1240, 70) * uniform(random, 1.08, 1.5);
        return new Specimen(
                family,
                unpowered.withPower(watts),
                kilograms,
                sensor(random),
                controller(random),
                uniform(random, 2, 26),
                uniform(random, 0, 10),
                uniform(random, 1, 1.06),
                random.nextLong());
    }

    /** The first so many kilns. */
    public List<Specimen> specimens(int count) {
        List<Specimen> all = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            all.add(specimen(i));
        }
        return all;
    }

    private List<Layer> walls(Random random) {
        // Makes and batches scatter by some ±12 % (common practice).
        double scatter = Math.exp(0.12 * Math.max(-2, Math.min(2, random.nextGaussian())));
        double thickness = uniform(random, 63, 115);
        boolean choice = random.nextBoolean();
        double backing = uniform(random, 12, 35);
        return switch (family) {
            case LIGHT_BRICK ->
                List.of(Layer.of(
                        (choice ? Materials.BRICK_1260 : Materials.BRICK_GRADE_23).withConductivityTimes(scatter),
                        thickness));
            case HEAVY_BRICK ->
                List.of(Layer.of(
                        (choice ? Materials.BRICK_1400 : Materials.BRICK_GRADE_26).withConductivityTimes(scatter),
                        Math.max(75, thickness)));
            case LAYERED ->
                List.of(
                        Layer.of(
                                (choice ? Materials.BRICK_GRADE_26 : Materials.BRICK_1260)
                                        .withConductivityTimes(scatter),
                                thickness - backing < 50 ? 50 : thickness - backing),
                        Layer.of(random.nextBoolean() ? Materials.FIBRE_128 : Materials.BACKING_BOARD, backing));
            case FIBRE ->
                List.of( // Joints, studs and element holders carry a third more than the blanket alone: an estimate.
                        Layer.of(Materials.FIBRE_128.withConductivityTimes(1.3 * scatter), uniform(random, 50, 100)));
        };
    }

    private static SensorSpec sensor(Random random) {
        Amplifier[] amplifiers = {
            Amplifier.MAX31855, Amplifier.MAX31855, Amplifier.MAX31856, Amplifier.MAX31856, Amplifier.CELSIUS
        };
        Amplifier amplifier = amplifiers[random.nextInt(amplifiers.length)];
        return new SensorSpec(
                new Probe(ThermocoupleType.K, amplifier),
                random.nextInt(3) == 0 ? 0 : 1,
                logUniform(random, 1200, 4500),
                uniform(random, 2, 10),
                logUniform(random, 0.05, 0.8),
                1.5 * random.nextGaussian(),
                0.0025 * random.nextGaussian(),
                random.nextInt(4) == 0 ? uniform(random, 0.05, 1) : 0);
    }

    private static ControllerSpec controller(Random random) {
        ControllerSpec.Regulation regulation = random.nextInt(4) == 0
                ? new ControllerSpec.Thermostat(uniform(random, 0.5, 2), uniform(random, 5, 20))
                : new ControllerSpec.ProportionalIntegral(
                        logUniform(random, 12, 40), logUniform(random, 200, 900), uniform(random, 5, 30));
        return new ControllerSpec(
                regulation,
                random.nextInt(3) > 0,
                uniform(random, 8, 25),
                true,
                0,
                new ControllerSpec.Reports(random.nextInt(3) > 0, random.nextInt(3) > 0, random.nextInt(3) > 0),
                ControllerSpec.AfterPowerCut.STAY_OFF);
    }

    static double uniform(Random random, double from, double to) {
        return from + (to - from) * random.nextDouble();
    }

    static double logUniform(Random random, double from, double to) {
        return from * Math.pow(to / from, random.nextDouble());
    }

    /** Neighbouring seeds must not give neighbouring kilns. */
    static long mix(long seed, long family, long number) {
        long mixed = seed * 0x9E3779B97F4A7C15L + family * 0xC2B2AE3D27D4EB4FL + number * 0x165667B19E3779F9L;
        mixed = (mixed ^ (mixed >>> 30)) * 0xBF58476D1CE4E5B9L;
        mixed = (mixed ^ (mixed >>> 27)) * 0x94D049BB133111EBL;
        return mixed ^ (mixed >>> 31);
    }
}

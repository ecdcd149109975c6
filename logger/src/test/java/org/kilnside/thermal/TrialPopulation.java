package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/** Kilns at random, by family of physics; the same number gives the same kiln with the same firings. */
final class TrialPopulation {
    /** Families of physics. {@link #PANELS} is kept for the final figures: nothing is tuned or scaled on it. */
    enum Family {
        /** Constant heat capacities, a leak that does not depend on temperature, one lot of ware. */
        PLAIN,
        BRICK,
        LAYERED,
        FIBRE,
        PANELS,
        /**
         * Walls of steep or flat brick, a third of them with board behind; a lid of fibre or brick, a dense floor; a leak that
         * may grow with the heat or not; much or little ware of any emissivity; a sensor that may be slow and see hardly any
         * ware. Drawn anew for docs/validation.md, which says what was changed after its first figure.
         */
        MIXED,
        /** What the design asks to be judged by: one linear brick, 50–200 litres, a quick sensor; widths are set on it. */
        ORDINARY
    }

    /** What the firings of a kiln are like. */
    enum Habit {
        FREE_COOLING,
        SLOW_COOLING,
        /** Free cooling of ware that holds a quarter of quartz; all other loads hold none. */
        QUARTZ_IN_THE_WARE
    }

    record Case(Family family, int number, TrialKiln kiln, List<TrialFiring> firings) {}

    private static final double USUAL_EXCHANGE = 0.75;
    /** A quarter of quartz, half of the load ware: 10 kJ/kg at 573 °C and as much below it (from memory). */
    private static final double QUARTZ_J_KG = 2500;

    private static final long DRAW = 17;

    /** The mixed kilns' own: changed whenever something has been learned from them. */
    private static final long MIXED_DRAW = 700_331;

    private TrialPopulation() {}

    static Case of(Family family, int number, int firings, Habit habit) {
        long draw = family == Family.MIXED ? MIXED_DRAW : DRAW;
        Random random = new Random(7919L * number + 104729L * family.ordinal() + draw);
        TrialKiln kiln = kiln(family, random);
        double sampleS = choose(random, 15, 30, 60);
        double quantum = choose(random, 0.25, 0.25, 1.0);
        double ambient = uniform(random, 2, 26);
        double fullness = uniform(random, 0.7, 1.3);
        List<TrialFiring> all = new ArrayList<>();
        for (int i = 0; i < firings; i++) {
            all.add(firing(family, kiln, random, sampleS, quantum, ambient, fullness, habit));
        }
        return new Case(family, number, kiln, all);
    }

    private static TrialKiln kiln(Family family, Random random) {
        double litres = Math.exp(uniform(random, Math.log(family == Family.FIBRE ? 20 : 45), Math.log(230)));
        double volume = litres / 1000;
        double side = Math.cbrt(volume);
        double area = 6 * side * side * uniform(random, 0.97, 1.1);
        List<TrialKiln.Panel> panels = new ArrayList<>();
        switch (family) {
            case PLAIN ->
                panels.add(new TrialKiln.Panel(
                        area,
                        2 / side,
                        List.of(new TrialKiln.Layer(
                                brick(random).withConstantCapacity(), uniform(random, 0.063, 0.115)))));
            case BRICK ->
                panels.add(new TrialKiln.Panel(
                        area, 2 / side, List.of(new TrialKiln.Layer(brick(random), uniform(random, 0.063, 0.115)))));
            case LAYERED ->
                panels.add(new TrialKiln.Panel(
                        area,
                        2 / side,
                        List.of(
                                new TrialKiln.Layer(brick(random), uniform(random, 0.063, 0.09)),
                                new TrialKiln.Layer(
                                        random.nextBoolean() ? TrialMaterial.FIBRE : TrialMaterial.BOARD,
                                        uniform(random, 0.01, 0.03)))));
            case FIBRE ->
                panels.add(new TrialKiln.Panel(
                        area,
                        2 / side,
                        List.of(new TrialKiln.Layer(
                                TrialMaterial.FIBRE.scaled(uniform(random, 0.85, 1.15), uniform(random, 0.8, 1.6)),
                                uniform(random, 0.05, 0.1)))));
            case MIXED -> panels.addAll(mixedWalls(area, side, random));
            case ORDINARY ->
                panels.add(new TrialKiln.Panel(
                        area,
                        2 / side,
                        List.of(new TrialKiln.Layer(linearBrick(random), uniform(random, 0.063, 0.115)))));
            case PANELS -> {
                TrialMaterial brick = brick(random);
                double wall = uniform(random, 0.063, 0.1);
                panels.add(new TrialKiln.Panel(area * 0.66, 2 / side, List.of(new TrialKiln.Layer(brick, wall))));
                panels.add(new TrialKiln.Panel(
                        area * 0.17,
                        1.4 / side,
                        List.of(new TrialKiln.Layer(brick, wall * uniform(random, 0.7, 1.1)))));
                panels.add(new TrialKiln.Panel(
                        area * 0.17,
                        1.4 / side,
                        random.nextBoolean()
                                ? List.of(
                                        new TrialKiln.Layer(brick, wall),
                                        new TrialKiln.Layer(TrialMaterial.DENSE, uniform(random, 0.02, 0.05)))
                                : List.of(
                                        new TrialKiln.Layer(brick, wall),
                                        new TrialKiln.Layer(TrialMaterial.BOARD, 0.02))));
            }
        }
        double loss = 0;
        for (TrialKiln.Panel panel : panels) {
            double resistance = 1 / (14 * panel.areaM2() * 1.8);
            double depth = 0;
            for (TrialKiln.Layer layer : panel.layers()) {
                double growth = 1 + panel.growthPerM() * (depth + layer.thicknessM() / 2);
                resistance +=
                        layer.thicknessM() / (layer.material().conductivityAt(700) * panel.areaM2() * growth * growth);
                depth += layer.thicknessM();
            }
            loss += 1230 / resistance;
        }
        double leak = loss / 1230 * uniform(random, 0.03, 0.3);
        if (family == Family.ORDINARY) {
            return new TrialKiln(
                    panels,
                    volume,
                    (loss + leak * 1230) * uniform(random, 1.2, 1.9),
                    uniform(random, 0.3, 0.9),
                    leak,
                    random.nextInt(3) == 0 ? 0.5 : 0,
                    uniform(random, 0, 0.5),
                    uniform(random, 0.2, 0.7),
                    Math.exp(uniform(random, Math.log(10), Math.log(90))),
                    false);
        }
        if (family == Family.MIXED) {
            return new TrialKiln(
                    panels,
                    volume,
                    (loss + leak * 1230) * uniform(random, 1.15, 1.8),
                    uniform(random, 0.2, 0.95),
                    leak,
                    uniform(random, 0, 0.8),
                    uniform(random, 0, 0.9),
                    uniform(random, 0.1, 0.9),
                    Math.exp(uniform(random, Math.log(25), Math.log(300))),
                    false);
        }
        return new TrialKiln(
                panels,
                volume,
                (loss + leak * 1230) * uniform(random, 1.15, 1.8),
                uniform(random, 0.25, 0.9),
                leak,
                family != Family.PLAIN && random.nextBoolean() ? 0.5 : 0,
                uniform(random, 0.3, 0.7),
                uniform(random, 0.2, 0.7),
                Math.exp(uniform(random, Math.log(20), Math.log(150))),
                family == Family.PLAIN);
    }

    private static List<TrialKiln.Panel> mixedWalls(double area, double side, Random random) {
        List<TrialKiln.Panel> panels = new ArrayList<>();
        TrialMaterial brick = random.nextBoolean()
                ? TrialMaterial.STEEP.scaled(uniform(random, 0.85, 1.2), uniform(random, 0.8, 1.3))
                : TrialMaterial.L1540.scaled(uniform(random, 0.8, 1.1), uniform(random, 0.9, 1.05));
        double wall = uniform(random, 0.063, 0.115);
        List<TrialKiln.Layer> sides = new ArrayList<>();
        sides.add(new TrialKiln.Layer(brick, wall));
        if (random.nextInt(3) == 0) {
            sides.add(new TrialKiln.Layer(TrialMaterial.BOARD, uniform(random, 0.006, 0.02)));
        }
        panels.add(new TrialKiln.Panel(area * 0.64, uniform(random, 1.3, 2.2) / side, sides));
        panels.add(new TrialKiln.Panel(
                area * 0.18,
                1.5 / side,
                List.of(new TrialKiln.Layer(
                        random.nextBoolean() ? TrialMaterial.FIBRE : brick, wall * uniform(random, 0.6, 0.9)))));
        panels.add(new TrialKiln.Panel(
                area * 0.18,
                1.5 / side,
                List.of(
                        new TrialKiln.Layer(brick, wall),
                        new TrialKiln.Layer(TrialMaterial.DENSE, uniform(random, 0.01, 0.03)))));
        return panels;
    }

    /** Conductivity and heat capacity straight in the temperature, from hardly steeper to three times as much at the top. */
    private static TrialMaterial linearBrick(Random random) {
        double[] conductivity = new double[7];
        double[] capacity = new double[7];
        double cold = uniform(random, 0.08, 0.2);
        double rise = uniform(random, 4e-5, 2.2e-4);
        double cp = uniform(random, 870, 1050);
        double cpRise = uniform(random, 0.05, 0.3);
        for (int i = 0; i < 7; i++) {
            conductivity[i] = cold + rise * 200 * i;
            capacity[i] = cp + cpRise * 200 * i;
        }
        return new TrialMaterial("linear", uniform(random, 470, 820), conductivity, capacity);
    }

    private static TrialMaterial brick(Random random) {
        TrialMaterial make = switch (random.nextInt(5)) {
            case 0 -> TrialMaterial.L1260;
            case 1 -> TrialMaterial.L1400;
            case 2 -> TrialMaterial.L1540;
            case 3 -> TrialMaterial.MAKER_23;
            default -> TrialMaterial.MAKER_26;
        };
        return make.scaled(uniform(random, 0.9, 1.1), uniform(random, 0.95, 1.05));
    }

    private static TrialFiring firing(
            Family family,
            TrialKiln kiln,
            Random random,
            double sampleS,
            double quantum,
            double ambientMean,
            double fullness,
            Habit habit) {
        boolean mixed = family == Family.MIXED;
        double kg = kiln.volumeM3() * fullness * uniform(random, mixed ? 70 : 110, mixed ? 400 : 330);
        double thick = uniform(random, 0.1, 0.6);
        double areaPerKgM2 = uniform(random, mixed ? 0.04 : 0.06, mixed ? 0.18 : 0.15);
        double exchange = mixed ? uniform(random, 0.35, 0.9) : USUAL_EXCHANGE;
        TrialKiln.Load load = new TrialKiln.Load(
                kg * (1 - thick),
                kg * thick,
                areaPerKgM2,
                exchange,
                habit == Habit.QUARTZ_IN_THE_WARE ? QUARTZ_J_KG : 0);
        boolean bisque = random.nextInt(2) == 0;
        double top = bisque ? uniform(random, 960, 1070) : uniform(random, 1070, 1265);
        List<TrialFiring.Leg> plan = new ArrayList<>();
        plan.add(
                new TrialFiring.Leg(uniform(random, 60, 150), uniform(random, 100, 150), uniform(random, 0, 1) * 7200));
        plan.add(new TrialFiring.Leg(uniform(random, 80, 160), 600, 0));
        plan.add(new TrialFiring.Leg(uniform(random, 100, 250), top - 100, 0));
        plan.add(new TrialFiring.Leg(uniform(random, 60, 120), top, uniform(random, 0, 1) * 2400));
        if (habit == Habit.SLOW_COOLING) {
            double from = top - uniform(random, 80, 250);
            plan.add(new TrialFiring.Leg(999, from, uniform(random, 0, 1) * 3600));
            plan.add(new TrialFiring.Leg(uniform(random, 40, 80), from - uniform(random, 100, 250), 0));
        }
        plan.add(new TrialFiring.Leg(0, 0, 0));
        double ambient = Math.max(-2, Math.min(30, ambientMean + uniform(random, -5, 5)));
        return TrialFiring.run(
                kiln,
                load,
                plan,
                new TrialFiring.Conditions(
                        ambient + uniform(random, -1, 4),
                        ambient,
                        uniform(random, 0, 9),
                        uniform(random, 0.2, 1.0),
                        quantum,
                        sampleS,
                        List.of(),
                        1),
                random.nextLong(),
                Math.max(55, ambient + 20));
    }

    private static double uniform(Random random, double from, double to) {
        return from + (to - from) * random.nextDouble();
    }

    private static double choose(Random random, double... of) {
        return of[random.nextInt(of.length)];
    }
}

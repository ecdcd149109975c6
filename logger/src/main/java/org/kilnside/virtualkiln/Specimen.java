package org.kilnside.virtualkiln;

import java.util.Random;
import org.kilnside.schedule.Schedule;

/**
 * One kiln of a population with its sensor, its controller and its studio. Each of its firings has another load, another
 * day and other noise; its elements age a little from one to the next.
 *
 * @param family the physics it shares
 * @param kiln as built
 * @param usualKg ware and furniture together, kg
 * @param sensor in it
 * @param controller on it
 * @param roomC usual mean of the room, °C
 * @param swingK usual swing of day and night, K
 * @param elementResistance of its elements at its first firing, against new
 * @param seed for its firings
 */
public record Specimen(
        Population.Family family,
        VirtualKilnSpec kiln,
        double usualKg,
        SensorSpec sensor,
        ControllerSpec controller,
        double roomC,
        double swingK,
        double elementResistance,
        long seed) {

    /** Firing number 0, 1, 2 … of this kiln with ware fired before. */
    public VirtualFiring.Builder glazeFiring(Schedule program, int number) {
        return firing(program, number, false);
    }

    /** Firing number 0, 1, 2 … of this kiln with raw ware. */
    public VirtualFiring.Builder bisqueFiring(Schedule program, int number) {
        return firing(program, number, true);
    }

    /** What stands in the kiln in firing number 0, 1, 2 … with raw ware or with ware fired before. */
    public Load load(int number, boolean raw) {
        return load(random(number, raw), raw);
    }

    private Random random(int number, boolean raw) {
        return new Random(Population.mix(seed, raw ? 1 : 0, number));
    }

    private Load load(Random random, boolean raw) {
        double kilograms = usualKg * Population.uniform(random, 0.75, 1.25);
        double furniture = kilograms * Population.uniform(random, 0.3, 0.5);
        double ware = kilograms - furniture;
        double water = raw ? ware * Population.uniform(random, 0.003, 0.02) : 0;
        return new Load(
                ware,
                furniture,
                Population.uniform(random, 0.005, 0.012),
                water,
                raw,
                Population.uniform(random, 0.25, 0.55));
    }

    private VirtualFiring.Builder firing(Schedule program, int number, boolean raw) {
        Random random = random(number, raw);
        Load load = load(random, raw);
        double meanC = Math.max(2, Math.min(26, roomC + 2 * random.nextGaussian()));
        return VirtualFiring.of(kiln, program)
                .load(load)
                .ambient(new Ambient(meanC, swingK, Population.uniform(random, 0, 86_400)))
                .sensors(sensor)
                .controller(controller)
                .mains(new Mains(Population.uniform(random, 0.97, 1.03), 0, 0, 0, Population.uniform(random, 0, 0.006)))
                // Some 15 % over a hundred firings (common practice).
                .elementResistance(elementResistance + 0.0015 * number)
                .seed(random.nextLong());
    }
}

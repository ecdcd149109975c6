package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.virtualkiln.Load;
import org.kilnside.virtualkiln.Population;
import org.kilnside.virtualkiln.Programs;
import org.kilnside.virtualkiln.Specimen;

/** Independent of the model: the virtual kilns have other physics, and tell what went into them. */
class LikelyKilnsTest {
    private static final long SEED = 83;
    private static final Schedule GLAZE = Programs.glaze(1222, 80);
    private static final double BELOW_C = 120;

    private static VirtualTrial fired(Specimen specimen, int number, double share) {
        Load usual = specimen.load(number, false);
        return VirtualTrial.run(
                specimen.glazeFiring(GLAZE, number)
                        .load(Load.biscuit(share * usual.wareKg(), share * usual.furnitureKg()))
                        .interval(10)
                        .start(),
                GLAZE,
                100,
                Double.POSITIVE_INFINITY);
    }

    /** ln(imagined / true time from the lighting to {@link #BELOW_C}) of a load other than the two before it, weighed. */
    private static double error(Population.Family family, int kiln, double share) {
        Specimen specimen = new Population(family, SEED).specimen(kiln);
        List<Trace> earlier = new ArrayList<>();
        for (int i = 0; i < 2; i++) {
            earlier.add(fired(specimen, i, 1).until(1e9, true));
        }
        VirtualTrial today = fired(specimen, 2, share);
        Load load = specimen.load(2, false);
        LikelyKilns kilns = LikelyKilns.of(
                ImaginedFiringsTrial.described(specimen, family),
                KilnMemory.of(earlier, Optional.empty(), OptionalDouble.of(today.roomC())),
                Temperature.ofCelsius(today.roomC()),
                OptionalDouble.of(share * (load.wareKg() + load.furnitureKg())));
        double imagined = ImaginedFirings.of(GLAZE, kilns, List.of(Temperature.ofCelsius(BELOW_C)))
                .time(firing -> firing.belowS().get(0), 0.07)
                .orElseThrow()
                .at();
        return Math.log(imagined / today.belowS(BELOW_C));
    }

    @Test
    void aLoadMuchLighterThanThoseBeforeItIsForeseenToCoolSooner() {
        List<Double> errors = new ArrayList<>();
        for (int kiln = 0; kiln < 3; kiln++) {
            errors.add(error(Population.Family.LIGHT_BRICK, kiln, 0.35));
            errors.add(error(Population.Family.HEAVY_BRICK, kiln, 0.35));
        }
        assertThat(errors.stream().mapToDouble(Double::doubleValue).average().orElseThrow())
                .as("how much too late on average, ln")
                .isLessThan(0.06);
        assertThat(errors).allSatisfy(error -> assertThat(Math.abs(error)).isLessThan(0.15));
    }
}

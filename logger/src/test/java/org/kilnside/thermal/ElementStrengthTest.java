package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.schedule.Schedule;
import org.kilnside.virtualkiln.Mains;
import org.kilnside.virtualkiln.Population;
import org.kilnside.virtualkiln.Programs;
import org.kilnside.virtualkiln.Specimen;

/** Elements of virtual kilns that age by what is set: independent of the model. */
class ElementStrengthTest {
    private static Trace fire(Specimen kiln, int number, double resistance, boolean withOutput) {
        Schedule plan = Programs.glaze(1150 + 20 * number, 70);
        return VirtualTrial.run(
                        kiln.glazeFiring(plan, number)
                                .mains(new Mains(1, 0, 0, 0, 0))
                                .elementResistance(resistance)
                                .interval(10)
                                .start(),
                        plan,
                        150,
                        60 * 3600)
                .until(1e9, withOutput);
    }

    private static ElementStrength strength(Specimen kiln, boolean withOutput, double... resistances) {
        List<Trace> firings = new ArrayList<>();
        for (int i = 0; i < resistances.length; i++) {
            firings.add(fire(kiln, i, resistances[i], withOutput));
        }
        return ElementStrength.of(firings, Optional.empty());
    }

    @Test
    void followsElementsAsTheyAgeThroughOtherLoadsAndOtherTops() {
        Specimen kiln = new Population(Population.Family.LIGHT_BRICK, 5).specimen(1);
        ElementStrength found = strength(kiln, true, 1, 1.06, 1.12, 1.18);
        assertThat(found.firings()).hasSize(4);
        for (int i = 1; i < 4; i++) {
            ElementStrength.Strength each = found.firings().get(i);
            assertThat(each.ofFirst()).isCloseTo(1 / (1 + 0.06 * i), within(0.04));
            assertThat(1 / (1 + 0.06 * i)).isBetween(each.from(), each.to());
        }
        ElementStrength.Ageing ageing = found.ageing().orElseThrow();
        // 18 % more resistance in three firings: as if 42 % of the power went in ten.
        assertThat(ageing.lostPerTen()).isCloseTo(1 - Math.pow(1 / 1.18, 10 / 3.0), within(0.1));
        assertThat(ageing.from()).isGreaterThan(0);
    }

    @Test
    void doesNotCallElementsWornThatAreNot() {
        Specimen kiln = new Population(Population.Family.HEAVY_BRICK, 5).specimen(3);
        for (ElementStrength.Strength each : strength(kiln, true, 1, 1, 1).firings()) {
            assertThat(each.ofFirst()).isCloseTo(1, within(0.05));
            assertThat(1.0).isBetween(each.from(), each.to());
        }
    }

    @Test
    void saysNothingWhereTheOutputIsNotTold() {
        Specimen kiln = new Population(Population.Family.LIGHT_BRICK, 5).specimen(1);
        ElementStrength found = strength(kiln, false, 1, 1.1);
        assertThat(found.firings()).isEmpty();
        assertThat(found.ageing()).isEmpty();
    }
}

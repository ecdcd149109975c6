package org.kilnside.virtualkiln;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** The lines that make the virtual thermocouple lag, against worked examples of thermocouples and panels. */
class LaggingBodyTest {
    private static final double NO_CORE = Double.POSITIVE_INFINITY;
    private static final double[] SEES_NOTHING = {};

    /** Published: Incropera & DeWitt, Ex. 5.1: a junction of 0.706 mm reads 199 °C in gas of 200 °C after 5.2 s. */
    @Test
    void aJunctionLagsAsInIncroperaExample51() {
        LaggingBody junction = new LaggingBody(8500 * 400 * 7.06e-4 / 6, 0, NO_CORE, 25);
        double seconds = 0;
        while (junction.outsideC() < 199) {
            junction.step(0.001, 400, 200, SEES_NOTHING, SEES_NOTHING);
            seconds += 0.001;
        }
        assertThat(seconds).isCloseTo(5.2, within(0.05));
        // Independent: 5.165 s by the closed form.
        assertThat(seconds).isCloseTo(5.165, within(0.01));
    }

    /** Published: Incropera & DeWitt, Ex. 5.2: with walls of 400 °C it settles at 218.7 °C, to 1 °C after 4.9 s. */
    @Test
    void aJunctionThatSeesHotWallsReadsHighAsInIncroperaExample52() {
        LaggingBody junction = new LaggingBody(8500 * 400 * 7.06e-4 / 6, 0.9, NO_CORE, 25);
        double seconds = 0;
        double reachedS = 0;
        while (seconds < 60) {
            junction.step(0.001, 400, 200, new double[] {1}, new double[] {400});
            seconds += 0.001;
            if (reachedS == 0 && junction.outsideC() > 217.7) {
                reachedS = seconds;
            }
        }
        assertThat(junction.outsideC()).isCloseTo(218.7, within(0.1));
        assertThat(reachedS).isCloseTo(4.99, within(0.05));
    }

    /** Published: Incropera & DeWitt, Ex. 5.3: a panel 3 mm thick: 123 s to 150 °C, 423 s in all, 987 s with cooling. */
    @Test
    void aPanelCuresAndCoolsAsInIncroperaExample53() {
        // Both faces are alike: half the thickness behind each.
        LaggingBody panel = new LaggingBody(2770 * 875 * 0.003 / 2, 0.8, NO_CORE, 25);
        double seconds = 0;
        while (panel.outsideC() < 150) {
            panel.step(0.01, 40, 175, new double[] {1}, new double[] {175});
            seconds += 0.01;
        }
        assertThat(seconds).isCloseTo(123, within(1.0));
        double curedS = seconds + 300;
        while (seconds < curedS) {
            panel.step(0.01, 40, 175, new double[] {1}, new double[] {175});
            seconds += 0.01;
        }
        while (panel.outsideC() > 37) {
            panel.step(0.01, 10, 25, new double[] {1}, new double[] {25});
            seconds += 0.01;
        }
        assertThat(seconds).isCloseTo(987, within(1.5));
    }

    /** Published: Cengel, Heat Transfer, 2nd ed., Ex. 4-1: a bead of 1 mm has 99 % of a step after 10 s. */
    @Test
    void aBeadHasNinetyNinePercentOfAStepAsInCengelExample41() {
        LaggingBody bead = new LaggingBody(8500 * 320 * 0.001 / 6, 0, NO_CORE, 0);
        double seconds = 0;
        while (bead.outsideC() < 99) {
            bead.step(0.001, 210, 100, SEES_NOTHING, SEES_NOTHING);
            seconds += 0.001;
        }
        assertThat(seconds).isCloseTo(10, within(0.1));
    }

    /** Independent: a first-order lag behind a held outside has 63.2 % of a step after its time constant. */
    @Test
    void theCoreFollowsWithItsOwnTimeConstant() {
        LaggingBody body = new LaggingBody(0.001, 0, 5, 0);
        for (int i = 0; i < 5000; i++) {
            body.step(0.001, 1e6, 100, SEES_NOTHING, SEES_NOTHING);
        }
        assertThat(body.coreC()).isCloseTo(63.2, within(0.1));
    }
}

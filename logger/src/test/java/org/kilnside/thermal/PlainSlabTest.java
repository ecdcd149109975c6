package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;

/** The yardstick itself: a kiln that is a flat slab is foretold by it, or it would measure nothing. */
class PlainSlabTest {
    private static final double STEP_S = 60;
    private static final double ROOM_C = 12;

    @Test
    void aKilnThatIsAFlatSlabIsForetoldWithinOnePerCent() {
        WallSlab truth = new WallSlab(PlainSlab.SHAPE, 24);
        truth.use(new KilnParameters(17_000, 2.2, 0.7, 0.25, 0, 1, 1, 0, 0, 1, ROOM_C));
        truth.startUniform(ROOM_C);
        Trace.Builder log = new Trace.Builder();
        double time = 0;
        double offS = 0;
        while (truth.chamberC() < 1200) {
            log.add(Math.round(time * 1000), truth.chamberC());
            truth.drive(STEP_S, truth.chamberC() + 120 * STEP_S / 3600);
            time += STEP_S;
            offS = time;
        }
        double[] falls = {600, 200, 120, 60};
        double[] whenS = new double[falls.length];
        for (int i = 0; i < falls.length; i++) {
            while (truth.chamberC() > falls[i]) {
                if (i == 0) {
                    log.add(Math.round(time * 1000), truth.chamberC());
                }
                truth.run(STEP_S, 0);
                time += STEP_S;
            }
            whenS[i] = time;
        }

        double[] said = new PlainSlab(log.view(), offS, ROOM_C).remainingS(whenS[0], new double[] {200, 120, 60});

        for (int i = 0; i < said.length; i++) {
            double left = whenS[i + 1] - whenS[0];
            assertThat(said[i] / left).isCloseTo(1, within(0.01));
        }
    }
}

package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;

class FiringFitTest {
    private static final double ROOM_C = 15;
    private static final double TOP_C = 1240;
    private static final double STEP_S = 60;

    /** From the middle the search goes down to thin walls of which the conductivity rises as no material's does. */
    @Test
    void findsThickWallsOfFibreThatAreFarFromTheMiddle() {
        Prior.Ambient room = new Prior.Ambient(ROOM_C, 3);
        Prior prior = Prior.of(WallKind.FIBRE, room, false, Optional.empty(), false, false, false, false);
        double[] thick = new double[Prior.BASIC];
        thick[Prior.TAU] = 2.5;
        thick[Prior.PHI] = -1.9;
        thick[Prior.LAMBDA] = -1.3;
        FiringData data = FiringData.of(
                Course.of(firedAndCooled(prior.kiln(thick).withPsiC(4000), 600)), OptionalDouble.of(ROOM_C));

        double[] found = FiringFit.fit(data, WallKind.FIBRE).solution().parameters();

        assertThat(found[Prior.TAU]).isGreaterThan(1.5);
        assertThat(found[Prior.CONDUCTIVITY_STEEPNESS]).isBetween(-1.0, 1.0);
    }

    /** Most of a search is done with half the cells and twice the step; where it ends must be the whole model's own least. */
    @Test
    void endsAsLowAsASearchWithTheWholeModelThroughoutWould() {
        Prior.Ambient room = new Prior.Ambient(ROOM_C, 3);
        Prior prior = Prior.of(WallKind.FIBRE, room, false, Optional.empty(), false, false, false, false);
        for (double thicker : new double[] {-1, 0, 1}) {
            double[] kiln = new double[Prior.BASIC];
            kiln[Prior.TAU] = thicker;
            kiln[Prior.PHI] = 0.5 * thicker;
            kiln[Prior.CAPACITY_STEEPNESS] = -thicker;
            FiringData data = FiringData.of(
                    Course.of(firedAndCooled(prior.kiln(kiln).withPsiC(4000), 400)), OptionalDouble.of(ROOM_C));
            LeastSquares.Residuals whole = FiringFit.residuals(data, WallKind.FIBRE);
            double wholeSum =
                    FiringFit.search(whole, data.prior(WallKind.FIBRE).size()).sumOfSquares();

            LeastSquares.Solution found = FiringFit.fit(data, WallKind.FIBRE).solution();

            double there = 0;
            for (double residual : whole.at(found.parameters())) {
                there += residual * residual;
            }
            assertThat(found.sumOfSquares()).isEqualTo(there);
            assertThat(found.sumOfSquares()).isLessThan(1.02 * wholeSum);
        }
    }

    private static Trace firedAndCooled(KilnParameters kiln, double untilC) {
        WallSlab slab = new WallSlab(WallKind.FIBRE.shape(), 2 * WallSlab.USUAL_CELLS);
        slab.use(kiln);
        slab.startUniform(ROOM_C);
        Trace.Builder log = new Trace.Builder();
        Random noise = new Random(3);
        double seconds = 0;
        double setpointC = ROOM_C;
        boolean heats = true;
        while (heats || slab.chamberC() > untilC) {
            double output = 0;
            if (heats) {
                setpointC = Math.min(TOP_C, setpointC + 120 / 3600.0 * STEP_S);
                output = slab.control(STEP_S, setpointC);
                heats = slab.chamberC() < TOP_C - 2;
            } else {
                slab.coast(STEP_S);
            }
            seconds += STEP_S;
            double read = Math.round((slab.chamberC() + 0.4 * noise.nextGaussian()) * 4) / 4.0;
            log.add((long) (seconds * 1000), read, OptionalDouble.of(output), OptionalDouble.empty());
        }
        return log.view();
    }
}

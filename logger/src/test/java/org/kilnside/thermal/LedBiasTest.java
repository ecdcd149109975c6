package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.kilnside.thermal.TrialPopulation.Family;
import org.kilnside.thermal.TrialPopulation.Habit;

/** Kilns led down slowly by elements that tell how much they are on. Trial kilns are independent of the model. */
class LedBiasTest {
    private static final int UNSEEN_FROM = 9400;

    private static TrialFiring firing(int kiln, Habit habit) {
        return TrialPopulation.of(kiln % 2 == 0 ? Family.BRICK : Family.ORDINARY, kiln, 1, habit)
                .firings()
                .get(0);
    }

    private static FiringData data(TrialFiring firing, double atS, boolean told) {
        return FiringData.of(Course.of(firing.until(atS, told)), OptionalDouble.of(firing.roomC()));
    }

    private static List<FiringFit.Weighted> fits(FiringData data) {
        return KilnMemory.none(Optional.of(WallKind.BRICK)).fit(data);
    }

    private static double bias(TrialFiring firing, double atS, boolean told) {
        FiringData data = data(firing, atS, told);
        return LedBias.of(data, fits(data));
    }

    /** Ten minutes after they were let go, the time to 200 °C. */
    @Test
    void kilnsThatWereLedAreToldTooLateNoMoreThanTooEarly() {
        double late = IntStream.range(UNSEEN_FROM, UNSEEN_FROM + 16)
                .mapToObj(kiln -> firing(kiln, Habit.SLOW_COOLING))
                .mapToDouble(firing -> {
                    double atS = firing.offS() + 600;
                    FiringData data = data(firing, atS, true);
                    double told =
                            CoolingForecast.remaining(data, fits(data), new double[] {200}, Optional.empty())[0].mean();
                    return told - Math.log(firing.belowS(200) - atS);
                })
                .sorted()
                .skip(5)
                .limit(6)
                .average()
                .orElseThrow();
        assertThat(late).isBetween(-0.02, 0.02);
    }

    @Test
    void itIsForgottenOnceTheyHaveBeenLeftAloneForHours() {
        TrialFiring led = firing(UNSEEN_FROM, Habit.SLOW_COOLING);
        double first = bias(led, led.offS() + 600, true);
        assertThat(first).isBetween(-0.05, -0.025);
        assertThat(bias(led, led.offS() + 3 * 3600, true)).isBetween(first / 10, 0.0);
    }

    @Test
    void nothingIsTakenOffWhereNobodyTellsTheOutputOrTheKilnWasLetCool() {
        TrialFiring led = firing(UNSEEN_FROM, Habit.SLOW_COOLING);
        assertThat(bias(led, led.offS() + 600, false)).isZero();
        TrialFiring free = firing(UNSEEN_FROM, Habit.FREE_COOLING);
        assertThat(bias(free, free.offS() + 3600, true)).isZero();
    }
}

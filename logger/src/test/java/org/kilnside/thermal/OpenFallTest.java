package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast.Remark;
import org.kilnside.thermal.TrialPopulation.Family;
import org.kilnside.thermal.TrialPopulation.Habit;

/** Opened with the elements going off and left so, nobody having noted it. Trial kilns are independent of the model. */
class OpenFallTest {
    private static final int UNSEEN_FROM = 9400;

    /** @param leakTimes so many times its leak from the top on; 1 = shut */
    private static TrialFiring fired(int number, double leakTimes) {
        TrialKiln kiln = TrialPopulation.of(Family.ORDINARY, number, 1, Habit.FREE_COOLING)
                .kiln();
        double kg = 220 * kiln.volumeM3();
        return TrialFiring.run(
                kiln,
                new TrialKiln.Load(kg * 0.7, kg * 0.3, 0.1, 0.75, 0),
                List.of(
                        new TrialFiring.Leg(120, 600, 0),
                        new TrialFiring.Leg(150, 1100, 0),
                        new TrialFiring.Leg(80, 1180, 600),
                        new TrialFiring.Leg(0, 0, 0)),
                new TrialFiring.Conditions(
                        15, 14, 0, 0.4, 0.25, 30, List.of(new TrialFiring.Opened(2000, leakTimes)), 1),
                number,
                50);
    }

    private static Forecast asked(TrialFiring firing, double atC) {
        return Forecaster.forecast(ForecastQuestion.about(firing.until(firing.belowS(atC), true))
                .withAmbient(Temperature.ofCelsius(firing.roomC())));
    }

    private static boolean saysOpen(Forecast forecast) {
        return forecast.remarks().stream().anyMatch(remark -> remark.kind() == Remark.Kind.FALLS_AS_IF_OPEN);
    }

    private static boolean holds(TrialFiring firing, Forecast forecast) {
        Forecast.When when = forecast.below().get(0).when().orElseThrow();
        return when.fromS() <= firing.belowS(200) && firing.belowS(200) <= when.toS();
    }

    @Test
    void aKilnThatStandsOpenFromItsTopOnIsSaidToFallAsNoneDoesThatIsShut() {
        List<TrialFiring> open = IntStream.range(UNSEEN_FROM, UNSEEN_FROM + 6)
                .mapToObj(number -> fired(number, 40))
                .toList();
        assertThat(open).filteredOn(firing -> saysOpen(asked(firing, 600))).hasSizeGreaterThanOrEqualTo(5);
        assertThat(open).allMatch(firing -> holds(firing, asked(firing, 600)));
    }

    @Test
    void aShutKilnIsNot() {
        assertThat(IntStream.range(UNSEEN_FROM, UNSEEN_FROM + 6).mapToObj(number -> fired(number, 1)))
                .noneMatch(firing -> saysOpen(asked(firing, 600)));
    }

    @Test
    void theChoicesOfAShutKilnAreNotGivenForIt() {
        Forecast forecast = asked(fired(UNSEEN_FROM, 40), 600);
        assertThat(saysOpen(forecast)).isTrue();
        assertThat(forecast.choices()).isEmpty();
    }
}

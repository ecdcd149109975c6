package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.thermal.Forecast.Remark.Kind;
import org.kilnside.virtualkiln.Disturbance;
import org.kilnside.virtualkiln.Happenings;
import org.kilnside.virtualkiln.Population;
import org.kilnside.virtualkiln.Programs;

/** What is done to a kiln on the way, and what the forecast makes of it. The virtual kiln is independent of the model. */
class HappeningsForecastTest {
    private static VirtualTrial trial(Schedule program, int number, Disturbance... disturbances) {
        return trial(program, number, Double.POSITIVE_INFINITY, disturbances);
    }

    private static VirtualTrial trial(Schedule program, int number, double mostS, Disturbance... disturbances) {
        return VirtualTrial.glaze(Population.Family.LIGHT_BRICK, number, program, mostS, disturbances);
    }

    private static List<Kind> remarks(Forecast forecast) {
        return forecast.remarks().stream().map(Forecast.Remark::kind).toList();
    }

    @Test
    void aKilnLeftShutIsNotSaidToBeOpen() {
        VirtualTrial shut = trial(Programs.glaze(1222, 70), 1);
        Forecast forecast = Forecaster.forecast(ForecastQuestion.about(shut.until(shut.belowS(90), false)));
        assertThat(remarks(forecast)).doesNotContain(Kind.OPENED, Kind.SENSOR_READS_AIR);
    }

    @Test
    void aProppedLidMakesTheSensorReadAirAndNothingIsCalledCool() {
        VirtualTrial open =
                trial(Programs.glaze(1222, 70), 1, 27 * 3600, Disturbance.falling(130, Happenings.lid(0.08)));
        double propped = open.belowS(129);
        Forecast forecast = Forecaster.forecast(ForecastQuestion.about(open.until(propped + 2700, false)));
        assertThat(remarks(forecast)).contains(Kind.SENSOR_READS_AIR);
        Forecast.Below sixty = forecast.below().get(2);
        assertThat(sixty.when().orElseThrow().atS()).isGreaterThan(forecast.askedS());
        assertThat(forecast.estimate().orElseThrow().celsius()).isBetween(70.0, 131.0);
    }

    /** Many prop the lid at 120 °C each time: down to there such a firing teaches as much as any. */
    @Test
    void aFiringWhoseLidWasProppedAtItsEndTeachesWhatWentBefore() {
        VirtualTrial open =
                trial(Programs.glaze(1222, 70), 1, 27 * 3600, Disturbance.falling(130, Happenings.lid(0.08)));
        VirtualTrial shut = trial(Programs.glaze(1222, 70), 1);
        double like = shut.belowS(600) - shut.offS();
        KilnMemory.Correction fromOpen = memory(open).correction(600, like, 200);
        KilnMemory.Correction fromShut = memory(shut).correction(600, like, 200);
        assertThat(fromOpen.firings()).isGreaterThan(0.9);
        assertThat(fromOpen.log()).isCloseTo(fromShut.log(), within(0.005));
    }

    private static KilnMemory memory(VirtualTrial earlier) {
        return KilnMemory.of(List.of(earlier.until(1e9, false)), Optional.empty(), OptionalDouble.empty());
    }

    @Test
    void aSlowCoolByPlanIsForecastWithItsDrivenPart() {
        Schedule plan = Programs.slowCoolGlaze(1222, 70);
        VirtualTrial slow = trial(plan, 2);
        double asked = slow.offS() - 1800;
        Forecast with = Forecaster.forecast(
                ForecastQuestion.about(slow.until(asked, true)).withPlan(plan));
        double truth = slow.belowS(120);
        assertThat((with.below().get(1).when().orElseThrow().atS() - truth) / (truth - asked))
                .isBetween(-0.15, 0.15);
        Forecast without = Forecaster.forecast(ForecastQuestion.about(slow.until(asked, true)));
        assertThat(remarks(without)).contains(Kind.DRIVEN_COOLING);
        assertThat(without.below().get(1).when()).isEmpty();
        assertThat(without.below().get(1).notBeforeS().orElseThrow()).isLessThan(truth);
    }

    @Test
    void aSensorThatSlippedOutIsNotBelieved() {
        VirtualTrial slipped = trial(Programs.glaze(1222, 70), 1, Disturbance.rising(900, Happenings.sensorSlips(0.6)));
        double asked = slipped.aboveS(899) + 3 * 3600;
        Trace log = slipped.until(asked, true);
        if (log.output(log.size() - 1).isEmpty()) {
            throw new AssertionError("this specimen tells its output");
        }
        Forecast forecast = Forecaster.forecast(ForecastQuestion.about(log).withTarget(Temperature.ofCelsius(1222)));
        assertThat(remarks(forecast)).anyMatch(Kind::distrustsNumber);
        assertThat(forecast.arrival().orElseThrow().when()).isEmpty();
    }

    @Test
    void aLidNotedAsProppedIsBelievedAndShutAgainTheTimesAreOnesOfAShutKiln() {
        VirtualTrial shut = trial(Programs.glaze(1222, 70), 1);
        double asked = shut.belowS(180);
        Trace log = shut.until(asked, false);
        Forecast asItIs = Forecaster.forecast(ForecastQuestion.about(log));
        Forecast noted = Forecaster.forecast(ForecastQuestion.about(log)
                .withVentilated(List.of(new Ventilated(asked - 900, Ventilated.How.LID_PROPPED))));
        assertThat(remarks(noted)).contains(Kind.SENSOR_READS_AIR);
        assertThat(at(noted.below(), 60)).isLessThan(at(asItIs.below(), 60));
        Forecast again = Forecaster.forecast(ForecastQuestion.about(log)
                .withVentilated(List.of(
                        new Ventilated(asked - 5400, Ventilated.How.LID_PROPPED),
                        new Ventilated(asked - 4800, Ventilated.How.SHUT))));
        assertThat(remarks(again)).doesNotContain(Kind.SENSOR_READS_AIR, Kind.OPENED);
        assertThat(at(again.below(), 60) - asked).isCloseTo(at(asItIs.below(), 60) - asked, within(3600.0));
    }

    @Test
    void aBungNotedAsPulledIsToldWithItsTime() {
        VirtualTrial pulled = trial(Programs.glaze(1222, 70), 1, Disturbance.falling(300, Happenings.bung(1)));
        double at = pulled.belowS(300);
        double asked = pulled.belowS(220);
        Forecast forecast = Forecaster.forecast(ForecastQuestion.about(pulled.until(asked, false))
                .withAmbient(Temperature.ofCelsius(pulled.roomC()))
                .withVentilated(List.of(new Ventilated(at, Ventilated.How.BUNG_OUT))));
        assertThat(forecast.remarks()).contains(new Forecast.Remark(Kind.OPENED, Optional.of(at)));
        double truth = pulled.belowS(120);
        assertThat((at(forecast.below(), 120) - truth) / (truth - asked)).isBetween(-0.15, 0.15);
    }

    @Test
    void aLostRingIsSaidAndTheTopIsOneOfTheKilnThatIsLeft() {
        Schedule plan = Programs.glaze(1222, 70);
        VirtualTrial whole = trial(plan, 1);
        VirtualTrial lost = trial(plan, 1, 16 * 3600, Disturbance.rising(750, Happenings.ringLost(1)));
        double at = lost.aboveS(749);
        double asked = at + 4800;
        Forecast after = Forecaster.forecast(
                ForecastQuestion.about(lost.until(asked, true)).withPlan(plan));
        Forecast before = Forecaster.forecast(
                ForecastQuestion.about(whole.until(asked, true)).withPlan(plan));
        assertThat(remarks(after)).contains(Kind.POWER_MISSING);
        assertThat(remarks(before)).doesNotContain(Kind.POWER_MISSING);
        assertThat(top(after)).isLessThan(top(before) - 60);
    }

    /** As far as its elements bear. */
    private static double top(Forecast forecast) {
        return forecast.arrival()
                .flatMap(Forecast.Arrival::topsOut)
                .map(top -> top.at().celsius())
                .orElse(1500.0);
    }

    @Test
    void eachChoiceIsToldAndTheLidIsSoonest() {
        VirtualTrial shut = trial(Programs.glaze(1222, 70), 1);
        Forecast forecast = Forecaster.forecast(ForecastQuestion.about(shut.until(shut.belowS(400), false)));
        assertThat(forecast.choices().stream().map(Forecast.Choice::way))
                .containsExactly(
                        Forecast.Choice.Way.SHUT, Forecast.Choice.Way.BUNG_OUT, Forecast.Choice.Way.LID_PROPPED);
        assertThat(forecast.choices().get(0).below()).isEqualTo(forecast.below());
        double bung = at(forecast.choices().get(1).below(), 60);
        double lid = at(forecast.choices().get(2).below(), 60);
        assertThat(bung).isLessThan(at(forecast.below(), 60));
        assertThat(lid).isLessThan(bung);
    }

    @Test
    void whatIsReachedBeforeTheLidIsTouchedIsTheSameWhateverIsDoneThenAndNothingOpenedIsLater() {
        for (int number = 1; number <= 3; number++) {
            VirtualTrial trial = trial(Programs.glaze(1222, 70), number);
            for (double askedC : new double[] {900, 400, 150}) {
                Forecast forecast = Forecaster.forecast(ForecastQuestion.about(trial.until(trial.belowS(askedC), false))
                        .withBelow(Stream.of(300, 200, 120, 119, 60)
                                .map(Temperature::ofCelsius)
                                .toList()));
                assertNoneIsLaterThanShut(forecast);
                List<Forecast.Below> shut = forecast.choices().get(0).below();
                Forecast.Choice bung = forecast.choices().get(1);
                Forecast.Choice lid = forecast.choices().get(2);
                for (int i = 0; i < shut.size(); i++) {
                    double celsius = shut.get(i).temperature().celsius();
                    if (celsius >= bung.from().orElseThrow().celsius()) {
                        assertThat(bung.below().get(i)).isEqualTo(shut.get(i));
                    }
                    if (celsius >= lid.from().orElseThrow().celsius()) {
                        assertThat(lid.below().get(i)).isEqualTo(shut.get(i));
                    }
                }
                assertThat(at(lid.below(), 60)).isLessThan(at(shut, 60));
            }
        }
    }

    @Test
    void aBungThatIsOutAlreadyIsNoLaterThanShuttingItAndTheLidNoLaterThanTheBung() {
        VirtualTrial pulled =
                trial(Programs.glaze(1222, 70), 2, 40 * 3600, Disturbance.falling(300, Happenings.bung(1)));
        double asked = pulled.belowS(220);
        Forecast forecast = Forecaster.forecast(ForecastQuestion.about(pulled.until(asked, false))
                .withVentilated(List.of(new Ventilated(pulled.belowS(300), Ventilated.How.BUNG_OUT))));
        assertNoneIsLaterThanShut(forecast);
        assertThat(forecast.choices().get(1).below()).isEqualTo(forecast.below());
        // Propping from 120 °C on does not change when 120 °C is reached with the bung out.
        assertThat(at(forecast.choices().get(2).below(), 120)).isEqualTo(at(forecast.below(), 120));
    }

    private static void assertNoneIsLaterThanShut(Forecast forecast) {
        List<Forecast.Below> shut = forecast.choices().get(0).below();
        for (Forecast.Choice choice : forecast.choices()) {
            for (int i = 0; i < shut.size(); i++) {
                Forecast.When its = choice.below().get(i).when().orElseThrow();
                Forecast.When shuts = shut.get(i).when().orElseThrow();
                assertThat(its.atS()).as(choice.way() + " at").isLessThanOrEqualTo(shuts.atS());
                assertThat(its.fromS()).as(choice.way() + " from").isLessThanOrEqualTo(shuts.fromS());
                assertThat(its.toS()).as(choice.way() + " to").isLessThanOrEqualTo(shuts.toS());
            }
        }
    }

    private static double at(List<Forecast.Below> answers, double celsius) {
        return answers.stream()
                .filter(below -> below.temperature().celsius() == celsius)
                .findFirst()
                .flatMap(Forecast.Below::when)
                .orElseThrow()
                .atS();
    }
}

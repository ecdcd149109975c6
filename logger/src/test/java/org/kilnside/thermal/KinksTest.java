package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast.Remark.Kind;
import org.kilnside.thermal.TrialPopulation.Habit;
import org.kilnside.virtualkiln.Disturbance;
import org.kilnside.virtualkiln.Happenings;
import org.kilnside.virtualkiln.Population;
import org.kilnside.virtualkiln.Programs;

/** What somebody opened and did not note. The virtual and the trial kilns are independent of the model (own simulations). */
class KinksTest {
    private static final double AT_C = 300;
    private static final double NOTICED_WITHIN_S = 600;

    private static VirtualTrial trial(Population.Family family, Disturbance... disturbances) {
        return VirtualTrial.glaze(family, 2, Programs.glaze(1200, 70), Double.POSITIVE_INFINITY, disturbances)
                .asReadBy(new Population(family, 5).specimen(2).sensor());
    }

    private static Forecast forecast(VirtualTrial trial, double asked) {
        return Forecaster.forecast(
                ForecastQuestion.about(trial.until(asked, false)).withAmbient(Temperature.ofCelsius(trial.roomC())));
    }

    private static List<Forecast.Remark> openings(Forecast forecast) {
        return forecast.remarks().stream()
                .filter(each -> each.kind() == Kind.OPENED)
                .toList();
    }

    @ParameterizedTest
    @EnumSource(Population.Family.class)
    void aBungNobodyNotedIsToldWithItsTimeAndTheHoursAreThoseOfAnOpenKiln(Population.Family family) {
        VirtualTrial pulled = trial(family, Disturbance.falling(AT_C, Happenings.bung(1)));
        double at = pulled.belowS(AT_C);
        Forecast forecast = forecast(pulled, at + 5400);
        assertThat(openings(forecast)).hasSize(1);
        Optional<Double> since = openings(forecast).get(0).atS();
        assertThat(since.orElseThrow()).isCloseTo(at, within(NOTICED_WITHIN_S));
        Forecast.When when = forecast.below().get(2).when().orElseThrow();
        assertThat(pulled.belowS(60)).isBetween(when.fromS(), when.toS());
    }

    /** While it is hot, and with the output not told, a fall that quickens may be the end of one that was led. */
    @ParameterizedTest
    @EnumSource(Population.Family.class)
    void aBungPulledFromAHotKilnIsNotTakenForTheEndOfADrivenCooling(Population.Family family) {
        VirtualTrial pulled = trial(family, Disturbance.falling(500, Happenings.bung(1)));
        double at = pulled.belowS(500);
        Forecast forecast = forecast(pulled, at + 5400);
        assertThat(openings(forecast)).hasSize(1);
        assertThat(openings(forecast).get(0).atS().orElseThrow()).isCloseTo(at, within(NOTICED_WITHIN_S));
        Forecast.When when = forecast.below().get(2).when().orElseThrow();
        assertThat(pulled.belowS(60)).isBetween(when.fromS(), when.toS());
    }

    @ParameterizedTest
    @EnumSource(Population.Family.class)
    void aBungPutBackIsNotOpenAnyMore(Population.Family family) {
        VirtualTrial back = trial(
                family,
                Disturbance.falling(AT_C, Happenings.bung(1)),
                Disturbance.falling(AT_C - 90, Happenings.bung(0)));
        Forecast forecast = forecast(back, back.belowS(AT_C - 90) + 5400);
        assertThat(openings(forecast)).isEmpty();
        Forecast.When when = forecast.below().get(2).when().orElseThrow();
        assertThat(back.belowS(60)).isBetween(when.fromS(), when.toS());
    }

    @ParameterizedTest
    @EnumSource(Population.Family.class)
    void aCoolingLeftAloneHasNoCorner(Population.Family family) {
        VirtualTrial alone = trial(family);
        Stream.of(500, 300, 150, 90)
                .forEach(celsius -> assertThat(openings(forecast(alone, alone.belowS(celsius))))
                        .isEmpty());
    }

    /** Steep or flat brick, slow sensors, drifting rooms: one in a thousand was taken for opened (own trials). */
    @ParameterizedTest
    @EnumSource(TrialPopulation.Family.class)
    void noKindOfTrialKilnLeftAloneHasACorner(TrialPopulation.Family family) {
        for (int kiln = 20; kiln < 25; kiln++) {
            TrialFiring alone = TrialPopulation.of(family, kiln, 1, Habit.FREE_COOLING)
                    .firings()
                    .get(0);
            Phases phases = Phases.of(Course.of(alone.until(alone.belowS(100), true)));
            assertThat(phases.bends()).as("%s %d", family, kiln).isEmpty();
        }
    }

    /** Published: quartz turns over at 573 °C. The heat it gives back makes a cooling take longer there, and no corner an opening. */
    @ParameterizedTest
    @EnumSource(Population.Family.class)
    void quartzThatTurnsOverInTheWareIsNoBung(Population.Family family) {
        VirtualTrial alone = trial(family);
        Trace slowed = slowedByQuartz(alone.until(alone.belowS(200), false));
        Forecast forecast =
                Forecaster.forecast(ForecastQuestion.about(slowed).withAmbient(Temperature.ofCelsius(alone.roomC())));
        assertThat(openings(forecast)).isEmpty();
    }

    /** The log as it were with an eighth more heat to lose from where the ware's outside is at 573 °C until its middle is. */
    private static Trace slowedByQuartz(Trace log) {
        int peak = 0;
        for (int i = 1; i < log.size(); i++) {
            peak = log.temperatureC(i) > log.temperatureC(peak) ? i : peak;
        }
        Trace.Builder slowed = new Trace.Builder();
        double later = 0;
        for (int i = 0; i < log.size(); i++) {
            boolean turns = i > peak && log.temperatureC(i) < 590 && log.temperatureC(i) > 545;
            later += turns ? 0.13 * (log.elapsedMs(i) - log.elapsedMs(i - 1)) : 0;
            slowed.add(log.elapsedMs(i) + Math.round(later), log.temperatureC(i));
        }
        return slowed.view();
    }

    /** Five readings, five minutes apart and in whole degrees, do not tell a ramp from a kiln left alone. */
    @Test
    void rowsMinutesApartAreNotTakenForElementsThatAreOn() {
        for (int kiln = 0; kiln < 10; kiln++) {
            TrialFiring alone = TrialPopulation.of(TrialPopulation.Family.ORDINARY, kiln, 1, Habit.FREE_COOLING)
                    .firings()
                    .get(0);
            for (double celsius : new double[] {600, 500, 400, 350}) {
                Phases phases = Phases.of(Course.of(sparse(alone.until(alone.belowS(celsius), false))));
                assertThat(phases.drivenNow())
                        .as("%d at %.0f °C", kiln, celsius)
                        .isFalse();
            }
        }
    }

    private static Trace sparse(Trace log) {
        Trace.Builder rows = new Trace.Builder();
        long next = 0;
        for (int i = 0; i < log.size(); i++) {
            if (log.elapsedMs(i) >= next) {
                rows.add(log.elapsedMs(i), Math.rint(log.temperatureC(i)));
                next = log.elapsedMs(i) + 300_000;
            }
        }
        return rows.view();
    }

    /** Noise makes a corner now and then; a finished log tells, so that its firing teaches of the whole cooling. */
    @Test
    void aCornerThatTheRestOfTheLogDoesNotBearOutIsNone() {
        VirtualTrial shut = trial(Population.Family.LIGHT_BRICK);
        VirtualTrial pulled = trial(Population.Family.LIGHT_BRICK, Disturbance.falling(AT_C, Happenings.bung(1)));
        assertThat(lasts(shut, shut.belowS(AT_C))).isFalse();
        assertThat(lasts(pulled, pulled.belowS(AT_C))).isTrue();
    }

    private static boolean lasts(VirtualTrial trial, double atS) {
        Course course = Course.of(trial.until(1e9, true));
        List<Phases.Span> free = Phases.of(course).free();
        return Kinks.lasts(course, free.get(free.size() - 1).from(), new Phases.Bend(course.at(atS), 1.15));
    }
}

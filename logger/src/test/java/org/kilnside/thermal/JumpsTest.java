package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast.Remark.Kind;
import org.kilnside.thermal.TrialPopulation.Family;
import org.kilnside.thermal.TrialPopulation.Habit;

/** Readings that jump further than a kiln can. */
class JumpsTest {
    private static final TrialFiring FIRING =
            TrialPopulation.of(Family.BRICK, 3, 1, Habit.FREE_COOLING).firings().get(0);

    /** The log up to a moment, off by so much from one moment to another. */
    private static Trace jumping(double untilS, double fromS, double toS, double byK) {
        Trace whole = FIRING.until(untilS, false);
        Trace.Builder jumping = new Trace.Builder();
        for (int i = 0; i < whole.size(); i++) {
            double at = whole.elapsedMs(i) / 1000.0;
            jumping.add(whole.elapsedMs(i), whole.temperatureC(i) + (at >= fromS && at < toS ? byK : 0));
        }
        return jumping.view();
    }

    private static Forecast ask(Trace curve) {
        return Forecaster.forecast(ForecastQuestion.about(curve).withTarget(Temperature.ofCelsius(1250)));
    }

    private static List<Kind> remarks(Forecast forecast) {
        return forecast.remarks().stream().map(Forecast.Remark::kind).toList();
    }

    @Test
    void nothingIsForecastFromReadingsThatJumpedAndStayedAway() {
        double jumpS = FIRING.belowS(500);
        for (double byK : new double[] {400, -300}) {
            Forecast forecast = ask(jumping(FIRING.belowS(400), jumpS, 1e9, byK));
            assertThat(remarks(forecast))
                    .contains(Kind.DO_NOT_TRUST_JUMP)
                    .doesNotContain(Kind.JUMP, Kind.DO_NOT_TRUST_SENSOR);
            assertThat(forecast.below())
                    .allSatisfy(below -> assertThat(below.when()).isEmpty());
        }
    }

    @Test
    void noArrivalIsForecastFromReadingsThatJumpedOnTheWayUp() {
        double jumpS = FIRING.aboveS(700);
        Forecast forecast = ask(jumping(jumpS + 2400, jumpS, 1e9, 400));
        assertThat(forecast.arrival().orElseThrow().when()).isEmpty();
        assertThat(forecast.arrival().orElseThrow().topsOut()).isEmpty();
    }

    @Test
    void anExcursionThatCameBackIsLeftOut() {
        double askedS = FIRING.belowS(400);
        double jumpS = FIRING.belowS(500);
        Forecast.When without =
                ask(FIRING.until(askedS, false)).below().get(1).when().orElseThrow();
        Forecast forecast = ask(jumping(askedS, jumpS, jumpS + 1200, 400));
        assertThat(remarks(forecast)).contains(Kind.JUMP).noneMatch(Kind::distrustsNumber);
        assertThat((forecast.below().get(1).when().orElseThrow().atS() - askedS) / (without.atS() - askedS))
                .isBetween(0.95, 1.05);
    }

    @Test
    void aSensorPutInLateLeavesTheRestToGoBy() {
        double askedS = FIRING.belowS(500);
        Forecast forecast = ask(jumping(askedS, 0, FIRING.aboveS(400), -350));
        assertThat(remarks(forecast)).contains(Kind.JUMP, Kind.STARTED_WARM);
        double truthS = FIRING.belowS(120);
        assertThat((forecast.below().get(1).when().orElseThrow().atS() - truthS) / (truthS - askedS))
                .isBetween(-0.2, 0.2);
    }

    @Test
    void aCurveWithoutAJumpIsLeftAsItIs() {
        Course course = Course.of(FIRING.log);
        Jumps jumps = Jumps.of(course);
        assertThat(jumps.course()).isSameAs(course);
        assertThat(jumps.firstS()).isEmpty();
        assertThat(jumps.stays()).isFalse();
    }
}

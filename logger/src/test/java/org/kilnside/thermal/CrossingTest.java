package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast.When;

/** When a kiln fell below a temperature, out of readings that waver. Expected times are the curve's own, without its noise. */
class CrossingTest {
    private static final double ROOM_C = 18;
    private static final double TOP_C = 1220;
    private static final double TOP_AT_S = 36_000;
    private static final double TAU_S = 17_000;

    @Test
    void theLastReadingThatHappensToLieAboveIsNotWhenItFellBelow() {
        double truth = belowS(60);
        When when = passed(readings(truth + 20_000, 5, false, 1), 60);
        assertThat(when.atS()).isBetween(truth - 900, truth + 900);
        assertThat(when.fromS()).isBetween(truth - 1800, truth);
        assertThat(when.toS()).isBetween(truth, truth + 1800);
    }

    @Test
    void nineInTenIntervalsHoldTheMoment() {
        int asked = 0;
        int held = 0;
        for (int seed = 0; seed < 40; seed++) {
            for (double celsius : new double[] {400, 200, 120, 60}) {
                double truth = belowS(celsius);
                When when = passed(readings(truth + 9000, seed % 2 == 0 ? 0.4 : 1.5, seed % 4 < 2, seed), celsius);
                asked++;
                held += when.fromS() <= truth && truth <= when.toS() ? 1 : 0;
                assertThat(when.fromS()).isLessThan(when.atS());
                assertThat(when.toS()).isGreaterThan(when.atS());
            }
        }
        assertThat(held / (double) asked).isBetween(0.85, 0.99);
    }

    @Test
    void whatHasHappenedDoesNotMoveAndIsKnownNoWorse() {
        double truth = belowS(60);
        Trace whole = readings(truth + 12_000, 0.4, true, 7);
        double width = Double.POSITIVE_INFINITY;
        for (double after : new double[] {600, 1800, 3600, 12_000}) {
            When when = passed(until(whole, truth + after), 60);
            assertThat(when.atS()).isBetween(truth - 240, truth + 240);
            assertThat(when.toS() - when.fromS()).isLessThan(1.2 * width);
            width = when.toS() - when.fromS();
        }
    }

    @Test
    void justBeforeAndJustAfterItSaysTheSame() {
        double truth = belowS(60);
        Trace whole = readings(truth + 3000, 0.4, true, 7);
        for (double from = -900; from <= 900; from += 180) {
            When when = Forecaster.forecast(ForecastQuestion.about(until(whole, truth + from))
                            .withBelow(List.of(Temperature.ofCelsius(60))))
                    .below()
                    .get(0)
                    .when()
                    .orElseThrow();
            assertThat(when.atS()).isBetween(truth - 420, truth + 420);
            assertThat(when.fromS()).isLessThanOrEqualTo(truth);
            assertThat(when.toS()).isGreaterThanOrEqualTo(truth);
        }
    }

    @Test
    void inASilenceItWasSomewhereBetweenTheReadingsOnEitherSide() {
        double truth = belowS(200);
        Trace whole = readings(truth + 9000, 0.4, false, 3);
        Trace.Builder gapped = new Trace.Builder();
        for (int i = 0; i < whole.size(); i++) {
            double at = whole.elapsedMs(i) / 1000.0;
            if (at < truth - 2000 || at > truth + 3000) {
                gapped.add(whole.elapsedMs(i), whole.temperatureC(i));
            }
        }
        When when = passed(gapped.view(), 200);
        assertThat(when.fromS()).isBetween(truth - 2100, truth - 2000);
        assertThat(when.toS()).isBetween(truth + 3000, truth + 3100);
        assertThat(when.atS()).isBetween(truth - 600, truth + 600);
    }

    @Test
    void aKilnThatIsStillAboveHasNotFallenBelow() {
        Course course = Course.of(readings(belowS(200) - 1800, 0.4, true, 1));
        assertThat(Crossing.of(course, peak(course), 200)).isEmpty();
    }

    private static When passed(Trace readings, double celsius) {
        Course course = Course.of(readings);
        return Crossing.of(course, peak(course), celsius).orElseThrow();
    }

    private static int peak(Course course) {
        int peak = 0;
        for (int i = 1; i < course.size; i++) {
            peak = course.temperatureC[i] > course.temperatureC[peak] ? i : peak;
        }
        return peak;
    }

    private static Trace until(Trace whole, double seconds) {
        Trace.Builder part = new Trace.Builder();
        for (int i = 0; i < whole.size() && whole.elapsedMs(i) <= seconds * 1000; i++) {
            part.add(whole.elapsedMs(i), whole.temperatureC(i));
        }
        return part.view();
    }

    /** A reading a minute. */
    private static Trace readings(double untilS, double noiseK, boolean wholeDegrees, long seed) {
        Random random = new Random(seed);
        Trace.Builder readings = new Trace.Builder();
        for (long at = 0; at <= untilS; at += 60) {
            double celsius = celsius(at) + noiseK * random.nextGaussian();
            readings.add(at * 1000, wholeDegrees ? Math.rint(celsius) : celsius);
        }
        return readings.view();
    }

    private static double celsius(double seconds) {
        return seconds < TOP_AT_S
                ? ROOM_C + (TOP_C - ROOM_C) * seconds / TOP_AT_S
                : ROOM_C + (TOP_C - ROOM_C) * Math.exp(-(seconds - TOP_AT_S) / TAU_S);
    }

    private static double belowS(double celsius) {
        return TOP_AT_S + TAU_S * Math.log((TOP_C - ROOM_C) / (celsius - ROOM_C));
    }
}

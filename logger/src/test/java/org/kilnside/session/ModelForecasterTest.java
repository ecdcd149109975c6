package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.Kiln;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.sensor.SensorUncertainty;
import org.kilnside.thermal.Forecast;
import org.kilnside.thermal.Forecast.When;
import org.kilnside.thermal.ForecastFan.Point;
import org.kilnside.tracking.FiringTracker;
import org.kilnside.tracking.PlanPosition;
import org.kilnside.virtualkiln.VirtualFiring;
import org.kilnside.virtualkiln.VirtualKilns;

/** The model behind the session, on a firing of the virtual kiln, whose physics are not the model's. */
class ModelForecasterTest {
    private static final Schedule GLAZE = new Schedule(
            "Glaze",
            Optional.of("cone 04"),
            Optional.empty(),
            Optional.empty(),
            List.of(
                    new Segment.Ramp(HeatingRate.ofKelvinPerHour(150), Temperature.ofCelsius(600), Duration.ZERO),
                    new Segment.Ramp(
                            HeatingRate.ofKelvinPerHour(120), Temperature.ofCelsius(1060), Duration.ofMinutes(10)),
                    new Segment.FreeCooling()));

    private static final Trace FIRING = fired();
    private static final ConeTable CONES = ConeTable.of(ConeSeries.SELF_SUPPORTING);

    private static Trace fired() {
        VirtualFiring firing = VirtualFiring.of(VirtualKilns.named("tall-drum").orElseThrow(), GLAZE)
                .interval(10)
                .start();
        Trace.Builder curve = new Trace.Builder();
        double celsius = 1000;
        for (int i = 0; i < 12 * 360 || celsius > 45; i++) {
            VirtualFiring.Moment moment = firing.next();
            celsius = moment.truth().tipC();
            OptionalDouble output = moment.controller()
                    .output()
                    .map(share -> OptionalDouble.of(share.fraction()))
                    .orElse(OptionalDouble.empty());
            curve.add(moment.elapsedMs(), celsius, output, OptionalDouble.empty());
        }
        return curve.view();
    }

    /** The firing as it was known when it first passed a temperature on the way up, or last on the way down. */
    private static ForecastRequest at(double celsius, boolean rising) {
        FiringTracker tracker = new FiringTracker(Optional.of(GLAZE));
        Trace.Builder known = new Trace.Builder();
        boolean topSeen = false;
        for (int i = 0; i < FIRING.size(); i++) {
            long elapsedMs = FIRING.elapsedMs(i);
            double now = FIRING.temperatureC(i);
            known.add(elapsedMs, now, FIRING.output(i), OptionalDouble.empty());
            tracker.take(elapsedMs, now, ControllerReport.NONE);
            topSeen |= now > 1050;
            if (rising ? now >= celsius : topSeen && now <= celsius) {
                break;
            }
        }
        Trace curve = known.view();
        long nowMs = curve.elapsedMs(curve.size() - 1);
        PlanPosition position = tracker.position().orElseThrow();
        List<PlanPosition.PlanPoint> ahead = position.aligned().stream()
                .filter(point -> point.elapsedMs() > nowMs)
                .toList();
        return new ForecastRequest(
                0,
                curve,
                Optional.of(GLAZE),
                Optional.of(rising ? ahead : List.of()),
                HeatWork.of(CONES, curve),
                SensorUncertainty.UNKNOWN,
                Optional.of(Temperature.ofCelsius(12)),
                Kiln.Thresholds.COMMON_PRACTICE,
                Optional.of(Kiln.Wall.BRICK),
                OptionalDouble.empty());
    }

    private static LiveForecast forecast(ForecastRequest request) {
        return new ModelForecaster().forecast(request);
    }

    private static double trueSecondsBelow(double celsius) {
        for (int i = FIRING.size() - 1; i > 0; i--) {
            if (FIRING.temperatureC(i) >= celsius) {
                return FIRING.elapsedMs(i) / 1000.0;
            }
        }
        throw new IllegalStateException("it was never that hot");
    }

    @Test
    void onTheWayUpItSaysWhenTheTopAndTheThresholdsCome() {
        LiveForecast live = forecast(at(800, true));
        Forecast answer = live.forecast().orElseThrow();
        assertThat(answer.arrival().orElseThrow().when()).isPresent();
        assertThat(answer.below())
                .extracting(below -> below.temperature().celsius())
                .containsExactly(120.0, 50.0);
        assertThat(live.failure()).isEmpty();
    }

    /** Damp ware at 80 °C takes power that looks like weak elements: found on the virtual kiln's own bisque. */
    @Test
    void aKilnThatCandlesDampWareIsNotSaidToBeTooWeak() {
        Trace.Builder known = new Trace.Builder();
        VirtualFiring firing = VirtualFiring.of(VirtualKilns.named("tall-drum").orElseThrow(), VirtualKilns.bisque())
                .load(VirtualKilns.bisqueLoad())
                .interval(10)
                .start();
        for (int i = 0; i < 180 * 6; i++) {
            VirtualFiring.Moment moment = firing.next();
            known.add(
                    moment.elapsedMs(),
                    moment.truth().tipC(),
                    OptionalDouble.of(moment.controller().output().orElseThrow().fraction()),
                    OptionalDouble.empty());
            if (i > 60 && i % 60 == 0) {
                Trace curve = known.view();
                LiveForecast live = forecast(new ForecastRequest(
                        0,
                        curve,
                        Optional.of(VirtualKilns.bisque()),
                        Optional.empty(),
                        HeatWork.of(CONES, curve),
                        SensorUncertainty.UNKNOWN,
                        Optional.of(Temperature.ofCelsius(12)),
                        Kiln.Thresholds.COMMON_PRACTICE,
                        Optional.of(Kiln.Wall.BRICK),
                        OptionalDouble.empty()));
                assertThat(live.forecast().orElseThrow().below())
                        .as("no lid can be thought of before the top, at " + live.askedMs())
                        .allSatisfy(below -> below.when()
                                .ifPresent(when -> assertThat(when.fromS()).isGreaterThan(12 * 3600)));
                live.forecast()
                        .flatMap(Forecast::arrival)
                        .ifPresent(arrival -> assertThat(arrival.reaches()).isNotEqualTo(Forecast.Reaches.NO));
            }
        }
    }

    /** Independent: the virtual kiln has other physics than the model. */
    @Test
    void onTheWayDownTheTruthLiesNearWhatItSays() {
        LiveForecast live = forecast(at(600, false));
        double nowS = live.askedMs() / 1000.0;
        When when = live.below(Temperature.ofCelsius(120)).orElseThrow().when().orElseThrow();
        double left = trueSecondsBelow(120) - nowS;
        assertThat(when.atS() - nowS).isCloseTo(left, within(0.12 * left));
        assertThat(live.cone()).isEmpty();
    }

    @Test
    void theFanBeginsNowAndRisesInTimeAndIsNeverMoreThanThreeHundredPoints() {
        for (ForecastRequest request : List.of(at(300, true), at(800, true), at(1055, true), at(900, false))) {
            List<Point> fan = forecast(request).fan();
            double nowC = request.curve().temperatureC(request.curve().size() - 1);
            assertThat(fan).hasSizeBetween(100, 300);
            assertThat(fan.get(0).medianC()).isCloseTo(nowC, within(1e-9));
            assertThat(fan.get(0).elapsedMs()).isCloseTo(request.askedMs(), within(60_000L));
            for (int i = 0; i < fan.size(); i++) {
                Point point = fan.get(i);
                assertThat(point.lowC()).isLessThanOrEqualTo(point.medianC());
                assertThat(point.highC()).isGreaterThanOrEqualTo(point.medianC());
                assertThat(point.highC()).isLessThan(1_070);
                if (i > 0) {
                    assertThat(point.elapsedMs()).isGreaterThan(fan.get(i - 1).elapsedMs());
                }
            }
        }
    }

    /** So early nobody knows whether the kiln has the power for its plan: it may be there hours after the plan. */
    @Test
    void aFanOfAnArrivalThatIsWideOpenStaysAtTheTopUntilTheLatestAndFallsNoFasterThanTheKilnDid() {
        LiveForecast live = forecast(at(99, true));
        When arrives =
                live.forecast().orElseThrow().arrival().orElseThrow().when().orElseThrow();
        assertThat(arrives.toS() - arrives.fromS()).isGreaterThan(5 * 3600);
        double fell = 0;
        for (int i = 60; i < FIRING.size(); i++) {
            double hours = (FIRING.elapsedMs(i) - FIRING.elapsedMs(i - 60)) / 3.6e6;
            fell = Math.max(fell, (FIRING.temperatureC(i - 60) - FIRING.temperatureC(i)) / hours);
        }
        Point before = live.fan().get(0);
        for (Point point : live.fan()) {
            double hours = Math.max(1e-9, (point.elapsedMs() - before.elapsedMs()) / 3.6e6);
            assertThat((before.highC() - point.highC()) / hours).isLessThan(fell);
            assertThat((before.lowC() - point.lowC()) / hours).isLessThan(fell);
            if (point.elapsedMs() > arrives.fromS() * 1000 && point.elapsedMs() < arrives.toS() * 1000) {
                assertThat(point.highC()).isCloseTo(1_060, within(1.0));
            }
            before = point;
        }
    }

    @Test
    void theFanCrossesTheThresholdWhenTheForecastSaysItDoes() {
        LiveForecast live = forecast(at(600, false));
        When when = live.below(Temperature.ofCelsius(120)).orElseThrow().when().orElseThrow();
        double tolerance = (when.atS() - live.askedMs() / 1000.0) * 0.02;
        assertThat(crossing(live.fan(), Point::medianC)).isCloseTo(when.atS(), within(tolerance));
        assertThat(crossing(live.fan(), Point::lowC)).isCloseTo(when.fromS(), within(tolerance));
        assertThat(crossing(live.fan(), Point::highC)).isCloseTo(when.toS(), within(tolerance));
    }

    private static double crossing(List<Point> fan, ToDoubleFunction<Point> line) {
        for (Point point : fan) {
            if (line.applyAsDouble(point) < 120) {
                return point.elapsedMs() / 1000.0;
            }
        }
        throw new IllegalStateException("it never falls that far");
    }

    /** Independent of the forecast: the cone of the whole firing, worked out afterwards from its own curve. */
    @Test
    void theConeItExpectsIsNearTheOneTheFiringCameTo() {
        LiveForecast live = forecast(at(900, true));
        double expected = live.cone().orElseThrow().position().steps().orElseThrow();
        double came = HeatWork.of(CONES, FIRING)
                .reached(SensorUncertainty.UNKNOWN)
                .cone()
                .steps()
                .orElseThrow();
        assertThat(expected).isCloseTo(came, within(0.35));
        assertThat(live.cone().orElseThrow().between().from())
                .isLessThan(live.cone().orElseThrow().position());
    }

    @Test
    void itSaysWhenTheConeAimedForIsExpectedDown() {
        ForecastRequest request = at(900, true);
        long down = forecast(request).aimed().orElseThrow().when().orElseThrow().atMs();
        int index = FIRING.indexAt(down);
        HeatWork until = new HeatWork(CONES);
        for (int i = 0; i <= index; i++) {
            until.add(FIRING.elapsedMs(i), FIRING.temperatureC(i));
        }
        assertThat(down).isGreaterThan(request.askedMs());
        assertThat(until.share(Cone.parse("04")).orElseThrow()).isBetween(0.5, 2.0);
    }

    @Test
    void aCurveTooShortToSayAnythingIsAnAnswerToo() {
        Trace curve = new Trace.Builder().add(0, 20).add(1_000, 20.1).view();
        LiveForecast live = forecast(new ForecastRequest(
                0,
                curve,
                Optional.empty(),
                Optional.empty(),
                HeatWork.of(CONES, curve),
                SensorUncertainty.UNKNOWN,
                Optional.empty(),
                Kiln.Thresholds.COMMON_PRACTICE,
                Optional.empty(),
                OptionalDouble.empty()));
        assertThat(live.fan()).isEmpty();
        assertThat(live.cone()).isEmpty();
        assertThat(live.forecast().orElseThrow().remarks()).isNotEmpty();
    }
}

package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast.Arrival;
import org.kilnside.thermal.Forecast.Below;
import org.kilnside.thermal.Forecast.Reaches;
import org.kilnside.thermal.Forecast.Stage;
import org.kilnside.thermal.Forecast.TopsOut;
import org.kilnside.thermal.Forecast.When;
import org.kilnside.thermal.ForecastFan.Point;

/**
 * The drawing of forecasts given by hand: a kiln at 99 °C after an hour, planned to be at 1060 °C at 8:00 and to be left
 * to itself at 8:12, which then falls towards a room of 10 °C by a law of its own.
 */
class ForecastFanTest {
    private static final double NOW_C = 99;
    private static final double TOP_C = 1060;
    private static final double ROOM_C = 10;
    private static final double HELD_H = 0.2;
    private static final double TAU_H = 5;
    private static final Temperature CRACK = Temperature.ofCelsius(200);
    private static final double UNLOAD_C = 50;

    /** The rungs allow 30 % of the time from now to either side, which near the top is less than is open of the arrival. */
    private static final double RUNGS_WITHIN = 0.3;

    private static final Optional<PlanAhead> AHEAD = Optional.of(
            new PlanAhead(List.of(new PlanAhead.Corner(s(8), TOP_C), new PlanAhead.Corner(s(8 + HELD_H), TOP_C))));

    private static double s(double hours) {
        return hours * 3600;
    }

    private static Forecast forecast(double earlyH, double lateH) {
        return forecast(
                Reaches.YES, Optional.of(new When(s(8), s(earlyH), s(lateH))), Optional.empty(), Optional.of(1.0));
    }

    private static Forecast forecast(
            Reaches reaches, Optional<When> arrives, Optional<TopsOut> topsOut, Optional<Double> ifItCools) {
        List<Temperature> asked = new ArrayList<>(ForecastFan.ladder(TOP_C, UNLOAD_C));
        asked.add(CRACK);
        asked.sort((a, b) -> b.compareTo(a));
        List<Below> below = asked.stream()
                .map(rung -> new Below(rung, ifItCools.map(any -> below(rung.celsius())), Optional.empty()))
                .toList();
        return new Forecast(
                s(1),
                Stage.HEATING,
                Temperature.ofCelsius(ROOM_C),
                below,
                Optional.of(new Arrival(Temperature.ofCelsius(TOP_C), reaches, arrives, topsOut)),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                List.of());
    }

    private static When below(double celsius) {
        double hours = 7 + HELD_H + TAU_H * Math.log((TOP_C - ROOM_C) / (celsius - ROOM_C));
        return new When(s(1 + hours), s(1 + hours * (1 - RUNGS_WITHIN)), s(1 + hours * (1 + RUNGS_WITHIN)));
    }

    private static List<Point> fan(Forecast forecast) {
        return ForecastFan.of(forecast, NOW_C, AHEAD, CRACK).points();
    }

    private static List<Point> between(List<Point> fan, double fromH, double toH) {
        return fan.stream()
                .filter(point -> point.elapsedMs() >= s(fromH) * 1000 && point.elapsedMs() <= s(toH) * 1000)
                .toList();
    }

    private static Point at(List<Point> fan, double hours) {
        return between(fan, hours, hours + 0.5).get(0);
    }

    private static double crosses(List<Point> fan, double celsius, ToDoubleFunction<Point> side) {
        for (int i = 1; i < fan.size(); i++) {
            double before = side.applyAsDouble(fan.get(i - 1));
            double after = side.applyAsDouble(fan.get(i));
            if (before >= celsius && after < celsius) {
                double part = (before - celsius) / (before - after);
                long fromMs = fan.get(i - 1).elapsedMs();
                return (fromMs + part * (fan.get(i).elapsedMs() - fromMs)) / 3.6e6;
            }
        }
        throw new IllegalStateException("it never falls through " + celsius);
    }

    /** The fastest fall between two points, K/h. */
    private static double fastestFall(List<Point> fan, ToDoubleFunction<Point> side) {
        double fastest = 0;
        for (int i = 1; i < fan.size(); i++) {
            double hours = (fan.get(i).elapsedMs() - fan.get(i - 1).elapsedMs()) / 3.6e6;
            fastest = Math.max(fastest, (side.applyAsDouble(fan.get(i - 1)) - side.applyAsDouble(fan.get(i))) / hours);
        }
        return fastest;
    }

    @Test
    void aKilnThatMayArriveLateMayBeAtItsTopUntilThen() {
        assertThat(between(fan(forecast(7, 14)), 7.01, 14 + HELD_H - 0.01))
                .hasSizeGreaterThan(20)
                .allSatisfy(point -> {
                    assertThat(point.highC()).isCloseTo(TOP_C, within(0.5));
                });
    }

    @Test
    void theLatestToArriveCoolsFromItsTopNoFasterThanAKilnCan() {
        List<Point> fan = fan(forecast(7, 14));
        double kilns = (TOP_C - ROOM_C) / TAU_H;
        assertThat(fastestFall(fan, Point::highC)).isLessThan(kilns / (1 - RUNGS_WITHIN));
        // An hour after it left, it may have cooled as an hour cools it, and no further.
        double hourCools = (TOP_C - ROOM_C) * (1 - Math.exp(-1 / TAU_H));
        assertThat(at(fan, 14 + HELD_H + 1).highC()).isBetween(TOP_C - hourCools / (1 - RUNGS_WITHIN), TOP_C - 20);
    }

    @Test
    void theEarliestToLeaveItsTopFallsNoFasterThanAKilnCan() {
        double kilns = (TOP_C - ROOM_C) / TAU_H;
        for (double earlyH : new double[] {7, 7.9}) {
            assertThat(fastestFall(fan(forecast(earlyH, 8.1)), Point::lowC)).isLessThan(kilns / 0.4);
        }
    }

    @Test
    void nobodyLingersAtATopOfWhichItIsKnownWhenItIsLeft() {
        List<Point> fan = fan(forecast(7.95, 8.05));
        assertThat(at(fan, 8.05 + HELD_H + 0.5).highC()).isLessThan(TOP_C - 40);
    }

    @Test
    void whereTheLidIsAskedForTheBandIsThereExactlyWhenTheForecastSays() {
        When lid = below(CRACK.celsius());
        for (double lateH : new double[] {8.05, 10, 14}) {
            List<Point> fan = fan(forecast(7, lateH));
            assertThat(crosses(fan, CRACK.celsius(), Point::lowC)).isCloseTo(lid.fromS() / 3600, within(0.02));
            assertThat(crosses(fan, CRACK.celsius(), Point::medianC)).isCloseTo(lid.atS() / 3600, within(0.02));
            assertThat(crosses(fan, CRACK.celsius(), Point::highC)).isCloseTo(lid.toS() / 3600, within(0.02));
        }
    }

    @Test
    void whoeverIsCoolingAlreadyDoesNotTakeOthersOutOfTheBandThatStillHeat() {
        List<Point> fan = fan(forecast(7, 14));
        // On its way to 14:00 at an even pace.
        double stillHeatsC = NOW_C + (TOP_C - NOW_C) * (7.5 - 1) / 13;
        assertThat(at(fan, 7.5).lowC()).isCloseTo(stillHeatsC, within(15.0));
        assertThat(at(fan, 7.5).highC()).isCloseTo(TOP_C, within(0.5));
    }

    @Test
    void underTheLowestRungTheEarliestGoesOnCoolingTowardsTheRoom() {
        List<Point> fan = fan(forecast(7, 14));
        double hoursUnder =
                (fan.get(fan.size() - 1).elapsedMs() / 1000.0 - below(UNLOAD_C).fromS()) / 3600;
        assertThat(hoursUnder).isGreaterThan(3);
        // It came by the rungs in less time than probably, and so it goes on.
        double wouldBeC = ROOM_C + (UNLOAD_C - ROOM_C) * Math.exp(-hoursUnder / TAU_H / (1 - RUNGS_WITHIN));
        assertThat(fan.get(fan.size() - 1).lowC()).isCloseTo(wouldBeC, within(2.0));
    }

    @Test
    void whereNobodyKnowsHowItCoolsTheBandEndsWhenTheEarliestMayHaveBegunTo() {
        Forecast forecast =
                forecast(Reaches.YES, Optional.of(new When(s(8), s(7), s(14))), Optional.empty(), Optional.empty());
        List<Point> fan = fan(forecast);
        assertThat(fan.get(fan.size() - 1).elapsedMs() / 3.6e6).isCloseTo(7 + HELD_H, within(0.01));
        assertThat(fastestFall(fan, Point::lowC)).isZero();
    }

    @Test
    void ofAKilnThatFallsShortNobodyKnowsWhenNothingIsDrawnAtItsPlansPace() {
        TopsOut topsOut =
                new TopsOut(Temperature.ofCelsius(820), Temperature.ofCelsius(800), Temperature.ofCelsius(880));
        Forecast forecast = forecast(Reaches.NO, Optional.empty(), Optional.of(topsOut), Optional.empty());
        ForecastFan fan = ForecastFan.of(forecast, NOW_C, AHEAD, CRACK);
        assertThat(fan.points()).isEmpty();
        assertThat(fan.probable().isEmpty()).as("the cone is still worked out").isFalse();
    }

    @Test
    void noSideIsDrawnHotterThanTheKilnCanGet() {
        TopsOut topsOut =
                new TopsOut(Temperature.ofCelsius(1000), Temperature.ofCelsius(900), Temperature.ofCelsius(1300));
        Forecast forecast = forecast(
                Reaches.CANNOT_SAY_YET,
                Optional.of(new When(s(8), s(7), s(14))),
                Optional.of(topsOut),
                Optional.of(1.0));
        List<Point> fan = fan(forecast);
        assertThat(at(fan, 8).medianC()).isCloseTo(1000, within(0.5));
        assertThat(at(fan, 8).highC()).isCloseTo(TOP_C, within(0.5));
        assertThat(fan).allSatisfy(point -> assertThat(point.lowC()).isLessThanOrEqualTo(900));
        Trace probable = ForecastFan.of(forecast, NOW_C, AHEAD, CRACK).probable();
        assertThat(IntStream.range(0, probable.size())
                        .mapToDouble(probable::temperatureC)
                        .max())
                .hasValue(1000);
    }
}

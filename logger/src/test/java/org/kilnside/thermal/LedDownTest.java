package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.virtualkiln.Population;

/**
 * Led down from the top at 60 K/h by elements whose output nobody tells, the plan told, asked at 1000 °C: nothing was seen yet of how
 * the kiln cools alone. Virtual kilns: independent.
 */
class LedDownTest {
    private static final Schedule PLAN = new Schedule(
            "led down", List.of(ramp(120, 600, 0), ramp(140, 1180, 10), ramp(60, 900, 0), new Segment.FreeCooling()));

    private static final int KILNS = 6;

    private static Segment ramp(double kelvinPerHour, double toC, long holdMinutes) {
        return new Segment.Ramp(
                HeatingRate.ofKelvinPerHour(kelvinPerHour),
                Temperature.ofCelsius(toC),
                Duration.ofMinutes(holdMinutes));
    }

    /** What a kiln was told, by which part of the time left it was off, and whether the interval held it. */
    private record Told(double off, double halfWidth, boolean held) {}

    private static List<Told> asked(boolean seenBefore) {
        List<Told> all = new ArrayList<>();
        for (Population.Family family : List.of(Population.Family.LIGHT_BRICK, Population.Family.HEAVY_BRICK)) {
            for (int kiln = 0; kiln < KILNS; kiln++) {
                VirtualTrial firing = VirtualTrial.run(family, 5, kiln, PLAN, Double.POSITIVE_INFINITY);
                double askedS = fallsBelowS(firing, 1000);
                ForecastQuestion question =
                        ForecastQuestion.about(firing.until(askedS, false)).withPlan(PLAN);
                int number = kiln;
                Forecast forecast = Forecaster.forecast(
                        seenBefore
                                ? question.withMemory(KilnMemory.of(
                                        Stream.of(1, 2)
                                                .map(each -> VirtualTrial.of(family, 5, number, each, false)
                                                        .until(1e9, false))
                                                .toList(),
                                        Optional.empty(),
                                        OptionalDouble.empty()))
                                : question);
                double truthS = firing.belowS(200);
                Forecast.When when = forecast.below().get(0).when().orElseThrow();
                all.add(new Told(
                        (when.atS() - truthS) / (truthS - askedS),
                        (when.toS() - when.fromS()) / 2 / (when.atS() - askedS),
                        when.fromS() <= truthS && truthS <= when.toS()));
            }
        }
        return all;
    }

    private static double fallsBelowS(VirtualTrial firing, double celsius) {
        Trace log = firing.until(1e9, false);
        int i = log.indexAt(Math.round(1000 * firing.aboveS(firing.peakC() - 1)));
        while (log.temperatureC(i) > celsius) {
            i++;
        }
        return log.elapsedMs(i) / 1000.0;
    }

    private static double mean(List<Told> all) {
        return all.stream().mapToDouble(Told::off).average().orElseThrow();
    }

    @Test
    void aKilnThatWasOnlyLedIsBelievedToBeOfTheUsualKindNotSeenToCool() {
        List<Told> all = asked(false);
        assertThat(mean(all)).isBetween(-0.12, 0.12);
        assertThat(all.stream().filter(Told::held)).hasSizeGreaterThanOrEqualTo(10);
    }

    @Test
    void earlierCoolingsTellHowItWillFallOnceItIsLetGo() {
        List<Told> all = asked(true);
        assertThat(mean(all)).isBetween(-0.1, 0.1);
        assertThat(all).allMatch(each -> Math.abs(each.off()) < 0.3).allMatch(each -> each.halfWidth() < 0.5);
        assertThat(all.stream().filter(Told::held)).hasSizeGreaterThanOrEqualTo(10);
    }

    /** Output and plan told, a quarter of an hour or so after the elements went off for good. */
    @Test
    void whatItShowedWhileItWasLedIsNotForgottenTheMomentItIsLetGo() {
        double halfWidths = 0;
        int held = 0;
        for (int kiln = 0; kiln < KILNS; kiln++) {
            VirtualTrial firing =
                    VirtualTrial.run(Population.Family.LIGHT_BRICK, 5, kiln, PLAN, Double.POSITIVE_INFINITY);
            double askedS = fallsBelowS(firing, 860);
            Forecast forecast = Forecaster.forecast(
                    ForecastQuestion.about(firing.until(askedS, true)).withPlan(PLAN));
            Forecast.When when = forecast.below().get(0).when().orElseThrow();
            double truthS = firing.belowS(200);
            halfWidths += (when.toS() - when.fromS()) / 2 / (when.atS() - askedS);
            held += when.fromS() <= truthS && truthS <= when.toS() ? 1 : 0;
        }
        assertThat(halfWidths / KILNS).isLessThan(0.16);
        assertThat(held).isEqualTo(KILNS);
    }
}

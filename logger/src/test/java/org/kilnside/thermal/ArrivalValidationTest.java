package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.kilnside.ValidationPage;
import org.kilnside.firing.Trace;
import org.kilnside.schedule.Schedule;
import org.kilnside.thermal.Forecast.Arrival;
import org.kilnside.thermal.Forecast.Reaches;
import org.kilnside.thermal.Forecast.When;
import org.kilnside.virtualkiln.ControllerSpec;
import org.kilnside.virtualkiln.Population;
import org.kilnside.virtualkiln.Programs;
import org.kilnside.virtualkiln.Specimen;

/**
 * Holds what is said of the top against virtual kilns with elements worn to all degrees, from keeping up to never getting
 * there: a seed nothing was set on, controllers that wait for their kiln and steer by what they log. Independent of the model.
 */
class ArrivalValidationTest {
    private static final long UNTOUCHED_SEED = 20_261_129;
    private static final double MOST_S = 45 * 3600;
    private static final double[] RESISTANCES = {1, 1.2, 1.4, 1.6, 1.8, 2};

    /** One firing asked once: when it was there, where it ever was. */
    private record Case(double askedS, Optional<Double> truthS, Arrival said) {
        double error() {
            return Math.abs(said.when().orElseThrow().atS() - truthS.orElseThrow()) / (truthS.orElseThrow() - askedS);
        }

        boolean held() {
            When when = said.when().orElseThrow();
            return when.fromS() <= truthS.orElseThrow() && truthS.orElseThrow() <= when.toS();
        }

        double halfWidth() {
            When when = said.when().orElseThrow();
            return (when.toS() - when.fromS()) / 2 / (truthS.orElseThrow() - askedS);
        }
    }

    private static VirtualTrial fire(Population.Family family, int kiln) {
        Specimen specimen = new Population(family, UNTOUCHED_SEED).specimen(kiln);
        int mixed = Math.floorMod(kiln * 7, 5);
        boolean raw = kiln % 3 == 2;
        Schedule plan = raw ? Programs.bisque(960 + 22 * mixed) : Programs.glaze(1150 + 22 * mixed, 60 + 10 * mixed);
        return VirtualTrial.run(
                (raw ? specimen.bisqueFiring(plan, 0) : specimen.glazeFiring(plan, 0))
                        .interval(10)
                        .controller(ControllerSpec.waiting())
                        .elementResistance(RESISTANCES[kiln % RESISTANCES.length])
                        .start(),
                plan,
                900,
                MOST_S);
    }

    private static List<Case> cases(
            List<VirtualTrial> firings, double askedC, boolean belowTop, boolean told, Optional<WallKind> wall) {
        List<Case> cases = new ArrayList<>();
        for (VirtualTrial firing : firings) {
            double topC = firing.plan().top().celsius();
            double at = belowTop ? topC - askedC : askedC;
            Trace log = firing.until(1e9, false);
            double askedS = readsS(log, at);
            double there = readsS(log, topC - 2);
            // A controller that waits for its kiln and lets go of it steered by another number than the log's.
            boolean anotherNumber = Double.isNaN(there) && firing.offS() < MOST_S - 3600;
            if (Double.isNaN(askedS) || at > topC - 20 || anotherNumber) {
                continue;
            }
            Arrival said = Forecaster.forecast(ForecastQuestion.about(firing.until(askedS, told))
                            .withPlan(firing.plan())
                            .withMemory(KilnMemory.none(wall)))
                    .arrival()
                    .orElseThrow();
            cases.add(new Case(askedS, Double.isNaN(there) ? Optional.empty() : Optional.of(there), said));
        }
        return cases;
    }

    /** When the log first shows a temperature, and goes on to for a minute and a half, s; NaN where it never does. */
    private static double readsS(Trace log, double celsius) {
        int since = 0;
        for (int i = 0; i < log.size(); i++) {
            if (log.temperatureC(i) < celsius) {
                since = i + 1;
            } else if (i == since + 3) {
                return log.elapsedMs(since) / 1000.0;
            }
        }
        return Double.NaN;
    }

    private static long count(List<Case> cases, boolean gotThere, Reaches said) {
        return cases.stream()
                .filter(each ->
                        each.truthS().isPresent() == gotThere && each.said().reaches() == said)
                .count();
    }

    private static String row(String title, List<Case> cases) {
        List<Case> timed = cases.stream()
                .filter(each -> each.truthS().isPresent() && each.said().when().isPresent())
                .toList();
        List<Double> errors = timed.stream().map(Case::error).toList();
        return String.format(
                Locale.ROOT,
                "| %s | %d / %d / %d | %d / %d / %d | %.0f / %.0f %% | %.0f %% | %.0f %% |",
                title,
                count(cases, true, Reaches.YES),
                count(cases, true, Reaches.CANNOT_SAY_YET),
                count(cases, true, Reaches.NO),
                count(cases, false, Reaches.YES),
                count(cases, false, Reaches.CANNOT_SAY_YET),
                count(cases, false, Reaches.NO),
                100 * Judged.quantile(errors, 0.5),
                100 * Judged.quantile(errors, 0.9),
                100.0 * timed.stream().filter(Case::held).count() / timed.size(),
                100 * Judged.quantile(timed.stream().map(Case::halfWidth).toList(), 0.5));
    }

    @Test
    void noneOfAFewKilnsIsToldTheOppositeOfWhatComes() {
        List<VirtualTrial> firings = new ArrayList<>();
        for (Population.Family family : Population.Family.values()) {
            firings.add(fire(family, 1));
            firings.add(fire(family, 4));
        }
        for (boolean told : new boolean[] {true, false}) {
            List<Case> cases = cases(firings, 1000, false, told, Optional.empty());
            assertThat(count(cases, true, Reaches.NO)).isZero();
            assertThat(count(cases, false, Reaches.YES)).isZero();
            assertThat(count(cases, true, Reaches.YES)).isGreaterThanOrEqualTo(told ? 2 : 0);
        }
    }

    @Test
    @EnabledIfSystemProperty(named = "kilnside.long", matches = "true")
    void thePageSaysHowWellTheTimeToTheTopIsForecast() {
        int count = 6 * ((Integer.getInteger("kilnside.kilns", 10) + 5) / 6);
        List<VirtualTrial> bricks = new ArrayList<>();
        List<VirtualTrial> fibres = new ArrayList<>();
        for (Population.Family family : Population.Family.values()) {
            for (int kiln = 0; kiln < count; kiln++) {
                (family == Population.Family.FIBRE ? fibres : bricks).add(fire(family, kiln));
            }
        }
        List<String> lines = new ArrayList<>();
        lines.add(
                "| asked rising at | got there: said yes / cannot say / no | never did: the same | error of the time left,"
                        + " median / 90th | held by the interval | its half-width |");
        lines.add("| --- | --- | --- | --- | --- | --- |");
        for (boolean told : new boolean[] {true, false}) {
            String how = told ? "brick, output told, " : "brick, temperature alone, ";
            for (double askedC : new double[] {500, 700, 1000}) {
                String title = how + String.format(Locale.ROOT, "%.0f °C", askedC);
                lines.add(row(title, cases(bricks, askedC, false, told, Optional.empty())));
            }
            lines.add(row(how + "50 K below the top", cases(bricks, 50, true, told, Optional.empty())));
        }
        for (Optional<WallKind> wall : List.of(Optional.of(WallKind.FIBRE), Optional.<WallKind>empty())) {
            String how = wall.isPresent() ? "fibre, called so, output told, " : "fibre, not called so, output told, ";
            lines.add(row(how + "700 °C", cases(fibres, 700, false, true, wall)));
            lines.add(row(how + "1000 °C", cases(fibres, 1000, false, true, wall)));
        }
        ValidationPage.holds("forecasts-arrival", lines);
    }
}

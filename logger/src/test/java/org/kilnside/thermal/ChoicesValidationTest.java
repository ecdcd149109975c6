package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.kilnside.ValidationPage;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.thermal.Forecast.Choice.Way;
import org.kilnside.thermal.Forecast.When;
import org.kilnside.virtualkiln.Disturbance;
import org.kilnside.virtualkiln.Happenings;
import org.kilnside.virtualkiln.Population;
import org.kilnside.virtualkiln.Programs;

/**
 * Holds what is said each way of cooling on would give against virtual kilns to which it was then done: their draught is
 * that of holes in series (ventilation handbooks), the model knows one leak. A seed nothing was set on.
 */
class ChoicesValidationTest {
    private static final long UNTOUCHED_SEED = 20_261_130;
    private static final double MOST_S = 75 * 3600;
    private static final double BUNG_FROM_C = 300;
    private static final double LID_FROM_C = 120;
    private static final List<Population.Family> BRICK =
            List.of(Population.Family.LIGHT_BRICK, Population.Family.HEAVY_BRICK, Population.Family.LAYERED);
    private static final double[] GAPS_M = {0.02, 0.05, 0.15};

    /** Of the time left: how far off, whether held, half the interval. */
    private record Case(double error, boolean held, double halfWidth) {}

    private static VirtualTrial fire(Population.Family family, int kiln, Disturbance... done) {
        Schedule plan =
                kiln % 2 == 0 ? Programs.glaze(1150 + 14 * (kiln % 8), 70) : Programs.bisque(960 + 14 * (kiln % 7));
        return VirtualTrial.run(family, UNTOUCHED_SEED, kiln, plan, MOST_S, done);
    }

    /** Asks a shut kiln what one way of cooling on would give; the times are of a kiln to which it was then done. */
    private static void ask(
            List<Case> cases,
            VirtualTrial shut,
            double askedAtC,
            Way way,
            double belowC,
            DoubleUnaryOperator trulyBelowS) {
        double asked = shut.belowS(askedAtC);
        double truth = trulyBelowS.applyAsDouble(belowC);
        if (asked > shut.offS() + 600 && !Double.isNaN(truth)) {
            cases.add(judged(said(shut, asked, way, belowC), truth, asked));
        }
    }

    private static When said(VirtualTrial shut, double asked, Way way, double belowC) {
        return Forecaster.forecast(about(shut, asked, belowC)).choices().stream()
                .filter(choice -> choice.way() == way)
                .findFirst()
                .flatMap(choice -> choice.below().get(0).when())
                .orElseThrow();
    }

    private static When saidOfPropped(VirtualTrial propped, double afterS) {
        double since = propped.belowS(LID_FROM_C);
        return Forecaster.forecast(about(propped, since + afterS, 50)
                        .withVentilated(List.of(new Ventilated(since, Ventilated.How.LID_PROPPED))))
                .below()
                .get(0)
                .when()
                .orElseThrow();
    }

    private static ForecastQuestion about(VirtualTrial trial, double asked, double belowC) {
        return ForecastQuestion.about(trial.until(asked, true))
                .withAmbient(Temperature.ofCelsius(trial.roomC()))
                .withBelow(List.of(Temperature.ofCelsius(belowC)));
    }

    private static Case judged(When when, double truth, double since) {
        return new Case(
                Math.abs(when.atS() - truth) / (truth - since),
                when.fromS() <= truth && truth <= when.toS(),
                (when.toS() - when.fromS()) / 2 / (truth - since));
    }

    private static String row(String title, List<Case> cases) {
        return String.format(
                Locale.ROOT,
                "| %s | %d | %.0f / %.0f %% | %.0f %% | %.0f %% |",
                title,
                cases.size(),
                100 * Judged.quantile(cases.stream().map(Case::error).toList(), 0.5),
                100 * Judged.quantile(cases.stream().map(Case::error).toList(), 0.9),
                100.0 * cases.stream().filter(Case::held).count() / cases.size(),
                100 * Judged.quantile(cases.stream().map(Case::halfWidth).toList(), 0.5));
    }

    private static List<String> table(int kilns) {
        List<List<Case>> bung = List.of(new ArrayList<>(), new ArrayList<>());
        List<List<Case>> lid = new ArrayList<>();
        for (int i = 0; i < 3 * GAPS_M.length; i++) {
            lid.add(new ArrayList<>());
        }
        for (Population.Family family : BRICK) {
            for (int kiln = 0; kiln < kilns; kiln++) {
                VirtualTrial shut = fire(family, kiln);
                VirtualTrial pulled = fire(family, kiln, Disturbance.falling(BUNG_FROM_C, Happenings.bung(1)));
                ask(bung.get(0), shut, 600, Way.BUNG_OUT, 60, pulled::belowS);
                ask(bung.get(1), shut, 400, Way.BUNG_OUT, 60, pulled::belowS);
                for (int gap = 0; gap < GAPS_M.length; gap++) {
                    VirtualTrial propped =
                            fire(family, kiln, Disturbance.falling(LID_FROM_C, Happenings.lid(GAPS_M[gap])));
                    ask(lid.get(3 * gap), shut, 600, Way.LID_PROPPED, 50, propped::wareBelowS);
                    ask(lid.get(3 * gap + 1), shut, 150, Way.LID_PROPPED, 50, propped::wareBelowS);
                    noted(lid.get(3 * gap + 2), propped);
                }
            }
        }
        List<String> lines = new ArrayList<>();
        lines.add(
                "| what was done | cases | error of the time left, median / 90th | held by the interval | its half-width |");
        lines.add("| --- | --- | --- | --- | --- |");
        lines.add(row("bung pulled at 300 °C, asked at 600 °C for 60 °C", bung.get(0)));
        lines.add(row("the same asked at 400 °C", bung.get(1)));
        for (int gap = 0; gap < GAPS_M.length; gap++) {
            String title = String.format(Locale.ROOT, "lid propped by %.0f cm at 120 °C", 100 * GAPS_M[gap]);
            lines.add(row(title + ", asked at 600 °C for 50 °C in the hottest ware", lid.get(3 * gap)));
            lines.add(row(title + ", the same asked at 150 °C", lid.get(3 * gap + 1)));
            lines.add(row(title + " and noted, asked half an hour after it, of the time since", lid.get(3 * gap + 2)));
        }
        return lines;
    }

    private static void noted(List<Case> cases, VirtualTrial propped) {
        double truth = propped.wareBelowS(50);
        if (!Double.isNaN(truth)) {
            cases.add(judged(saidOfPropped(propped, 1800), truth, propped.belowS(LID_FROM_C)));
        }
    }

    @Test
    void whatWasSaidOfAProppedLidBeforehandIsSaidOfItAfterwardsToo() {
        VirtualTrial shut = fire(Population.Family.LIGHT_BRICK, 2);
        VirtualTrial propped =
                fire(Population.Family.LIGHT_BRICK, 2, Disturbance.falling(LID_FROM_C, Happenings.lid(0.05)));
        double since = propped.belowS(LID_FROM_C);
        When before = said(shut, shut.belowS(121), Way.LID_PROPPED, 50);
        When after = saidOfPropped(propped, 1800);
        assertThat((after.atS() - before.atS()) / (before.atS() - since)).isBetween(-0.15, 0.15);
        for (When said : List.of(before, after)) {
            assertThat(propped.wareBelowS(50)).isBetween(said.fromS(), said.toS());
        }
    }

    @Test
    @EnabledIfSystemProperty(named = "kilnside.long", matches = "true")
    void thePageSaysWhatTheChoicesAreWorth() {
        ValidationPage.holds("forecasts-choices", table(Integer.getInteger("kilnside.kilns", 10)));
    }
}

package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.BiFunction;
import java.util.function.IntFunction;
import java.util.function.Supplier;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.kilnside.Once;
import org.kilnside.ValidationPage;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast.When;
import org.kilnside.thermal.TrialPopulation.Family;
import org.kilnside.thermal.TrialPopulation.Habit;
import org.kilnside.virtualkiln.Population;

/**
 * Holds the times of cooling asked while the kiln still heats against virtual kilns and trial
 * kilns of numbers nothing was set on. Independent of the model.
 */
class AskedWhileItHeatsTest {
    private static final long UNTOUCHED_SEED = 20_261_126;
    private static final int UNTOUCHED_FROM = 2_000;
    private static final double STEP_S = 600;
    private static final double[] THRESHOLDS_C = {200, 60};

    /** Two kilns of each family, asked at 900 °C, with two earlier firings of their own. */
    private static final Supplier<List<Case>> AS_REMEMBERED =
            Once.of(() -> cases(virtual(2, AskedWhileItHeatsTest::remembered), 900, true, 0));

    /** A firing with what is left of its plan at a moment: what it was given, waits and all. */
    private record Climb(Tried firing, double topC, UnaryOperator<ForecastQuestion> withPlan) {}

    private record Case(double error, boolean held, double halfWidth) {}

    private static List<Climb> virtual(int count) {
        return virtual(count, (family, kiln) -> KilnMemory.none(Optional.empty()));
    }

    private static List<Climb> virtual(int count, BiFunction<Population.Family, Integer, KilnMemory> remembered) {
        List<Climb> climbs = new ArrayList<>();
        for (Population.Family family : Population.Family.values()) {
            for (int i = 0; i < count && family != Population.Family.FIBRE; i++) {
                VirtualTrial trial = VirtualTrial.of(family, UNTOUCHED_SEED, i, 0, false);
                KilnMemory memory = remembered.apply(family, i);
                climbs.add(new Climb(
                        trial,
                        trial.plan().top().celsius(),
                        about -> about.withPlan(trial.plan()).withMemory(memory)));
            }
        }
        return climbs;
    }

    /** Two earlier firings of a kiln, one a bisque and one a glaze, with loads of their own. */
    private static KilnMemory remembered(Population.Family family, int kiln) {
        return remembered(family, kiln, true);
    }

    private static KilnMemory byTemperatureAlone(Population.Family family, int kiln) {
        return remembered(family, kiln, false);
    }

    private static KilnMemory remembered(Population.Family family, int kiln, boolean told) {
        return memory(firing ->
                VirtualTrial.of(family, UNTOUCHED_SEED, kiln, firing, false).until(1e9, told));
    }

    /** The same when its elements were so many times as strong: they did as much with less of their output. */
    private static KilnMemory stronger(Population.Family family, int kiln, double times) {
        return memory(firing -> {
            Trace told =
                    VirtualTrial.of(family, UNTOUCHED_SEED, kiln, firing, false).until(1e9, true);
            Trace.Builder stronger = new Trace.Builder();
            for (int i = 0; i < told.size(); i++) {
                OptionalDouble output = told.output(i);
                stronger.add(
                        told.elapsedMs(i),
                        told.temperatureC(i),
                        output.isPresent() ? OptionalDouble.of(output.getAsDouble() / times) : output,
                        told.setpointC(i));
            }
            return stronger.view();
        });
    }

    private static KilnMemory memory(IntFunction<Trace> firing) {
        return KilnMemory.of(Stream.of(1, 2).map(firing::apply).toList(), Optional.empty(), OptionalDouble.empty());
    }

    private static List<Climb> trials(Family family, int count) {
        List<Climb> climbs = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            TrialFiring trial = TrialPopulation.of(family, UNTOUCHED_FROM + i, 1, Habit.FREE_COOLING)
                    .firings()
                    .get(0);
            double topC = Arrays.stream(trial.setpointC)
                    .filter(each -> each > 0)
                    .max()
                    .orElseThrow();
            climbs.add(new Climb(
                    trial,
                    topC,
                    about -> about.withAhead(given(
                                    trial, about.curve().elapsedMs(about.curve().size() - 1) / 1000.0))
                            .withTarget(Temperature.ofCelsius(topC))));
        }
        return climbs;
    }

    private static PlanAhead given(TrialFiring trial, double nowS) {
        List<PlanAhead.Corner> corners = new ArrayList<>();
        for (double at = nowS + STEP_S; at < trial.offS() - STEP_S; at += STEP_S) {
            corners.add(new PlanAhead.Corner(at, trial.setpointC[(int) (at / trial.stepS)]));
        }
        corners.add(new PlanAhead.Corner(trial.offS(), trial.setpointC[(int) (trial.offS() / trial.stepS) - 2]));
        return new PlanAhead(corners);
    }

    private static List<Case> cases(List<Climb> climbs, double askedC, boolean told, int threshold) {
        List<Case> cases = new ArrayList<>();
        for (Climb climb : climbs) {
            double asked = climb.firing().aboveS(askedC < 0 ? climb.topC() + askedC : askedC);
            double truth = climb.firing().belowS(THRESHOLDS_C[threshold]);
            if (Double.isNaN(asked) || asked > climb.firing().offS() - 600 || Double.isNaN(truth)) {
                continue;
            }
            ForecastQuestion about = ForecastQuestion.about(climb.firing().until(asked, told));
            Forecast said = Forecaster.forecast(climb.withPlan().apply(about));
            int at = threshold == 0 ? 0 : said.below().size() - 1;
            said.below().get(at).when().ifPresent(when -> cases.add(judged(when, asked, truth)));
        }
        return cases;
    }

    private static Case judged(When when, double asked, double truth) {
        double left = truth - asked;
        return new Case(
                (when.atS() - truth) / left,
                when.fromS() <= truth && truth <= when.toS(),
                (when.toS() - when.fromS()) / 2 / left);
    }

    private static double bias(List<Case> cases) {
        return middle(cases.stream().map(Case::error).toList());
    }

    /** The median with its sign. */
    private static double middle(List<Double> values) {
        List<Double> sorted = values.stream().sorted().toList();
        int size = sorted.size();
        return (sorted.get((size - 1) / 2) + sorted.get(size / 2)) / 2;
    }

    @Test
    void theTimesOfAFewKilnsAreNeitherEarlyNorLateByMuch() {
        List<Climb> climbs = new ArrayList<>(trials(Family.ORDINARY, 10));
        climbs.addAll(virtual(3));
        for (boolean told : new boolean[] {true, false}) {
            List<Case> cases = cases(climbs, 900, told, 0);
            assertThat(cases).hasSizeGreaterThan(12);
            assertThat(bias(cases)).isBetween(-0.15, 0.15);
            assertThat(cases.stream().filter(Case::held).count()).isGreaterThanOrEqualTo(cases.size() * 3 / 4);
        }
    }

    /** They came out early in every population, and a quarter of the truths lay above the interval. */
    @Test
    void fewCoolingsToldNearTheTopTakeLongerThanTheIntervalAllows() {
        List<Case> cases = cases(trials(Family.ORDINARY, 24), -50, true, 1);
        assertThat(cases.stream().filter(Case::held).count()).isGreaterThanOrEqualTo(Math.round(0.87 * cases.size()));
    }

    @Test
    void earlierFiringsTellHowAKilnThatStillHeatsWillCool() {
        List<Case> alone = cases(virtual(2), 900, true, 0);
        List<Case> remembered = AS_REMEMBERED.get();
        assertThat(remembered).hasSameSizeAs(alone);
        assertThat(remembered.stream()
                        .mapToDouble(each -> Math.abs(each.error()))
                        .sum())
                .isLessThan(alone.stream()
                        .mapToDouble(each -> Math.abs(each.error()))
                        .sum());
        assertThat(remembered.stream().mapToDouble(Case::halfWidth).sum())
                .isLessThan(0.7 * alone.stream().mapToDouble(Case::halfWidth).sum());
        assertThat(remembered.stream().filter(Case::held).count()).isGreaterThanOrEqualTo(remembered.size() - 1);
    }

    @Test
    void earlierClimbsTellHowStrongTheElementsAreAndSoHowHeavyTheLoadIs() {
        List<Case> told = AS_REMEMBERED.get();
        assertThat(told).hasSize(6);
        assertThat(bias(told)).isBetween(-0.1, 0.1);
        assertThat(told).allSatisfy(each -> assertThat(each.error()).isBetween(-0.2, 0.2));
    }

    /** Taken for as strong as in the book they came out up to 48 % late and 21 % early. */
    @Test
    void elementsAQuarterWeakerOrAThirdStrongerThanInTheBookAreNotTakenForAnotherLoad() {
        for (double before : new double[] {4 / 3.0, 3 / 4.0}) {
            List<Case> changed = cases(virtual(2, (family, kiln) -> stronger(family, kiln, before)), 500, true, 0);
            assertThat(changed).hasSize(6);
            assertThat(changed).allSatisfy(each -> assertThat(each.error()).isBetween(-0.2, 0.2));
            assertThat(changed.stream().filter(Case::held).count()).isGreaterThanOrEqualTo(5);
        }
    }

    @Test
    void anOutputToldForTheFirstTimeDoesNotSpeakAgainstTheLoadsBefore() {
        List<Case> untold = cases(virtual(2, AskedWhileItHeatsTest::byTemperatureAlone), 900, true, 0);
        assertThat(untold).hasSize(6);
        assertThat(bias(untold)).isBetween(-0.1, 0.1);
        assertThat(untold).allSatisfy(each -> assertThat(each.held()).isTrue());
    }

    @Test
    @EnabledIfSystemProperty(named = "kilnside.long", matches = "true")
    void thePageSaysHowWellCoolingIsForecastWhileItHeats() {
        int count = Integer.getInteger("kilnside.kilns", 10);
        List<String> lines = new ArrayList<>();
        lines.add("| kilns | asked rising at | for | cases | error, median / 90th | its middle, with its sign |"
                + " held by the interval | its half-width |");
        lines.add("| --- | --- | --- | --- | --- | --- | --- | --- |");
        List<Climb> virtual = virtual(2 * count);
        List<Climb> known = virtual(2 * count, AskedWhileItHeatsTest::remembered);
        List<Climb> ordinary = trials(Family.ORDINARY, 4 * count);
        List<Climb> panels = trials(Family.PANELS, 2 * count);
        for (boolean told : new boolean[] {true, false}) {
            String how = told ? ", output told" : ", temperature alone";
            rows(lines, "virtual brick" + how, virtual, told);
            rows(lines, "the same, two earlier firings" + how, known, told);
            rows(lines, "ordinary" + how, ordinary, told);
            rows(lines, "panels" + how, panels, told);
        }
        ValidationPage.holds("forecasts-heating", lines);
    }

    private static void rows(List<String> lines, String title, List<Climb> climbs, boolean told) {
        for (double askedC : new double[] {500, 900, -50}) {
            for (int threshold = 0; threshold < THRESHOLDS_C.length; threshold++) {
                List<Case> cases = cases(climbs, askedC, told, threshold);
                List<Double> errors = cases.stream().map(Case::error).toList();
                lines.add(String.format(
                        Locale.ROOT,
                        "| %s | %s | %.0f °C | %d | %.0f / %.0f %% | %+.0f %% | %.0f %% | %.0f %% |",
                        title,
                        askedC < 0 ? "50 K below the top" : String.format(Locale.ROOT, "%.0f °C", askedC),
                        THRESHOLDS_C[threshold],
                        cases.size(),
                        100 * Judged.quantile(errors, 0.5),
                        100 * Judged.quantile(errors, 0.9),
                        100 * bias(cases),
                        100.0 * cases.stream().filter(Case::held).count() / cases.size(),
                        100
                                * Judged.quantile(
                                        cases.stream().map(Case::halfWidth).toList(), 0.5)));
            }
        }
    }
}

package org.kilnside.week;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.kilnside.week.Weeks.at;
import static org.kilnside.week.Weeks.daily;
import static org.kilnside.week.Weeks.hours;
import static org.kilnside.week.Weeks.times;

import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.firing.Kiln;
import org.kilnside.outlook.Outlook;
import org.kilnside.outlook.OutlookQuestion;
import org.kilnside.outlook.Ware;
import org.kilnside.quantity.Temperature;
import org.kilnside.week.PlannedFiring.AtTop;

class WeekPlanTest {
    private static final Instant NOW = at("2026-11-28T12:00");
    private static final Kiln KILN = ProfileLibrary.starters().kiln("tall-drum");

    private static final Load BOWLS = load("Bowls", "bisque", 36);

    /** Asked of the outlook by itself: the week is held to give the same. */
    private static final Outlook BOWLS_OUTLOOK = Outlook.of(question(BOWLS));

    private static Load load(String name, String plan, double kg) {
        return new Load(
                name,
                plan,
                ProfileLibrary.starters().plan(plan).schedule(),
                OptionalDouble.of(kg),
                new Ware(Optional.of(Ware.State.RAW), OptionalDouble.of(6), Optional.empty()),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                false);
    }

    private static OutlookQuestion question(Load load) {
        return OutlookQuestion.about(load.plan(), KILN)
                .withRoom(Temperature.ofCelsius(2))
                .withLoadKg(load.kg())
                .withWare(load.ware());
    }

    private static Load named(String name, Load load) {
        return new Load(
                name,
                load.planName(),
                load.plan(),
                load.kg(),
                load.ware(),
                load.ready(),
                load.after(),
                load.due(),
                load.packed());
    }

    private static Load after(Load load, String other, Duration drying) {
        return new Load(
                load.name(),
                load.planName(),
                load.plan(),
                load.kg(),
                load.ware(),
                load.ready(),
                Optional.of(new Load.After(other, drying)),
                load.due(),
                load.packed());
    }

    private static Week week(Attendance there, boolean topAlone, Optional<Instant> due, Load... loads) {
        return new Week(
                "For the café",
                "tall-drum",
                Optional.of(Temperature.ofCelsius(2)),
                due,
                Optional.empty(),
                there,
                topAlone,
                Duration.ofHours(1),
                Weeks.ZONE,
                List.of(loads));
    }

    private static LoadAhead ahead(Load load, FiringTimes times) {
        return new LoadAhead(load, BOWLS_OUTLOOK, Optional.of(times));
    }

    @Test
    void theTimesOfAFiringAreTheOutlooksOfTheSamePlanKilnAndLoad() {
        Week week = week(Attendance.ALWAYS, false, Optional.empty(), BOWLS);
        WeekPlan plan = WeekPlan.of(week, OutlookQuestion.about(BOWLS.plan(), KILN), NOW);
        PlannedFiring firing = plan.firings().get(0);
        assertThat(firing.light()).isEqualTo(NOW.plus(Duration.ofHours(1)));
        assertThat(firing.top()).isEqualTo(BOWLS_OUTLOOK.arrival().orElseThrow().map(firing.light()::plus));
        assertThat(firing.crack()).contains(BOWLS_OUTLOOK.crack().orElseThrow().map(firing.light()::plus));
        assertThat(firing.unload())
                .isEqualTo(BOWLS_OUTLOOK.unload().orElseThrow().map(firing.light()::plus));
        assertThat(plan.energy().orElseThrow().probable().kilowattHours())
                .isCloseTo(BOWLS_OUTLOOK.energy().orElseThrow().probable().kilowattHours(), within(1e-9));
        assertThat(plan.cost().orElseThrow().currency()).isEqualTo("EUR");
        assertThat(plan.isInTime()).isTrue();
        assertThat(plan.spare()).isEmpty();
    }

    @Test
    void energyOfSeveralIsTheirSumAtTheEndsOfTheRangesToo() {
        Week week = week(Attendance.ALWAYS, false, Optional.empty(), BOWLS, named("More bowls", BOWLS));
        WeekPlan plan = WeekPlan.of(
                week,
                List.of(
                        ahead(week.loads().get(0), times(10, 0.5, 24, 30)),
                        ahead(week.loads().get(1), times(10, 0.5, 24, 30))),
                NOW);
        assertThat(plan.energy().orElseThrow().to().kilowattHours())
                .isCloseTo(2 * BOWLS_OUTLOOK.energy().orElseThrow().to().kilowattHours(), within(1e-9));
    }

    @Test
    void aDateSomebodyAtTheProbableTimeAloneKeepsIsKeptSo() {
        // Somebody is there for twelve hours, and the top's range is as long: no lighting holds it whole but once in a
        // while.
        Week week = week(daily("07:00", "19:00"), false, Optional.of(at("2026-11-30T12:00")), BOWLS);
        WeekPlan plan = WeekPlan.of(week, List.of(ahead(BOWLS, times(9, 3.5, 20, 26))), NOW);
        assertThat(plan.firings().get(0).atTop()).isEqualTo(AtTop.PROBABLY);
        assertThat(plan.isInTime()).isTrue();
        assertThat(plan.ifTopAlone()).as("nothing is late").isEmpty();
    }

    @Test
    void whatIsLateSaysWhatProbableTimesAndNobodyAtTheTopWouldGive() {
        // At 12:00 it is Saturday. Lit at 13:00 with nobody at the top it is out on Sunday at 19:00, probably at 16:00.
        Week week = week(daily("07:00", "22:00"), false, Optional.of(at("2026-11-29T20:00")), BOWLS);
        WeekPlan plan = WeekPlan.of(week, List.of(ahead(BOWLS, times(10, 0.5, 24, 30))), NOW);
        assertThat(plan.isInTime()).isFalse();
        assertThat(plan.out()).contains(at("2026-11-30T07:00"));
        assertThat(plan.spare()).contains(Duration.ofHours(-11));
        assertThat(plan.ifTopAlone()).contains(new WeekPlan.Instead(at("2026-11-29T19:00"), true));
        // Lit at 21:30, so that its top is attended, it is probably cool at 00:30, and nobody is there before seven.
        assertThat(plan.ifCoolAtProbable()).contains(new WeekPlan.Instead(at("2026-11-30T07:00"), false));
    }

    @Test
    void whoeverMayLeaveTheTopAloneIsPlannedSo() {
        Week week = week(daily("07:00", "22:00"), true, Optional.of(at("2026-11-29T20:00")), BOWLS);
        WeekPlan plan = WeekPlan.of(week, List.of(ahead(BOWLS, times(10, 0.5, 24, 30))), NOW);
        assertThat(plan.isInTime()).isTrue();
        assertThat(plan.firings().get(0).atTop()).isEqualTo(AtTop.NOBODY);
    }

    @Test
    void aLoadNobodyKnowsTheTimesOfIsNamedAndSoIsWhatWaitsForIt() {
        Load glazed = after(named("Glazed", BOWLS), "Bowls", hours(24));
        Week week = week(Attendance.ALWAYS, false, Optional.empty(), BOWLS, glazed, named("Tiles", BOWLS));
        WeekPlan plan = WeekPlan.of(
                week,
                List.of(
                        new LoadAhead(BOWLS, BOWLS_OUTLOOK, Optional.empty()),
                        ahead(glazed, times(10, 0.5, 24, 30)),
                        ahead(week.loads().get(2), times(10, 0.5, 24, 30))),
                NOW);
        assertThat(plan.cannotKnow()).containsExactly(0);
        assertThat(plan.noRoom()).containsExactly(1);
        assertThat(plan.ifLit()).containsExactly(Optional.empty());
        assertThat(plan.ifCoolAtProbable())
                .as("nothing makes a plan of all of them")
                .isEmpty();
        assertThat(plan.firings()).extracting(PlannedFiring::load).containsExactly(2);
        assertThat(plan.isInTime()).isFalse();
    }

    @Test
    void aLoadThereIsNoTimeForIsNamed() {
        Week week = week(daily("20:00", "22:00"), false, Optional.empty(), BOWLS);
        WeekPlan plan = WeekPlan.of(week, List.of(ahead(BOWLS, times(10, 0.5, 24, 30))), NOW);
        assertThat(plan.noRoom()).containsExactly(0);
        assertThat(plan.firings()).isEmpty();
        assertThat(plan.out()).isEmpty();
        assertThat(plan.energy()).as("nothing is fired").isEmpty();
        assertThat(plan.ifTopAlone()).isPresent();
        // Packed from 20:00 it would be lit at 20:00, were it packed; its top comes ten hours later.
        assertThat(plan.ifLit())
                .containsExactly(Optional.of(
                        new WeekPlan.Lit(at("2026-11-28T20:00"), at("2026-11-29T06:00"), at("2026-11-29T06:10"))));
    }

    @Test
    void theKilnIsNotLitBeforeItIsFree() {
        Week week = new Week(
                "W",
                "tall-drum",
                Optional.empty(),
                Optional.empty(),
                Optional.of(at("2026-11-30T09:00")),
                Attendance.ALWAYS,
                false,
                Duration.ofHours(1),
                Weeks.ZONE,
                List.of(BOWLS));
        WeekPlan plan = WeekPlan.of(week, List.of(ahead(BOWLS, times(10, 0.5, 24, 30))), NOW);
        assertThat(plan.firings().get(0).light()).isEqualTo(at("2026-11-30T10:00"));
    }

    @Test
    void aPlanThatNeverIsAboveTheUnloadingTemperatureIsOutWhenItIsOver() {
        Outlook candling = Outlook.of(question(load("Tiles", "candling", 20)));
        Kiln.Thresholds high = new Kiln.Thresholds(
                Temperature.ofCelsius(150), Temperature.ofCelsius(100), Kiln.Thresholds.Source.POTTER);
        assertThat(candling.highest().probable().celsius()).isLessThan(100);
        assertThat(FiringTimes.of(candling, high)).isPresent();
    }

    @Test
    void eightLoadsInAnyOrderAreNoTroubleAndNineAreRefused() {
        Load[] eight = new Load[8];
        for (int i = 0; i < eight.length; i++) {
            eight[i] = named("Load " + i, BOWLS);
        }
        Week week = week(daily("07:00", "22:00"), false, Optional.of(at("2026-12-24T12:00")), eight);
        List<LoadAhead> loads = week.loads().stream()
                .map(each -> ahead(each, times(8 + Integer.parseInt(each.name().substring(5)) * 0.5, 0.5, 24, 30)))
                .toList();
        assertThat(WeekPlan.of(week, loads, NOW).firings()).hasSize(8);
        Load[] nine = Arrays.copyOf(eight, 9);
        nine[8] = named("Load 8", BOWLS);
        assertThatThrownBy(() -> week(Attendance.ALWAYS, false, Optional.empty(), nine))
                .isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void aRingOfLoadsThatWaitForEachOtherIsNoWeek() {
        Load one = after(named("One", BOWLS), "Two", hours(1));
        Load two = after(named("Two", BOWLS), "One", hours(1));
        assertThatThrownBy(() -> week(Attendance.ALWAYS, false, Optional.empty(), one, two))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("waits for itself");
    }
}

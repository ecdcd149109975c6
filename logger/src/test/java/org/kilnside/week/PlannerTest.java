package org.kilnside.week;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kilnside.week.Weeks.after;
import static org.kilnside.week.Weeks.at;
import static org.kilnside.week.Weeks.daily;
import static org.kilnside.week.Weeks.due;
import static org.kilnside.week.Weeks.hours;
import static org.kilnside.week.Weeks.load;
import static org.kilnside.week.Weeks.packed;
import static org.kilnside.week.Weeks.ready;
import static org.kilnside.week.Weeks.times;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.outlook.Estimate;
import org.kilnside.week.PlannedFiring.AtTop;
import org.kilnside.week.PlannedFiring.WaitsFor;

/** Worked by hand, from the calendar and the times given. */
class PlannerTest {
    private static final Instant START = at("2026-11-28T12:00");

    /** Top after 10 h ± 30 min, cool enough after 24 to 30 h. */
    private static final Timed BISQUE = load(times(10, 0.5, 24, 30));

    private static List<PlannedFiring> plan(Attendance attendance, AtTop wanted, Timed... loads) {
        Instant end = START.plus(WeekPlan.HORIZON);
        return new Planner(
                        List.of(loads),
                        attendance.within(new Span(START, end), Weeks.ZONE),
                        START,
                        end,
                        Duration.ofHours(1),
                        wanted)
                .plan();
    }

    @Test
    void aLoadIsLitAsSoonAsItIsPackedWhereSomebodyIsAlwaysThere() {
        List<PlannedFiring> plan = plan(Attendance.ALWAYS, AtTop.SOMEBODY, BISQUE);
        assertThat(plan).hasSize(1);
        assertThat(plan.get(0).light()).isEqualTo(at("2026-11-28T13:00"));
        assertThat(plan.get(0).out()).as("30 h after").isEqualTo(at("2026-11-29T19:00"));
        assertThat(plan.get(0).waitsFor()).isEqualTo(WaitsFor.NOTHING);
        assertThat(plan.get(0).lightBy()).as("there is no date").isEmpty();
    }

    @Test
    void itWaitsUntilSomebodyIsThereAllThroughTheTimeItsTopMayComeIn() {
        PlannedFiring first =
                plan(daily("07:00", "22:00"), AtTop.SOMEBODY, BISQUE).get(0);
        // From 13:00 its top would come until 23:40; from 07:00 of the next day 16:30 to 17:40.
        assertThat(first.light()).isEqualTo(at("2026-11-28T21:30"));
        assertThat(first.top().from()).as("at seven to the minute").isEqualTo(at("2026-11-29T07:00"));
        assertThat(first.atTop()).isEqualTo(AtTop.SOMEBODY);
        assertThat(first.waitsFor()).isEqualTo(WaitsFor.SOMEBODY_AT_TOP);
        assertThat(first.out()).as("03:30, and nobody is there before seven").isEqualTo(at("2026-11-30T07:00"));
    }

    @Test
    void whereNoHourHoldsAllOfItsRangeItIsLitForTheProbableTime() {
        Timed wide = load(times(10, 6, 24, 30));
        PlannedFiring first =
                plan(daily("07:00", "19:00"), AtTop.SOMEBODY, wide).get(0);
        assertThat(first.atTop()).isEqualTo(AtTop.PROBABLY);
        assertThat(first.light()).isEqualTo(at("2026-11-29T07:00"));
        assertThat(first.waitsFor()).isEqualTo(WaitsFor.SOMEBODY_AT_TOP);
    }

    @Test
    void aLongHoldIsAttendedAtItsBeginAndItsEnd() {
        // Drying: at its hold after an hour, held for twelve; nobody is there at night.
        FiringTimes night = new FiringTimes(
                Estimate.of(hours(1), hours(0.75), hours(1.25)),
                Estimate.of(hours(13), hours(12.75), hours(13.25)),
                Optional.empty(),
                Estimate.of(hours(15), hours(14), hours(16)));
        PlannedFiring first =
                plan(daily("17:00", "08:00"), AtTop.SOMEBODY, load(night)).get(0);
        // At 17:00 somebody is there; packed at 18:00.
        assertThat(first.light()).isEqualTo(at("2026-11-28T18:00"));
        assertThat(first.atTop()).isEqualTo(AtTop.SOMEBODY);
        PlannedFiring twice = plan(
                        new Attendance(
                                List.of(
                                        daily("06:00", "09:00").hours().get(0),
                                        daily("17:00", "20:00").hours().get(0)),
                                List.of()),
                        AtTop.SOMEBODY,
                        load(night))
                .get(0);
        assertThat(twice.light()).isEqualTo(at("2026-11-28T18:00"));
        assertThat(twice.atTop())
                .as("07:00 give or take a quarter, nobody in between")
                .isEqualTo(AtTop.SOMEBODY);
    }

    @Test
    void neverWithNobodyAtTheTopUnlessThatIsAskedFor() {
        // Lit in its two hours, its top comes ten hours later: never in them.
        assertThat(plan(daily("20:00", "22:00"), AtTop.SOMEBODY, BISQUE)).isEmpty();
        PlannedFiring alone =
                plan(daily("20:00", "22:00"), AtTop.NOBODY, BISQUE).get(0);
        assertThat(alone.light()).isEqualTo(at("2026-11-28T21:00"));
        assertThat(alone.atTop()).isEqualTo(AtTop.NOBODY);
        assertThat(alone.waitsFor()).isEqualTo(WaitsFor.SOMEBODY);
    }

    @Test
    void theSameWareComesAfterItsDryingAndAnotherLoadIsFiredMeanwhile() {
        Timed glaze = after(load(times(9, 0.5, 22, 28)), 0, hours(48));
        List<PlannedFiring> plan = plan(Attendance.ALWAYS, AtTop.SOMEBODY, BISQUE, glaze, BISQUE);
        assertThat(plan).extracting(PlannedFiring::load).containsExactly(0, 2, 1);
        assertThat(plan.get(1).light()).as("an hour's packing after 19:00").isEqualTo(at("2026-11-29T20:00"));
        assertThat(plan.get(1).waitsFor()).isEqualTo(WaitsFor.KILN);
        // Out at 19:00 on the 29th and dry at 19:00 on the 1st; the kiln is free at 02:00 that day.
        assertThat(plan.get(2).light()).isEqualTo(at("2026-12-01T20:00"));
        assertThat(plan.get(2).waitsFor()).isEqualTo(WaitsFor.WARE);
    }

    @Test
    void theOneWithTheDateGoesFirst() {
        List<PlannedFiring> plan = plan(Attendance.ALWAYS, AtTop.SOMEBODY, BISQUE, due(BISQUE, "2026-11-30T09:00"));
        assertThat(plan).extracting(PlannedFiring::load).containsExactly(1, 0);
        // 30 h before the date is the latest; the other has none.
        assertThat(plan.get(0).lightBy()).contains(at("2026-11-29T03:00"));
        assertThat(plan.get(1).lightBy()).isEmpty();
    }

    @Test
    void aDayInHandBeforeADateIsWorthMoreThanBeingDoneSooner() {
        // A glaze that is dry a day after its bisque: another load fits in between, and would leave it an hour.
        Timed glaze = due(after(load(times(9, 0.5, 22, 28)), 0, hours(30)), "2026-12-02T16:00");
        List<PlannedFiring> plan = plan(Attendance.ALWAYS, AtTop.SOMEBODY, BISQUE, glaze, BISQUE);
        assertThat(plan).extracting(PlannedFiring::load).containsExactly(0, 1, 2);
    }

    @Test
    void whatIsNotDryYetLetsAnotherGoFirstAndIsInTimeStill() {
        Timed damp = due(ready(BISQUE, "2026-11-30T12:00"), "2026-12-02T09:00");
        List<PlannedFiring> plan = plan(Attendance.ALWAYS, AtTop.SOMEBODY, damp, BISQUE);
        assertThat(plan).extracting(PlannedFiring::load).containsExactly(1, 0);
        assertThat(plan.get(1).light()).isEqualTo(at("2026-11-30T13:00"));
        // 30 h before 09:00 of the 2nd; the other has to be out an hour before that.
        assertThat(plan.get(1).lightBy()).contains(at("2026-12-01T03:00"));
        assertThat(plan.get(0).lightBy()).contains(at("2026-11-29T20:00"));
    }

    @Test
    void whereNotAllCanBeInTimeTheFewestDatesAreMissed() {
        // Three an hour apart in their dates; only two fit, and each of them by itself.
        List<PlannedFiring> plan = plan(
                Attendance.ALWAYS,
                AtTop.SOMEBODY,
                due(load(times(10, 0.5, 50, 60)), "2026-12-01T10:00"),
                due(BISQUE, "2026-12-01T09:00"),
                due(BISQUE, "2026-12-01T11:00"));
        assertThat(plan).extracting(PlannedFiring::load).containsExactly(1, 2, 0);
        assertThat(plan.get(2).lightBy()).as("it is too late for that one").isEmpty();
    }

    @Test
    void whatStandsInTheKilnIsLitFirstAndNeedsNoPacking() {
        List<PlannedFiring> plan =
                plan(Attendance.ALWAYS, AtTop.SOMEBODY, due(BISQUE, "2026-11-30T00:00"), packed(BISQUE));
        assertThat(plan).extracting(PlannedFiring::load).containsExactly(1, 0);
        assertThat(plan.get(0).light()).isEqualTo(START);
    }

    @Test
    void aLightingIsOnTheQuarterOfAnHour() {
        assertThat(Slots.quarter(at("2026-11-28T12:00:01"))).isEqualTo(at("2026-11-28T12:15"));
        assertThat(Slots.quarter(at("2026-11-28T12:00"))).isEqualTo(at("2026-11-28T12:00"));
        assertThat(Slots.quarter(at("2026-11-28T12:00").plusNanos(1))).isEqualTo(at("2026-11-28T12:15"));
    }
}

package org.kilnside.week;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.DayOfWeek;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** Truth: the calendar; the clock changes of Europe/Amsterdam are the tz database's. */
class AttendanceTest {
    private static final ZoneId AMSTERDAM = ZoneId.of("Europe/Amsterdam");

    private static Instant at(String local) {
        return LocalDateTime.parse(local).atZone(AMSTERDAM).toInstant();
    }

    private static Span span(String from, String to) {
        return new Span(at(from), at(to));
    }

    private static Attendance.Hours daily(String from, String to) {
        return new Attendance.Hours(EnumSet.allOf(DayOfWeek.class), LocalTime.parse(from), LocalTime.parse(to));
    }

    private static Presence there(Attendance attendance, String from, String to) {
        return attendance.within(span(from, to), AMSTERDAM);
    }

    @Test
    void withoutHoursSomebodyIsAlwaysThere() {
        Presence always = there(Attendance.ALWAYS, "2026-11-28T08:00", "2026-12-05T08:00");
        assertThat(always.spans()).containsExactly(span("2026-11-28T08:00", "2026-12-05T08:00"));
    }

    @Test
    void hoursOfSomeDaysAreThoseDaysAlone() {
        Attendance evenings = new Attendance(
                List.of(
                        new Attendance.Hours(
                                Set.of(DayOfWeek.MONDAY, DayOfWeek.TUESDAY), LocalTime.of(17, 30), LocalTime.of(22, 0)),
                        new Attendance.Hours(Set.of(DayOfWeek.SUNDAY), LocalTime.of(9, 0), LocalTime.of(21, 0))),
                List.of());
        assertThat(there(evenings, "2026-11-28T08:00", "2026-12-03T08:00").spans())
                .containsExactly(
                        span("2026-11-29T09:00", "2026-11-29T21:00"),
                        span("2026-11-30T17:30", "2026-11-30T22:00"),
                        span("2026-12-01T17:30", "2026-12-01T22:00"));
    }

    @Test
    void hoursPastMidnightRunIntoTheNextDayAndTheStretchCutsThem() {
        Attendance late = new Attendance(List.of(daily("18:00", "01:00")), List.of());
        assertThat(there(late, "2026-11-28T00:30", "2026-11-29T00:15").spans())
                .containsExactly(
                        span("2026-11-28T00:30", "2026-11-28T01:00"), span("2026-11-28T18:00", "2026-11-29T00:15"));
    }

    @Test
    void theSameHourTwiceIsTheWholeDayAndDaysThatTouchAreOne() {
        Attendance whole = new Attendance(List.of(daily("07:00", "07:00")), List.of());
        assertThat(there(whole, "2026-11-28T00:00", "2026-12-01T00:00").spans())
                .containsExactly(span("2026-11-28T00:00", "2026-12-01T00:00"));
    }

    @Test
    void anAbsenceCutsTheHoursItFallsIn() {
        Attendance attendance =
                new Attendance(List.of(daily("07:00", "22:00")), List.of(span("2026-11-29T12:00", "2026-11-30T08:00")));
        assertThat(there(attendance, "2026-11-29T00:00", "2026-12-01T00:00").spans())
                .containsExactly(
                        span("2026-11-29T07:00", "2026-11-29T12:00"), span("2026-11-30T08:00", "2026-11-30T22:00"));
    }

    @Test
    void theNightTheClockIsPutForwardIsAnHourShorterAndTheOtherAnHourLonger() {
        Attendance nights = new Attendance(List.of(daily("22:00", "06:00")), List.of());
        assertThat(there(nights, "2026-03-28T12:00", "2026-03-29T12:00").spans())
                .singleElement()
                .satisfies(night -> assertThat(night.length()).isEqualTo(Duration.ofHours(7)));
        assertThat(there(nights, "2026-10-24T12:00", "2026-10-25T12:00").spans())
                .singleElement()
                .satisfies(night -> assertThat(night.length()).isEqualTo(Duration.ofHours(9)));
    }

    @Test
    void hoursThatTheClockLeavesOutAreNotThere() {
        Attendance small = new Attendance(List.of(daily("02:10", "02:50")), List.of());
        assertThat(there(small, "2026-03-28T12:00", "2026-03-30T00:00").spans())
                .allMatch(span -> span.length().compareTo(Duration.ofHours(1)) < 0)
                .noneMatch(span -> span.to().equals(span.from()));
    }

    @Test
    void workRestsWhileNobodyIsThere() {
        Presence days = there(
                new Attendance(List.of(daily("07:00", "22:00")), List.of()), "2026-11-28T00:00", "2026-12-05T00:00");
        assertThat(days.done(at("2026-11-28T20:30"), Duration.ofHours(1))).contains(at("2026-11-28T21:30"));
        assertThat(days.done(at("2026-11-28T21:30"), Duration.ofHours(1))).contains(at("2026-11-29T07:30"));
        assertThat(days.done(at("2026-11-28T23:30"), Duration.ofHours(1))).contains(at("2026-11-29T08:00"));
        assertThat(days.done(at("2026-11-28T12:00"), Duration.ofHours(26))).contains(at("2026-11-30T08:00"));
        assertThat(days.done(at("2026-12-04T21:30"), Duration.ofHours(1))).isEmpty();
    }

    @Test
    void holdsAskForEveryMomentInBetween() {
        Presence days = there(
                new Attendance(List.of(daily("07:00", "22:00")), List.of()), "2026-11-28T00:00", "2026-12-05T00:00");
        assertThat(days.holds(at("2026-11-28T07:00"), at("2026-11-28T22:00"))).isTrue();
        assertThat(days.holds(at("2026-11-28T06:59"), at("2026-11-28T08:00"))).isFalse();
        assertThat(days.holds(at("2026-11-28T21:00"), at("2026-11-29T08:00"))).isFalse();
        assertThat(days.from(at("2026-11-28T23:00"))).contains(at("2026-11-29T07:00"));
    }

    @Test
    void aSpanEndsAfterItBeginsAndHoursHaveADay() {
        assertThatThrownBy(() -> span("2026-11-28T08:00", "2026-11-28T08:00"))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Attendance.Hours(Set.of(), LocalTime.NOON, LocalTime.MIDNIGHT))
                .isInstanceOf(IllegalArgumentException.class);
    }
}

package org.kilnside.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.EnumSet;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.kilnside.files.UnitText.NotAQuantityException;

/** Truth: the calendar; 28 November 2026 is a Saturday. */
class MomentTextTest {
    private static final ZoneId ZONE = ZoneId.of("Europe/Amsterdam");
    private static final Instant NOW = at("2026-11-28T12:00");

    private static Instant at(String local) {
        return LocalDateTime.parse(local).atZone(ZONE).toInstant();
    }

    @ParameterizedTest
    @CsvSource({
        "2026-12-04 09:00, 2026-12-04T09:00",
        "2026-12-4 9:00, 2026-12-04T09:00",
        "2026-12-04T09:00, 2026-12-04T09:00",
        "Fri 09:00, 2026-12-04T09:00",
        "friday 9:00, 2026-12-04T09:00",
        "vr 09:00, 2026-12-04T09:00",
        "Freitag 09:00, 2026-12-04T09:00",
        "Fr. 09:00, 2026-12-04T09:00",
        "di 18:30, 2026-12-01T18:30",
        "Sat 12:00, 2026-11-28T12:00",
        "Sat 11:59, 2026-12-05T11:59",
        "Sat 23:00, 2026-11-28T23:00"
    })
    void aDayWithoutADateIsTheNextOfItsName(String text, String local) {
        assertThat(MomentText.moment(text, NOW, ZONE)).isEqualTo(at(local));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "Fri",
                "09:00",
                "Fridag 09:00",
                "f 09:00",
                "Fri 9",
                "Fri 25:00",
                "2026-13-04 09:00",
                "2026-02-30 09:00",
                "04-12-2026 09:00",
                "Fri 09:00 10:00",
                "next Fri 09:00"
            })
    void anythingElseIsToldWhatItShouldBe(String text) {
        assertThatThrownBy(() -> MomentText.moment(text, NOW, ZONE))
                .isInstanceOf(NotAQuantityException.class)
                .hasMessageContaining("\"" + text + "\"")
                .hasMessageContaining("2026-12-04 09:00");
    }

    @Test
    void aMomentIsReadBackAsItIsWritten() {
        Instant moment = at("2026-12-04T09:05");
        assertThat(MomentText.of(moment, ZONE)).isEqualTo("2026-12-04 09:05");
        assertThat(MomentText.moment(MomentText.of(moment, ZONE), NOW, ZONE)).isEqualTo(moment);
    }

    @Test
    void daysAreRangesAndLists() {
        assertThat(MomentText.days("Mon-Fri")).isEqualTo(EnumSet.range(DayOfWeek.MONDAY, DayOfWeek.FRIDAY));
        assertThat(MomentText.days("za, zo")).containsExactly(DayOfWeek.SATURDAY, DayOfWeek.SUNDAY);
        assertThat(MomentText.days("Fri – Mon, Wed"))
                .containsExactlyInAnyOrder(
                        DayOfWeek.FRIDAY, DayOfWeek.SATURDAY, DayOfWeek.SUNDAY, DayOfWeek.MONDAY, DayOfWeek.WEDNESDAY);
        assertThat(MomentText.days("every day")).hasSize(7);
        for (String text : List.of("", "Mon-", "Mon-Wed-Fri", "weekdays", "Mon Tue")) {
            assertThatThrownBy(() -> MomentText.days(text))
                    .as(text)
                    .isInstanceOf(NotAQuantityException.class)
                    .hasMessageContaining("Mon-Fri");
        }
    }

    @Test
    void everySetOfDaysIsReadBackAsItIsWritten() {
        for (int bits = 1; bits < 128; bits++) {
            EnumSet<DayOfWeek> days = EnumSet.noneOf(DayOfWeek.class);
            for (DayOfWeek day : DayOfWeek.values()) {
                if ((bits & 1 << day.ordinal()) != 0) {
                    days.add(day);
                }
            }
            assertThat(MomentText.days(MomentText.of(days))).isEqualTo(days);
        }
    }
}

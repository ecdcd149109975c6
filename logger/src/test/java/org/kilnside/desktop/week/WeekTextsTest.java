package org.kilnside.desktop.week;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kilnside.desktop.week.HandWeek.FRIDAY;
import static org.kilnside.desktop.week.HandWeek.ZONE;

import java.time.DayOfWeek;
import java.time.Duration;
import java.time.LocalTime;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.kilnside.week.Attendance;
import org.kilnside.week.Week;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.Language;
import org.kilnside.wording.Opening;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.TemperatureUnit;
import org.kilnside.wording.Words;

class WeekTextsTest {
    private Week week;

    @BeforeEach
    void theExample() {
        week = new HandWeek(Optional.empty()).example();
    }

    private static WeekTexts texts(Language language, TemperatureUnit unit) {
        return new WeekTexts(
                Words.of(language, new Preferences(unit, ClockStyle.TWENTY_FOUR_HOURS, ZONE, Opening.LID)), FRIDAY);
    }

    private static WeekTexts texts() {
        return texts(Language.ENGLISH, TemperatureUnit.CELSIUS);
    }

    private String problem(WeekField field, String text) {
        return texts().read(field, 1, text, week).problem().orElseThrow();
    }

    @ParameterizedTest
    @EnumSource(Language.class)
    void whatStandsInAFieldIsReadAsTheSame(Language language) {
        WeekTexts texts = texts(language, TemperatureUnit.CELSIUS);
        for (WeekField field : WeekField.values()) {
            for (int load = 1; load <= week.loads().size(); load++) {
                if (field != WeekField.PLAN) {
                    assertThat(texts.read(field, load, texts.of(field, load, week), week)
                                    .week())
                            .as(field + " of " + load)
                            .contains(week);
                }
            }
        }
    }

    @Test
    void aNumberAloneIsInThePersonsOwnUnit() {
        assertThat(texts(Language.ENGLISH, TemperatureUnit.FAHRENHEIT)
                        .read(WeekField.ROOM, 0, "50", week)
                        .week()
                        .orElseThrow()
                        .room()
                        .orElseThrow()
                        .celsius())
                .isEqualTo(10);
        assertThat(texts().read(WeekField.WEIGHT, 1, "34", week)
                        .week()
                        .orElseThrow()
                        .loads()
                        .get(0)
                        .kg())
                .hasValue(34);
        assertThat(texts().read(WeekField.WEIGHT, 1, "84 lb", week)
                        .week()
                        .orElseThrow()
                        .loads()
                        .get(0)
                        .kg()
                        .orElseThrow())
                .isCloseTo(38.1, org.assertj.core.api.Assertions.within(0.01));
    }

    @Test
    void theHoursOfSomeDaysAreWrittenBehindThem() {
        Attendance there = texts().read(WeekField.THERE, 0, "Mon-Fri 17:00-23:00; za, zo 8:00 – 24:00", week)
                .week()
                .orElseThrow()
                .there();
        assertThat(there.hours()).hasSize(2);
        assertThat(there.hours().get(0).days()).hasSize(5);
        assertThat(there.hours().get(1).days()).containsExactlyInAnyOrder(DayOfWeek.SATURDAY, DayOfWeek.SUNDAY);
        assertThat(there.hours().get(1).to()).isEqualTo(LocalTime.MIDNIGHT);
    }

    @Test
    void nothingIsAlwaysThereAndNeverAway() {
        assertThat(texts().read(WeekField.THERE, 0, " ", week)
                        .week()
                        .orElseThrow()
                        .there())
                .isEqualTo(Attendance.ALWAYS);
    }

    @Test
    void anAbsenceRunsFromOneMomentToAnother() {
        assertThat(texts().read(WeekField.AWAY, 0, "Tue 08:00 – Tue 18:00; 2026-12-03 08:00 to 2026-12-03 12:00", week)
                        .week()
                        .orElseThrow()
                        .there()
                        .away())
                .extracting(span -> span.length())
                .containsExactly(Duration.ofHours(10), Duration.ofHours(4));
    }

    @Test
    void whoIsAwayNowWritesDownADayThatHasBegun() {
        assertThat(texts().read(WeekField.AWAY, 0, "Fri 09:00 – Sat 09:00", week)
                        .week()
                        .orElseThrow()
                        .there()
                        .away())
                .extracting(span -> span.length())
                .containsExactly(Duration.ofHours(24));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "DUE | Friday | Found \"Friday\", expected a day and a time",
                "DUE | 2026-02-30 09:00 | which no calendar has",
                "THERE | evenings | \"evenings\" are no hours: write them as Mon-Fri 07:00–22:00",
                "THERE | Mon-Fri 7-22 | are no hours",
                "AWAY | Tuesday | \"Tuesday\" is no absence",
                "AWAY | 2026-12-02 18:00 – 2026-12-02 08:00 | ends before it begins",
                "PACKING | 90 | without a unit",
                "PACKING | 3 days | expected a time",
                "DRYING | 600 h | out of range",
                "WEIGHT | heavy | Found \"heavy\", expected a weight",
                "WEIGHT | 9000 | up to 5000 kg",
                "THICKNESS | -3 | above 0",
                "ROOM | 200 | a temperature from −40",
                "LOAD_NAME | Planters, raw | another load called Planters, raw",
                "LIMIT | hot | expected a temperature",
            })
    void whatIsNoValueIsRefusedInOneSentence(WeekField field, String text, String sentence) {
        int load = field == WeekField.DRYING ? 2 : 1;
        String said = texts().read(field, load, text, week).problem().orElseThrow();
        assertThat(said).contains(sentence).endsWith(".").doesNotContain("\n");
    }

    @Test
    void aNameIsNeverEmpty() {
        assertThat(problem(WeekField.NAME, "  ")).contains("name");
        assertThat(problem(WeekField.LOAD_NAME, "x".repeat(81))).contains("80");
    }
}

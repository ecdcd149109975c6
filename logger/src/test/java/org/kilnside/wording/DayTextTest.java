package org.kilnside.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Days as a potter writes them; the expected days are read off a calendar. */
class DayTextTest {
    private static final LocalDate TODAY = LocalDate.of(2026, 11, 26);

    @ParameterizedTest
    @CsvSource({
        "2026-05-03, 2026-05-03",
        "3 May 2026, 2026-05-03",
        "3 may, 2026-05-03",
        "3rd May, 2026-05-03",
        "May 3, 2026-05-03",
        "'May 3, 2025', 2025-05-03",
        "3 mei, 2026-05-03",
        "3. Mai, 2026-05-03",
        "3. März 2025, 2025-03-03",
        "3 mrt, 2026-03-03",
        "3.5.2026, 2026-05-03",
        "3.5., 2026-05-03",
        "3/5/26, 2026-05-03",
        "3-5-2026, 2026-05-03",
        "24 December, 2025-12-24",
        "26 Nov, 2026-11-26",
        "27 Nov, 2025-11-27",
        "today, 2026-11-26",
        "gisteren, 2026-11-25",
        "gestern, 2026-11-25"
    })
    void aDayHasItsDate(String text, LocalDate expected) {
        assertThat(DayText.day(text, TODAY)).contains(expected);
    }

    @ParameterizedTest
    @CsvSource({
        "2026, 2026-01-01, 2027-01-01",
        "2026-05, 2026-05-01, 2026-06-01",
        "May, 2026-05-01, 2026-06-01",
        "mei 2025, 2025-05-01, 2025-06-01",
        "December, 2025-12-01, 2026-01-01",
        "since May, 2026-05-01, ",
        "sinds mei, 2026-05-01, ",
        "seit März, 2026-03-01, ",
        "since 2026-05, 2026-05-01, ",
        "since yesterday, 2026-11-25, ",
        "until March, , 2026-04-01",
        "tot en met maart, , 2026-04-01",
        "bis 3. Mai, , 2026-05-04",
        "March to May, 2026-03-01, 2026-06-01",
        "from 3 March until 10 May 2025, 2025-03-03, 2025-05-11",
        "November to February, 2025-11-01, 2026-03-01",
        "2026-03-03..2026-03-05, 2026-03-03, 2026-03-06",
        "van maart tot mei, 2026-03-01, 2026-06-01",
        "März – Mai, 2026-03-01, 2026-06-01",
        "3.5.2026 - 5.5.2026, 2026-05-03, 2026-05-06"
    })
    void daysInARowHaveTheirFirstAndTheFirstThatIsNoLongerOfThem(String text, LocalDate from, LocalDate until) {
        assertThat(DayText.days(text, TODAY))
                .contains(new DayText.Days(Optional.ofNullable(from), Optional.ofNullable(until)));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                " ",
                "bisque",
                "31 April",
                "2026-13",
                "2026-02-30",
                "May to March 2020 to",
                "since",
                "0.0.",
                "99",
                "oatmeal may",
                "\u0000",
                "1e9",
                "2026-05-03T10:00",
                "ma",
                "☕ May"
            })
    void whatNamesNoDayIsNone(String text) {
        assertThat(DayText.days(text, TODAY)).isEmpty();
        assertThat(DayText.day(text, TODAY)).isEmpty();
    }

    @Test
    void aLongTextIsNone() {
        assertThat(DayText.days("May ".repeat(2_500), TODAY)).isEmpty();
    }

    @Test
    void aMonthIsNotADay() {
        assertThat(DayText.day("May", TODAY)).isEmpty();
    }
}

package org.kilnside.wording;

import java.text.Normalizer;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.Month;
import java.time.YearMonth;
import java.time.format.TextStyle;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Days as a person writes them: {@code 2026}, {@code 2026-05}, {@code May}, {@code 3 May}, {@code 3.5.2026}, {@code
 * since May}, {@code March to May}, in any of the program's languages.
 *
 * <p>A month or a day without its year is the latest that has begun.
 */
public final class DayText {
    private static final int LONGEST = 60;
    private static final Pattern YEAR = Pattern.compile("((?:19|20)\\d\\d)");
    private static final Pattern YEAR_FIRST = Pattern.compile("((?:19|20)\\d\\d)-(\\d{1,2})(?:-(\\d{1,2}))?");
    private static final Pattern DAY_FIRST =
            Pattern.compile("(\\d{1,2})[./-](\\d{1,2})(?:[./-]((?:19|20)?\\d\\d)|\\.)?");
    private static final Pattern WITH_NAME =
            Pattern.compile("(?:(\\d{1,2})(?:\\.|st|nd|rd|th|e)? )?(\\p{L}{3,})\\.?(?: ((?:19|20)\\d\\d))?");
    private static final Pattern NAME_FIRST = Pattern.compile("(\\p{L}{3,})\\.? (\\d{1,2}),?(?: ((?:19|20)\\d\\d))?");
    private static final Pattern SINCE =
            Pattern.compile("(?:since|from|after|sinds|vanaf|van|na|seit|ab|von|nach) (.+)");
    private static final Pattern UNTIL = Pattern.compile("(?:until|till|to|before|tot en met|tot|voor|bis|vor) (.+)");
    private static final Pattern BETWEEN = Pattern.compile(
            "(?:since |from |sinds |vanaf |van |seit |ab |von )?(.+?) ?(?: until | till | to | tot en met | tot | bis |–|…|\\.\\.| - ) ?(.+)");

    private DayText() {}

    /**
     * Days in a row.
     *
     * @param from the first, if any
     * @param until the first that is no longer of them, if any
     */
    public record Days(Optional<LocalDate> from, Optional<LocalDate> until) {
        public boolean has(LocalDate day) {
            return from.map(first -> !day.isBefore(first)).orElse(true)
                    && until.map(day::isBefore).orElse(true);
        }

        private static Days of(LocalDate from, LocalDate until) {
            return new Days(Optional.of(from), Optional.of(until));
        }
    }

    /** One day; empty when the text names none or more than one. */
    public static Optional<LocalDate> day(String text, LocalDate today) {
        return one(tidy(text), today)
                .filter(days ->
                        days.from().get().plusDays(1).equals(days.until().get()))
                .flatMap(Days::from);
    }

    /** Days from one to another, or since one, or until one, or a whole month or year; empty when the text names none. */
    public static Optional<Days> days(String text, LocalDate today) {
        String plain = tidy(text);
        if (plain.length() > LONGEST) {
            return Optional.empty();
        }
        Optional<Days> one = one(plain, today);
        if (one.isPresent()) {
            return one;
        }
        Matcher between = BETWEEN.matcher(plain);
        if (between.matches()) {
            Optional<Days> last = one(between.group(2), today);
            // "March to May" is of one year: the first is the latest before the last.
            Optional<Days> first =
                    last.flatMap(its -> one(between.group(1), its.until().get().minusDays(1)));
            if (first.isPresent()
                    && first.get().from().get().isBefore(last.get().until().get())) {
                return Optional.of(new Days(first.get().from(), last.get().until()));
            }
        }
        Matcher since = SINCE.matcher(plain);
        if (since.matches()) {
            return one(since.group(1), today).map(days -> new Days(days.from(), Optional.empty()));
        }
        Matcher until = UNTIL.matcher(plain);
        if (until.matches()) {
            return one(until.group(1), today).map(days -> new Days(Optional.empty(), days.until()));
        }
        return Optional.empty();
    }

    private static String tidy(String text) {
        return Normalizer.normalize(text, Normalizer.Form.NFC)
                .strip()
                .toLowerCase(Locale.ROOT)
                .replaceAll("\\s+", " ");
    }

    private static Optional<Days> one(String plain, LocalDate today) {
        try {
            return named(plain, today);
        } catch (DateTimeException e) {
            // There is no 31 April.
            return Optional.empty();
        }
    }

    private static Optional<Days> named(String plain, LocalDate today) {
        switch (plain) {
            case "today", "vandaag", "heute":
                return Optional.of(Days.of(today, today.plusDays(1)));
            case "yesterday", "gisteren", "gestern":
                return Optional.of(Days.of(today.minusDays(1), today));
            default:
        }
        Matcher year = YEAR.matcher(plain);
        if (year.matches()) {
            LocalDate first = LocalDate.of(Integer.parseInt(year.group(1)), 1, 1);
            return Optional.of(Days.of(first, first.plusYears(1)));
        }
        Matcher yearFirst = YEAR_FIRST.matcher(plain);
        if (yearFirst.matches()) {
            return Optional.of(dated(yearFirst.group(3), number(yearFirst.group(2)), yearFirst.group(1), today));
        }
        Matcher dayFirst = DAY_FIRST.matcher(plain);
        if (dayFirst.matches()) {
            String its = dayFirst.group(3);
            return Optional.of(dated(
                    dayFirst.group(1),
                    number(dayFirst.group(2)),
                    its != null && its.length() == 2 ? "20" + its : its,
                    today));
        }
        Matcher withName = WITH_NAME.matcher(plain);
        if (withName.matches() && month(withName.group(2)).isPresent()) {
            return Optional.of(
                    dated(withName.group(1), month(withName.group(2)).get().getValue(), withName.group(3), today));
        }
        Matcher nameFirst = NAME_FIRST.matcher(plain);
        if (nameFirst.matches() && month(nameFirst.group(1)).isPresent()) {
            return Optional.of(
                    dated(nameFirst.group(2), month(nameFirst.group(1)).get().getValue(), nameFirst.group(3), today));
        }
        return Optional.empty();
    }

    private static Days dated(String day, int month, String year, LocalDate today) {
        int its = year != null ? number(year) : today.getYear();
        LocalDate first = day != null
                ? LocalDate.of(its, month, number(day))
                : YearMonth.of(its, month).atDay(1);
        if (year == null && first.isAfter(today)) {
            first = first.minusYears(1);
        }
        return Days.of(first, day != null ? first.plusDays(1) : first.plusMonths(1));
    }

    private static int number(String digits) {
        return Integer.parseInt(digits);
    }

    private static Optional<Month> month(String name) {
        String plain = name.equals("mrt") ? "maart" : name;
        for (Language language : Language.values()) {
            for (Month month : Month.values()) {
                if (month.getDisplayName(TextStyle.FULL, language.locale())
                        .toLowerCase(Locale.ROOT)
                        .startsWith(plain)) {
                    return Optional.of(month);
                }
            }
        }
        return plain.equals("sept") ? Optional.of(Month.SEPTEMBER) : Optional.empty();
    }
}

package org.kilnside.files;

import java.time.DateTimeException;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.time.temporal.TemporalAdjusters;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.kilnside.files.UnitText.NotAQuantityException;

/**
 * Moments and days as a person writes them down for the days ahead: {@code 2026-12-04 09:00}, or {@code Fri 09:00} for
 * the next Friday. Days are named in English, Dutch or German.
 */
public final class MomentText {
    private static final String EXPECTED = "a day and a time such as \"2026-12-04 09:00\" or \"Fri 09:00\"";
    private static final String EXPECTED_DAYS = "days such as \"Mon-Fri\" or \"Sat, Sun\"";
    private static final DateTimeFormatter WRITTEN = DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT);
    private static final Pattern DATED =
            Pattern.compile("(\\d{4})-(\\d{1,2})-(\\d{1,2})[ t]+(\\d{1,2}):(\\d{2})", Pattern.CASE_INSENSITIVE);
    private static final Pattern NAMED = Pattern.compile("(\\p{L}{2,12})\\.? +(\\d{1,2}):(\\d{2})");

    /** By their first two letters, which name the same day in all three languages wherever two of them share them. */
    private static final Map<String, DayOfWeek> DAYS = Map.ofEntries(
            Map.entry("mo", DayOfWeek.MONDAY),
            Map.entry("ma", DayOfWeek.MONDAY),
            Map.entry("tu", DayOfWeek.TUESDAY),
            Map.entry("di", DayOfWeek.TUESDAY),
            Map.entry("we", DayOfWeek.WEDNESDAY),
            Map.entry("wo", DayOfWeek.WEDNESDAY),
            Map.entry("mi", DayOfWeek.WEDNESDAY),
            Map.entry("th", DayOfWeek.THURSDAY),
            Map.entry("do", DayOfWeek.THURSDAY),
            Map.entry("fr", DayOfWeek.FRIDAY),
            Map.entry("vr", DayOfWeek.FRIDAY),
            Map.entry("sa", DayOfWeek.SATURDAY),
            Map.entry("za", DayOfWeek.SATURDAY),
            Map.entry("su", DayOfWeek.SUNDAY),
            Map.entry("so", DayOfWeek.SUNDAY),
            Map.entry("zo", DayOfWeek.SUNDAY));

    private static final List<String> NAMES = List.of(
            "monday",
            "maandag",
            "montag",
            "tuesday",
            "tues",
            "dinsdag",
            "dienstag",
            "wednesday",
            "woensdag",
            "mittwoch",
            "thursday",
            "thur",
            "thurs",
            "donderdag",
            "donnerstag",
            "friday",
            "vrijdag",
            "freitag",
            "saturday",
            "zaterdag",
            "samstag",
            "sunday",
            "zondag",
            "sonntag");

    private MomentText() {}

    /**
     * A moment.
     *
     * @param now a day without a date is the next of its name, not before this
     * @throws NotAQuantityException when the text is none
     */
    public static Instant moment(String text, Instant now, ZoneId zone) {
        String plain = text.strip().toLowerCase(Locale.ROOT);
        Matcher dated = DATED.matcher(plain);
        Matcher named = NAMED.matcher(plain);
        try {
            if (dated.matches()) {
                LocalDate day = LocalDate.of(number(dated, 1), number(dated, 2), number(dated, 3));
                return day.atTime(number(dated, 4), number(dated, 5))
                        .atZone(zone)
                        .toInstant();
            }
            Optional<DayOfWeek> day = named.matches() ? day(named.group(1)) : Optional.empty();
            if (day.isPresent()) {
                LocalTime time = LocalTime.of(number(named, 2), number(named, 3));
                ZonedDateTime today = now.atZone(zone);
                ZonedDateTime next = today.toLocalDate()
                        .with(TemporalAdjusters.nextOrSame(day.get()))
                        .atTime(time)
                        .atZone(zone);
                return (next.isBefore(today) ? next.plusWeeks(1) : next).toInstant();
            }
        } catch (DateTimeException e) {
            throw new NotAQuantityException(
                    "found " + UnitText.quoted(text) + ", which no calendar has; expected " + EXPECTED);
        }
        throw new NotAQuantityException("found " + UnitText.quoted(text) + ", expected " + EXPECTED);
    }

    /** A moment as it is written, to the minute. */
    public static String of(Instant moment, ZoneId zone) {
        return WRITTEN.format(moment.atZone(zone));
    }

    /**
     * Days of the week: {@code Mon-Fri}, {@code Sat, Sun}, {@code every day}.
     *
     * @throws NotAQuantityException when the text holds none, or something else
     */
    public static Set<DayOfWeek> days(String text) {
        String plain = text.strip().toLowerCase(Locale.ROOT).replace('–', '-');
        if (plain.equals("every day")) {
            return EnumSet.allOf(DayOfWeek.class);
        }
        EnumSet<DayOfWeek> days = EnumSet.noneOf(DayOfWeek.class);
        for (String part : plain.split(",", -1)) {
            String[] ends = part.strip().split(" *- *", -1);
            Optional<DayOfWeek> first = day(ends[0]);
            Optional<DayOfWeek> last = day(ends[ends.length - 1]);
            if (ends.length > 2 || first.isEmpty() || last.isEmpty()) {
                throw new NotAQuantityException("found " + UnitText.quoted(text) + ", expected " + EXPECTED_DAYS);
            }
            for (DayOfWeek day = first.get(); day != last.get(); day = day.plus(1)) {
                days.add(day);
            }
            days.add(last.get());
        }
        return days;
    }

    /** Days as they are written: {@code Mon-Fri, Sun}. */
    public static String of(Set<DayOfWeek> days) {
        if (days.size() == DayOfWeek.values().length) {
            return "every day";
        }
        List<String> parts = new ArrayList<>();
        for (DayOfWeek day : DayOfWeek.values()) {
            boolean begins = days.contains(day) && (day == DayOfWeek.MONDAY || !days.contains(day.minus(1)));
            if (begins) {
                DayOfWeek last = day;
                while (last != DayOfWeek.SUNDAY && days.contains(last.plus(1))) {
                    last = last.plus(1);
                }
                parts.add(last == day ? shortName(day) : shortName(day) + "-" + shortName(last));
            }
        }
        return String.join(", ", parts);
    }

    private static String shortName(DayOfWeek day) {
        return day.name().charAt(0) + day.name().substring(1, 3).toLowerCase(Locale.ROOT);
    }

    private static Optional<DayOfWeek> day(String text) {
        String name = text.strip().replace(".", "");
        boolean isOne = name.length() >= 2 && NAMES.stream().anyMatch(each -> each.startsWith(name));
        return isOne ? Optional.ofNullable(DAYS.get(name.substring(0, 2))) : Optional.empty();
    }

    private static int number(Matcher matcher, int group) {
        return Integer.parseInt(matcher.group(group));
    }
}

package org.kilnside.desktop.week;

import java.time.DayOfWeek;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.format.TextStyle;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.kilnside.files.MomentText;
import org.kilnside.files.NightFiles;
import org.kilnside.files.UnitText;
import org.kilnside.files.UnitText.NotAQuantityException;
import org.kilnside.outlook.Ware;
import org.kilnside.quantity.Temperature;
import org.kilnside.week.Attendance;
import org.kilnside.week.Load;
import org.kilnside.week.Span;
import org.kilnside.week.Week;
import org.kilnside.wording.Words;

/**
 * How the values of a week stand in its fields, and what is read from what a person types there. Whatever is typed, there
 * is a week with it or one sentence that says what is wanted. A week so made can be read again from its file.
 */
final class WeekTexts {
    static final String YES = "yes";
    static final String NO = "no";

    private static final int LONGEST_NAME = 80;
    private static final Temperature COLDEST_ROOM = Temperature.ofCelsius(-40);
    private static final Temperature HOTTEST_ROOM = Temperature.ofCelsius(60);
    private static final Duration LONGEST_PACKING = Duration.ofDays(2);
    private static final Duration LONGEST_DRYING = Duration.ofDays(21);
    private static final double HEAVIEST_KG = 5000;
    private static final double THICKEST_MM = 500;
    private static final Pattern HOURS = Pattern.compile("(.*?)\\s*(\\d{1,2}:\\d\\d)\\s*[-–]\\s*(\\d{1,2}:\\d\\d)");
    private static final Pattern AWAY =
            Pattern.compile("(.+\\d:\\d\\d)\\s*(?:-|–|\\bto\\b|\\btot\\b|\\bbis\\b)\\s*(.+)");
    private static final int DAYS_IN_A_WEEK = 7;

    private final Words words;
    private final Instant now;

    /** @param now from when a day without a date is the next of its name */
    WeekTexts(Words words, Instant now) {
        this.words = words;
        this.now = now;
    }

    /** A week with what was typed in it, or why there is none; exactly one of the two. */
    record Typed(Optional<Week> week, Optional<String> problem) {
        private static Typed of(Week week) {
            return new Typed(Optional.of(week), Optional.empty());
        }

        private static Typed problem(String sentence) {
            return new Typed(Optional.empty(), Optional.of(sentence));
        }
    }

    /** A text that is no value; its message is for the person. */
    private static final class Refused extends RuntimeException {
        private static final long serialVersionUID = 1L;

        Refused(String sentence) {
            super(sentence);
        }
    }

    /** What stands in a field. */
    String of(WeekField field, int number, Week week) {
        return switch (field) {
            case NAME -> week.name();
            case KILN -> week.kiln();
            case DUE -> moment(week.due(), week.zone());
            case THERE -> week.there().hours().stream().map(this::hours).collect(Collectors.joining("; "));
            case AWAY ->
                week.there().away().stream()
                        .map(span ->
                                MomentText.of(span.from(), week.zone()) + " – " + MomentText.of(span.to(), week.zone()))
                        .collect(Collectors.joining("; "));
            case PACKING -> words.duration(week.packing());
            case ROOM -> week.room().map(this::temperature).orElse("");
            case FREE -> moment(week.kilnFree(), week.zone());
            case TOP_ALONE -> week.topAlone() ? YES : NO;
            default -> of(field, week.loads().get(number - 1), week.zone());
        };
    }

    private String of(WeekField field, Load load, ZoneId zone) {
        return switch (field) {
            case LOAD_NAME -> load.name();
            case PLAN -> load.planName();
            case LOAD_DUE -> moment(load.due(), zone);
            case READY -> moment(load.ready(), zone);
            case AFTER -> load.after().map(Load.After::load).orElse("");
            case DRYING ->
                load.after().map(after -> words.duration(after.drying())).orElse("");
            case WARE -> load.ware().state().map(Ware.State::name).orElse("");
            case THICKNESS -> number(load.ware().thicknessMm(), " mm");
            case WEIGHT -> number(load.kg(), " kg");
            case LIMIT -> load.ware().limit().map(this::temperature).orElse("");
            case PACKED -> load.packed() ? YES : NO;
            default -> throw new IllegalArgumentException(field + " is none of a load's");
        };
    }

    private static String moment(Optional<Instant> moment, ZoneId zone) {
        return moment.map(its -> MomentText.of(its, zone)).orElse("");
    }

    private String temperature(Temperature temperature) {
        return number(words.preferences().unit().of(temperature)) + " " + words.unit();
    }

    private String number(OptionalDouble value, String unit) {
        return value.isPresent() ? number(value.getAsDouble()) + unit : "";
    }

    private String number(double value) {
        boolean whole = Math.abs(value - Math.rint(value)) < 1e-6;
        return words.number(value, whole ? 0 : 1).replace('\u2212', '-');
    }

    private String hours(Attendance.Hours its) {
        String to = its.to().equals(LocalTime.MIDNIGHT) ? "24:00" : its.to().toString();
        String days = days(its.days());
        return (days.isEmpty() ? "" : days + " ") + its.from() + "–" + to;
    }

    /** Days by their short names in the person's language; all of them need no word. */
    private String days(Set<DayOfWeek> days) {
        List<String> parts = new ArrayList<>();
        for (DayOfWeek day : DayOfWeek.values()) {
            boolean begins = days.contains(day) && (day == DayOfWeek.MONDAY || !days.contains(day.minus(1)));
            if (begins && days.size() < DAYS_IN_A_WEEK) {
                DayOfWeek last = day;
                while (last != DayOfWeek.SUNDAY && days.contains(last.plus(1))) {
                    last = last.plus(1);
                }
                parts.add(last == day ? day(day) : day(day) + "-" + day(last));
            }
        }
        return String.join(", ", parts);
    }

    private String day(DayOfWeek day) {
        return day.getDisplayName(TextStyle.SHORT_STANDALONE, words.language().locale())
                .replace(".", "");
    }

    /** What a text in a field makes of a week. */
    Typed read(WeekField field, int number, String text, Week week) {
        try {
            return Typed.of(field.isOfALoad() ? readLoad(field, number, text, week) : readWeek(field, text, week));
        } catch (Refused | NotAQuantityException e) {
            return Typed.problem(
                    words.sentence(e.getMessage()) + (e.getMessage().endsWith(".") ? "" : "."));
        }
    }

    private Week readWeek(WeekField field, String text, Week week) {
        String typed = text.strip();
        return WeekDraft.changed(week, draft -> {
            switch (field) {
                case NAME -> draft.name = name(typed);
                case KILN -> draft.kiln = typed;
                case DUE -> draft.due = moment(typed, week.zone());
                case THERE ->
                    draft.there = new Attendance(
                            each(typed, this::hours), week.there().away());
                case AWAY ->
                    draft.there = new Attendance(week.there().hours(), each(typed, part -> away(part, week.zone())));
                case PACKING -> draft.packing = typed.isEmpty() ? Week.USUAL_PACKING : duration(typed, LONGEST_PACKING);
                case ROOM -> draft.room = optional(typed, this::room);
                case FREE -> draft.kilnFree = moment(typed, week.zone());
                default -> draft.topAlone = typed.equals(YES);
            }
        });
    }

    private Week readLoad(WeekField field, int number, String text, Week week) {
        String typed = text.strip();
        return switch (field) {
            case LOAD_NAME -> WeekEdits.named(week, number, another(name(typed), number, week));
            case AFTER -> WeekEdits.waitingFor(week, number, Optional.of(typed).filter(name -> !name.isEmpty()));
            case PACKED -> WeekEdits.packed(week, number, typed.equals(YES));
            default -> WeekDraft.changed(week, number, load -> readLoad(field, typed, load, week.zone()));
        };
    }

    private void readLoad(WeekField field, String typed, WeekDraft.OfLoad load, ZoneId zone) {
        Ware ware = load.ware;
        switch (field) {
            case LOAD_DUE -> load.due = moment(typed, zone);
            case READY -> load.ready = moment(typed, zone);
            case DRYING ->
                load.after = load.after.map(after -> new Load.After(
                        after.load(), typed.isEmpty() ? WeekEdits.USUAL_DRYING : duration(typed, LONGEST_DRYING)));
            case WARE ->
                load.ware = new Ware(
                        typed.isEmpty() ? Optional.empty() : Optional.of(Ware.State.valueOf(typed)),
                        ware.thicknessMm(),
                        ware.limit());
            case THICKNESS ->
                load.ware =
                        new Ware(ware.state(), amount(typed, "mm", UnitText::millimetres, THICKEST_MM), ware.limit());
            case WEIGHT -> load.kg = amount(typed, "kg", UnitText::kilograms, HEAVIEST_KG);
            case LIMIT -> load.ware = new Ware(ware.state(), ware.thicknessMm(), optional(typed, its -> degrees(its)));
            default -> throw new IllegalArgumentException(field + " is not typed");
        }
    }

    private String name(String typed) {
        String plain = typed.replaceAll("[\\p{Cntrl}\\p{Cs}]", " ").strip();
        if (plain.isEmpty()) {
            throw new Refused(words.text("week.bad.no_name"));
        }
        if (plain.codePointCount(0, plain.length()) > LONGEST_NAME) {
            throw new Refused(words.text("plans.bad.long", LONGEST_NAME));
        }
        return plain;
    }

    private String another(String name, int number, Week week) {
        for (int i = 0; i < week.loads().size(); i++) {
            if (i != number - 1 && week.loads().get(i).name().equals(name)) {
                throw new Refused(words.text("week.bad.same_name", name));
            }
        }
        return name;
    }

    private Optional<Instant> moment(String typed, ZoneId zone) {
        return optional(typed, text -> MomentText.moment(text, now, zone));
    }

    private static <T> Optional<T> optional(String typed, Function<String, T> reader) {
        return typed.isEmpty() ? Optional.empty() : Optional.of(reader.apply(typed));
    }

    /** A number alone is in the person's own unit. */
    private Temperature degrees(String typed) {
        String plain = typed.replace('\u2212', '-');
        return UnitText.temperature(isNumber(plain) ? plain + " " + words.unit() : plain);
    }

    private Temperature room(String typed) {
        Temperature room = degrees(typed);
        if (room.celsius() < COLDEST_ROOM.celsius() || room.celsius() > HOTTEST_ROOM.celsius()) {
            throw new Refused(words.text(
                    "plans.bad.between", typed, words.temperature(COLDEST_ROOM), words.temperature(HOTTEST_ROOM)));
        }
        return room;
    }

    private OptionalDouble amount(String typed, String unit, Function<String, Double> reader, double most) {
        if (typed.isEmpty()) {
            return OptionalDouble.empty();
        }
        double value = reader.apply(isNumber(typed) ? typed + " " + unit : typed);
        if (value > most) {
            throw new Refused(words.text("plans.bad.above", typed, number(most) + " " + unit));
        }
        return OptionalDouble.of(value);
    }

    private static boolean isNumber(String typed) {
        return typed.matches("[+-]?\\d+([.,]\\d+)?");
    }

    /** 1:30 is an hour and a half; the hour and the minute have a word in each language. */
    private Duration duration(String typed, Duration longest) {
        String plain = typed.toLowerCase(Locale.ROOT)
                .replaceAll("(?<=[0-9 ])(uur|u|std\\.?|stunden?)(?![a-z])", "h")
                .replaceAll("(?<=[0-9 ])(minuten|minuut|min\\.)(?![a-z])", "min")
                .replaceFirst("^(\\d{1,3}):([0-5]\\d)( *h)?$", "$1 h $2 min");
        Duration value = UnitText.duration(plain);
        if (value.isNegative() || value.compareTo(longest) > 0) {
            throw new Refused(words.text("plans.bad.hold_range", typed, words.duration(longest)));
        }
        return value;
    }

    private static <T> List<T> each(String typed, Function<String, T> reader) {
        List<T> all = new ArrayList<>();
        for (String part : typed.split(";", -1)) {
            if (!part.isBlank()) {
                all.add(reader.apply(part.strip()));
            }
        }
        return all;
    }

    private Attendance.Hours hours(String part) {
        Matcher matcher = HOURS.matcher(part);
        if (matcher.matches()) {
            Optional<LocalTime> from = NightFiles.time(matcher.group(2));
            Optional<LocalTime> to = matcher.group(3).equals("24:00")
                    ? Optional.of(LocalTime.MIDNIGHT)
                    : NightFiles.time(matcher.group(3));
            if (from.isPresent() && to.isPresent()) {
                String days = matcher.group(1).strip();
                return new Attendance.Hours(
                        days.isEmpty() ? EnumSet.allOf(DayOfWeek.class) : MomentText.days(days), from.get(), to.get());
            }
        }
        throw new Refused(words.text("week.bad.hours", part, example()));
    }

    private String example() {
        return hours(new Attendance.Hours(
                EnumSet.range(DayOfWeek.MONDAY, DayOfWeek.FRIDAY), LocalTime.of(7, 0), LocalTime.of(22, 0)));
    }

    private Span away(String part, ZoneId zone) {
        Matcher matcher = AWAY.matcher(part);
        if (!matcher.matches()) {
            throw new Refused(words.text("week.bad.away", part));
        }
        Instant first = MomentText.moment(matcher.group(1), now, zone);
        Instant to = MomentText.moment(matcher.group(2), now, zone);
        // Whoever is away now wrote down a day that has begun: the one before the end, not the one after it.
        boolean isDated = matcher.group(1).matches(".*\\d{4}-.*");
        Instant from =
                first.isAfter(to) && !isDated ? first.atZone(zone).minusWeeks(1).toInstant() : first;
        if (!to.isAfter(from)) {
            throw new Refused(words.text("week.bad.away_order", part));
        }
        return new Span(from, to);
    }
}

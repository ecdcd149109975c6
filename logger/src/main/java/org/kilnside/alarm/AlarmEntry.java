package org.kilnside.alarm;

import java.time.Duration;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.TemperatureDifference;

/**
 * An alarm as one line of text, as events in the book hold it: {@code stuck-relay-1 come-now since=8100s seen=1012.4C
 * expected=1000.0C}. Numbers are in fixed units: C and K of temperature and its spans, K/h, s, % of full power, B of room. When a temperature
 * is passed is {@code >1210.0C@51300s..53580s}, and with {@code <} when the kiln comes below it.
 *
 * @param id the alarm's id
 * @param kind what it is about
 * @param grade how bad it is
 * @param sinceMs since when it shows, to the second, ms on the recording's clock
 * @param seen what was seen
 * @param expected what was expected
 */
public record AlarmEntry(
        String id, AlarmKind kind, Grade grade, long sinceMs, Optional<Measure> seen, Optional<Measure> expected) {
    private static final Pattern LINE = Pattern.compile(
            "((.+)-\\d+) (come-now|look-soon|good-to-know) since=(-?\\d+)s(?: seen=(\\S+))?(?: expected=(\\S+))?");
    private static final Pattern PASSING = Pattern.compile("([<>])(-?[0-9.]+)C@(-?\\d+)s\\.\\.(-?\\d+)s");
    private static final Pattern MEASURE = Pattern.compile("(-?[0-9.]+)(C|K|K/h|s|%|B)");

    public static AlarmEntry of(Alarm alarm) {
        return new AlarmEntry(alarm.id(), alarm.kind(), alarm.grade(), alarm.sinceMs(), alarm.seen(), alarm.expected());
    }

    /** The line. */
    public String text() {
        return id + " " + grade.code() + " since=" + Math.round(sinceMs / 1000.0) + "s"
                + seen.map(measure -> " seen=" + text(measure)).orElse("")
                + expected.map(measure -> " expected=" + text(measure)).orElse("");
    }

    /** The entry a line holds; empty when it is none, or of a kind this version does not know. */
    public static Optional<AlarmEntry> parse(String text) {
        Matcher line = LINE.matcher(text);
        if (!line.matches()) {
            return Optional.empty();
        }
        return AlarmKind.of(line.group(2))
                .map(kind -> new AlarmEntry(
                        line.group(1),
                        kind,
                        Grade.valueOf(line.group(3).toUpperCase(Locale.ROOT).replace('-', '_')),
                        Long.parseLong(line.group(4)) * 1000,
                        measure(line.group(5)),
                        measure(line.group(6))));
    }

    /** A quantity with its fixed unit: {@code 1012.4C}. */
    public static String text(Measure measure) {
        return measure.say(new Measure.Sayer<>() {
            @Override
            public String temperature(Temperature value) {
                return number(value.celsius(), "C");
            }

            @Override
            public String difference(TemperatureDifference value) {
                return number(value.kelvin(), "K");
            }

            @Override
            public String rate(HeatingRate value) {
                return number(value.kelvinPerHour(), "K/h");
            }

            @Override
            public String time(Duration value) {
                return value.toSeconds() + "s";
            }

            @Override
            public String power(Share value) {
                return number(value.percent(), "%");
            }

            @Override
            public String bytes(long value) {
                return value + "B";
            }

            @Override
            public String passing(Measure.OfPassing value) {
                return (value.falling() ? "<" : ">")
                        + number(value.temperature().celsius(), "C") + "@" + Math.round(value.fromMs() / 1000.0) + "s.."
                        + Math.round(value.toMs() / 1000.0) + "s";
            }
        });
    }

    private static String number(double value, String unit) {
        return String.format(Locale.ROOT, "%.1f%s", value, unit);
    }

    private static Optional<Measure> measure(String text) {
        if (text == null) {
            return Optional.empty();
        }
        Matcher passing = PASSING.matcher(text);
        if (passing.matches()) {
            return Optional.of(new Measure.OfPassing(
                    Temperature.ofCelsius(Double.parseDouble(passing.group(2))),
                    passing.group(1).equals("<"),
                    Long.parseLong(passing.group(3)) * 1000,
                    Long.parseLong(passing.group(4)) * 1000));
        }
        Matcher found = MEASURE.matcher(text);
        if (!found.matches()) {
            return Optional.empty();
        }
        double value = Double.parseDouble(found.group(1));
        return Optional.of(
                switch (found.group(2)) {
                    case "C" -> Measure.ofCelsius(value);
                    case "K" -> Measure.ofKelvin(value);
                    case "K/h" -> Measure.ofKelvinPerHour(value);
                    case "s" -> Measure.ofMillis(Math.round(value * 1000));
                    case "%" -> Measure.ofShare(value / 100);
                    default -> new Measure.OfBytes(Math.round(value));
                });
    }
}

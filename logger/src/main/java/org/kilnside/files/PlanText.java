package org.kilnside.files;

import java.math.BigDecimal;
import java.time.Duration;
import java.util.function.DoubleUnaryOperator;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;

/**
 * A plan as the text of its file. Reading it back gives the same plan to the last bit: a number that is round in °F
 * and not in °C was written in °F, and is so again.
 */
final class PlanText {
    private PlanText() {}

    static String of(Schedule schedule) {
        StringBuilder text = new StringBuilder(head(schedule));
        for (Segment segment : schedule.segments()) {
            text.append('\n').append(segment(segment));
        }
        return text.toString();
    }

    /** What stands above the segments. */
    static String head(Schedule schedule) {
        StringBuilder text = new StringBuilder();
        line(text, "name", schedule.name());
        schedule.aimsFor().ifPresent(cone -> line(text, "aims_for", cone));
        schedule.clay().ifPresent(clay -> line(text, "clay", clay));
        schedule.notes().ifPresent(notes -> line(text, "notes", notes));
        return text.toString();
    }

    static String segment(Segment segment) {
        StringBuilder text = new StringBuilder("[[segment]]\n");
        if (segment instanceof Segment.Ramp ramp) {
            line(text, "rate", rate(ramp.rate()));
            line(text, "to", temperature(ramp.to()));
            if (!ramp.hold().isZero()) {
                line(text, "hold", duration(ramp.hold()));
            }
        } else {
            line(text, "cool", "free");
        }
        return text.toString();
    }

    static void line(StringBuilder text, String key, String value) {
        if (value.indexOf('\n') < 0) {
            text.append(key).append(" = \"").append(escaped(value)).append("\"\n");
            return;
        }
        text.append(key).append(" = \"\"\"\n");
        String separator = "";
        for (String part : value.split("\n", -1)) {
            text.append(separator).append(escaped(part));
            separator = "\n";
        }
        text.append("\"\"\"\n");
    }

    /** TOML's escapes where it needs them; a "°" stays what it is, for the person who opens the file. */
    private static String escaped(String value) {
        StringBuilder text = new StringBuilder(value.length());
        for (int i = 0; i < value.length(); i++) {
            char c = value.charAt(i);
            if (c == '"' || c == '\\') {
                text.append('\\').append(c);
            } else if (Character.isISOControl(c)) {
                text.append(String.format("\\u%04x", (int) c));
            } else {
                text.append(c);
            }
        }
        return text.toString();
    }

    static String temperature(Temperature temperature) {
        return inItsUnit(
                temperature.celsius(),
                temperature.fahrenheit(),
                f -> Temperature.ofFahrenheit(f).celsius(),
                "");
    }

    static String rate(HeatingRate rate) {
        return inItsUnit(
                rate.kelvinPerHour(),
                rate.fahrenheitDegreesPerHour(),
                f -> HeatingRate.ofFahrenheitPerHour(f).kelvinPerHour(),
                "/h");
    }

    private static String inItsUnit(double celsius, double fahrenheit, DoubleUnaryOperator back, String per) {
        double roundF = Math.rint(fahrenheit * 10) / 10;
        boolean roundInC = celsius == Math.rint(celsius * 10) / 10;
        return !roundInC && back.applyAsDouble(roundF) == celsius
                ? number(roundF) + " °F" + per
                : number(celsius) + " °C" + per;
    }

    static String duration(Duration duration) {
        long minutes = duration.toMinutes();
        if (!duration.equals(Duration.ofMinutes(minutes))) {
            return number(duration.toMillis() / 60_000.0) + " min";
        }
        if (minutes < 60) {
            return minutes + " min";
        }
        return minutes % 60 == 0 ? minutes / 60 + " h" : minutes / 60 + " h " + minutes % 60 + " min";
    }

    /** The shortest decimal that reads back as the same number, never with exactly three decimals: see {@link UnitText}. */
    static String number(double value) {
        BigDecimal shortest = new BigDecimal(Double.toString(value)).stripTrailingZeros();
        BigDecimal plain = shortest.scale() < 0 ? shortest.setScale(0) : shortest;
        return (plain.scale() == 3 ? plain.setScale(4) : plain).toPlainString();
    }
}

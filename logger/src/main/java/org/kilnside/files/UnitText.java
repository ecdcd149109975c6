package org.kilnside.files;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.kilnside.firing.Kiln;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Power;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.TemperatureDifference;
import org.kilnside.quantity.Volume;

/**
 * Quantities as a person writes them: a number, then its unit, always. A decimal point or a decimal comma will do; a
 * separator with exactly three digits behind it is refused, since 1,200 is a thousand to some and one and a bit to
 * others.
 */
public final class UnitText {
    private static final int LONGEST = 60;
    /** Linear: no part of it can match in two ways. */
    private static final Pattern NUMBER = Pattern.compile("([+-]?[0-9]{1,9}(?:[.,][0-9]{1,17})?) ?([^0-9.,+-].*|)");

    private static final Pattern TIME_PART = Pattern.compile("([+-]?[0-9]{1,9}(?:[.,][0-9]{1,17})?) ?([a-z]+) ?(.*)");

    private static final Pattern THOUSANDS = Pattern.compile("[+-]?[1-9][0-9]{0,2}[.,][0-9]{3}");

    private UnitText() {}

    /** A text that is no such quantity; the message says what was found and what was expected. */
    public static final class NotAQuantityException extends RuntimeException {
        private static final long serialVersionUID = 1L;

        NotAQuantityException(String message) {
            super(message);
        }
    }

    /** A temperature in °C or °F: {@code 600 °C}, {@code 1112 F}. */
    public static Temperature temperature(String text) {
        String expected = "a temperature with its unit such as \"600 °C\" or \"1112 °F\"";
        Parts parts = split(text, expected);
        try {
            return scale(parts.unit)
                    .map(scale -> scale == Scale.CELSIUS
                            ? Temperature.ofCelsius(parts.number)
                            : Temperature.ofFahrenheit(parts.number))
                    .orElseThrow(() -> wrongUnit(text, parts.unit, expected));
        } catch (IllegalArgumentException e) {
            throw new NotAQuantityException(
                    "found " + quoted(text) + ", which is below absolute zero; expected " + expected);
        }
    }

    /** A difference of temperatures in °C or °F: {@code 10 °C}, {@code 18 °F}. Any sign. */
    public static TemperatureDifference difference(String text) {
        String expected = "a difference with its unit such as \"10 °C\" or \"18 °F\"";
        Parts parts = split(text, expected);
        return scale(parts.unit)
                .map(scale ->
                        TemperatureDifference.ofKelvin(scale == Scale.CELSIUS ? parts.number : parts.number / 1.8))
                .orElseThrow(() -> wrongUnit(text, parts.unit, expected));
    }

    /** A rate in °C/h, °F/h, °C/min or °F/min: {@code 80 °C/h}, {@code 2 C/min}. Any sign. */
    public static HeatingRate rate(String text) {
        String expected = "a rate with its unit such as \"80 °C/h\" or \"150 °F/h\"";
        Parts parts = split(text, expected);
        String unit = parts.unit.replace(" per ", "/").replace(" ", "");
        int slash = unit.indexOf('/');
        if (slash < 0) {
            throw wrongUnit(text, parts.unit, expected);
        }
        Scale scale = scale(unit.substring(0, slash)).orElseThrow(() -> wrongUnit(text, parts.unit, expected));
        long minutes = minutes(unit.substring(slash + 1)).orElseThrow(() -> wrongUnit(text, parts.unit, expected));
        // One exact factor for a rate by the hour, so that 80 °C/h reads as 80 and not a last digit beside it.
        double perHour = minutes == 60 ? parts.number : parts.number * 60;
        return scale == Scale.CELSIUS ? HeatingRate.ofKelvinPerHour(perHour) : HeatingRate.ofFahrenheitPerHour(perHour);
    }

    /** A length of time in hours, minutes or both: {@code 15 min}, {@code 1 h 30 min}, {@code 1.5 h}. Any sign. */
    public static Duration duration(String text) {
        String expected = "a time with its unit such as \"15 min\" or \"1 h 30 min\"";
        String rest = tidy(text);
        BigDecimal milliseconds = BigDecimal.ZERO;
        boolean first = true;
        do {
            Matcher next = TIME_PART.matcher(rest);
            if (!next.matches()) {
                split(text, expected);
                throw new NotAQuantityException("found " + quoted(text) + ", expected " + expected);
            }
            String unit = next.group(2);
            long minutes = minutes(unit).orElseThrow(() -> wrongUnit(text, unit, expected));
            if (!first && next.group(1).startsWith("-")) {
                throw new NotAQuantityException("found " + quoted(text) + ", expected " + expected);
            }
            BigDecimal part = decimal(text, next.group(1), expected).multiply(BigDecimal.valueOf(minutes * 60_000));
            // "-1 h 30 min" is an hour and a half below nothing, not half an hour.
            milliseconds = milliseconds.signum() < 0 ? milliseconds.subtract(part) : milliseconds.add(part);
            rest = next.group(3);
            first = false;
        } while (!rest.isEmpty());
        return Duration.ofMillis(
                milliseconds.setScale(0, RoundingMode.HALF_EVEN).longValueExact());
    }

    /** A volume in litres: {@code 68 l}. */
    public static Volume volume(String text) {
        String expected = "a volume with its unit such as \"68 l\"";
        Parts parts = split(text, expected);
        return switch (parts.unit) {
            case "l", "litre", "litres", "liter", "liters" -> above(text, parts.number, expected, Volume::ofLitres);
            default -> throw wrongUnit(text, parts.unit, expected);
        };
    }

    /** A power in kW or W: {@code 5.6 kW}. */
    public static Power power(String text) {
        String expected = "a power with its unit such as \"5.6 kW\"";
        Parts parts = split(text, expected);
        return switch (parts.unit) {
            case "kw" -> above(text, parts.number, expected, Power::ofKilowatts);
            case "w" -> above(text, parts.number, expected, Power::new);
            default -> throw wrongUnit(text, parts.unit, expected);
        };
    }

    /** A weight in kilograms, above 0: {@code 38 kg}, {@code 84 lb} (0.45359237 kg, by definition). */
    public static double kilograms(String text) {
        String expected = "a weight with its unit such as \"38 kg\"";
        Parts parts = split(text, expected);
        return switch (parts.unit) {
            case "kg" -> above(text, parts.number, expected, kg -> kg);
            case "lb", "lbs" -> above(text, parts.number, expected, pounds -> pounds * 0.45359237);
            default -> throw wrongUnit(text, parts.unit, expected);
        };
    }

    /** A thickness in millimetres, above 0: {@code 8 mm}, {@code 0.8 cm}, {@code 0.3 in} (25.4 mm, by definition). */
    public static double millimetres(String text) {
        String expected = "a thickness with its unit such as \"8 mm\"";
        Parts parts = split(text, expected);
        return switch (parts.unit) {
            case "mm" -> above(text, parts.number, expected, mm -> mm);
            case "cm" -> above(text, parts.number, expected, cm -> cm * 10);
            case "in", "inch", "inches" -> above(text, parts.number, expected, inches -> inches * 25.4);
            default -> throw wrongUnit(text, parts.unit, expected);
        };
    }

    /** A price in a currency of ISO 4217 by the kWh: {@code 0.30 EUR/kWh}. */
    public static Kiln.Tariff tariff(String text) {
        String expected = "a price with its currency such as \"0.30 EUR/kWh\"";
        Parts parts = split(text, expected);
        String unit = parts.unit.replace(" per ", "/").replace(" ", "");
        if (!unit.matches("[a-z]{3}/kwh")) {
            throw wrongUnit(text, parts.unit, expected);
        }
        if (parts.number < 0) {
            throw new NotAQuantityException("found " + quoted(text) + ", expected " + expected + ", not below 0");
        }
        return new Kiln.Tariff(parts.number, unit.substring(0, 3).toUpperCase(Locale.ROOT));
    }

    private interface OfNumber<T> {
        T of(double number);
    }

    private static <T> T above(String text, double number, String expected, OfNumber<T> made) {
        if (!(number > 0)) {
            throw new NotAQuantityException("found " + quoted(text) + ", expected " + expected + ", above 0");
        }
        return made.of(number);
    }

    private enum Scale {
        CELSIUS,
        FAHRENHEIT
    }

    private record Parts(double number, String unit) {}

    private static Optional<Scale> scale(String unit) {
        return switch (unit.replace(" ", "")) {
            case "°c", "c", "degc", "degreesc", "°celsius", "celsius" -> Optional.of(Scale.CELSIUS);
            case "°f", "f", "degf", "degreesf", "°fahrenheit", "fahrenheit" -> Optional.of(Scale.FAHRENHEIT);
            default -> Optional.empty();
        };
    }

    private static Optional<Long> minutes(String unit) {
        return switch (unit) {
            case "h", "hr", "hrs", "hour", "hours" -> Optional.of(60L);
            case "m", "min", "mins", "minute", "minutes" -> Optional.of(1L);
            default -> Optional.empty();
        };
    }

    private static Parts split(String text, String expected) {
        Matcher matcher = NUMBER.matcher(tidy(text));
        if (!matcher.matches()) {
            throw new NotAQuantityException("found " + quoted(text) + ", expected " + expected);
        }
        double number = decimal(text, matcher.group(1), expected).doubleValue();
        String unit = matcher.group(2).strip();
        if (unit.isEmpty()) {
            throw new NotAQuantityException("found " + quoted(text) + " without a unit, expected " + expected);
        }
        return new Parts(number, unit);
    }

    private static BigDecimal decimal(String text, String number, String expected) {
        if (THOUSANDS.matcher(number).matches()) {
            String joined = number.replace(",", "").replace(".", "");
            String exact = new BigDecimal(number.replace(',', '.'))
                    .stripTrailingZeros()
                    .toPlainString();
            throw new NotAQuantityException("found " + quoted(text) + ", which can be read in two ways; write " + joined
                    + " or " + exact + " to have " + expected);
        }
        return new BigDecimal(number.replace(',', '.'));
    }

    /** Look-alikes that keyboards and office programs make, brought to one spelling. */
    private static String tidy(String text) {
        String cut = text.length() > LONGEST ? text.substring(0, LONGEST) + "…" : text;
        return cut.replace('º', '°')
                .replace('˚', '°')
                .replace("℃", "°C")
                .replace("℉", "°F")
                .replace('−', '-')
                .replace('\u00a0', ' ')
                .replace('\u202f', ' ')
                .replace('\u2009', ' ')
                .strip()
                .replaceAll("\\s+", " ")
                .toLowerCase(Locale.ROOT);
    }

    private static NotAQuantityException wrongUnit(String text, String unit, String expected) {
        return new NotAQuantityException(
                "found " + quoted(text) + " with the unit \"" + unit + "\", expected " + expected);
    }

    static String quoted(String text) {
        String shown = text.length() > LONGEST ? text.substring(0, LONGEST) + "…" : text;
        return "\"" + shown.replaceAll("\\p{Cntrl}", "?") + "\"";
    }
}

package org.kilnside.desktop.plan;

import java.time.Duration;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import org.kilnside.files.UnitText;
import org.kilnside.heatwork.Cone;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlanLimits;
import org.kilnside.wording.Words;

/**
 * What a person types into a field, and how a value stands in one. A number alone is in the person's own unit; a unit
 * typed behind it counts. Whatever is typed, there is a value or one sentence that says what is wanted.
 */
final class FieldText {
    private static final double HEAVIEST_KG = 5000;
    private static final double THICKEST_MM = 500;
    private static final Temperature LOWEST_LIMIT = Temperature.ofCelsius(100);
    private static final Temperature HIGHEST_LIMIT = Temperature.ofCelsius(1500);
    private static final Temperature COLDEST_ROOM = Temperature.ofCelsius(-30);
    private static final Temperature HOTTEST_ROOM = Temperature.ofCelsius(50);
    private static final int LONGEST_QUOTED = 24;

    private final Words words;

    FieldText(Words words) {
        this.words = words;
    }

    /** A value, or why there is none; exactly one of the two. */
    record Typed<T>(Optional<T> value, Optional<String> problem) {
        static <T> Typed<T> of(T value) {
            return new Typed<>(Optional.of(value), Optional.empty());
        }

        static <T> Typed<T> problem(String sentence) {
            return new Typed<>(Optional.empty(), Optional.of(sentence));
        }
    }

    /** The rate's number in the person's unit. */
    String of(HeatingRate rate) {
        return number(words.preferences().unit().of(rate));
    }

    /** The temperature's number in the person's unit. */
    String of(Temperature temperature) {
        return number(words.preferences().unit().of(temperature));
    }

    /** A hold in hours and minutes; nothing for none. */
    String of(Duration hold) {
        if (hold.isZero()) {
            return "";
        }
        long seconds = hold.toSeconds();
        return seconds % 60 == 0 ? words.duration(hold) : number(seconds / 60.0) + " " + words.text("unit.minute");
    }

    /** At most two decimals, none where there are none: 80, 37.5, 37,5. */
    String number(double value) {
        for (int decimals = 0; decimals < 2; decimals++) {
            double scale = decimals == 0 ? 1 : 10;
            if (Math.abs(value - Math.rint(value * scale) / scale) < 1e-6) {
                return words.number(value, decimals).replace('\u2212', '-');
            }
        }
        return words.number(value, 2).replace('\u2212', '-');
    }

    Typed<HeatingRate> rate(String text) {
        String example = of(HeatingRate.ofKelvinPerHour(80));
        String unit = words.unit() + "/" + words.text("unit.hour");
        return quantity(text, words.unit() + "/h", UnitText::rate)
                .map(rate -> PlanLimits.rate(rate)
                        .map(Typed::of)
                        .orElseGet(() -> Typed.problem(words.text(
                                "plans.bad.rate_range",
                                quoted(text),
                                of(PlanLimits.SLOWEST),
                                of(PlanLimits.FASTEST) + " " + unit))))
                .orElseGet(
                        () -> Typed.problem(words.text("plans.bad.rate", quoted(text), example, example + " " + unit)));
    }

    Typed<Temperature> target(String text) {
        String example = of(Temperature.ofCelsius(600));
        return quantity(text, words.unit(), UnitText::temperature)
                .map(to -> PlanLimits.target(to)
                        .map(Typed::of)
                        .orElseGet(() -> Typed.problem(words.text(
                                "plans.bad.target_range",
                                quoted(text),
                                of(PlanLimits.COOLEST_TARGET),
                                words.temperature(PlanLimits.HOTTEST_TARGET)))))
                .orElseGet(() -> Typed.problem(
                        words.text("plans.bad.target", quoted(text), example, example + " " + words.unit())));
    }

    /** Nothing is no hold; a number alone is minutes; 1:30 is an hour and a half. */
    Typed<Duration> hold(String text) {
        if (text.isBlank()) {
            return Typed.of(Duration.ZERO);
        }
        String plain = text.strip()
                .toLowerCase(Locale.ROOT)
                .replaceAll("(?<=[0-9 ])(uur|u|std\\.?|stunden?)(?![a-z])", "h")
                .replaceAll("(?<=[0-9 ])(minuten|minuut|min\\.)(?![a-z])", "min")
                .replaceFirst("^(\\d{1,3}):([0-5]\\d)( *h)?$", "$1 h $2 min");
        return quantity(plain, "min", UnitText::duration)
                .map(hold -> PlanLimits.hold(hold)
                        .map(Typed::of)
                        .orElseGet(() -> Typed.problem(words.text(
                                "plans.bad.hold_range", quoted(text), words.duration(PlanLimits.LONGEST_HOLD)))))
                .orElseGet(() -> Typed.problem(words.text(
                        "plans.bad.hold",
                        quoted(text),
                        words.duration(Duration.ofMinutes(15)),
                        words.duration(Duration.ofMinutes(90)))));
    }

    /** Nothing is no cone. */
    Typed<Optional<Cone>> cone(String text) {
        if (text.isBlank()) {
            return Typed.of(Optional.empty());
        }
        return Cone.find(text)
                .map(cone -> Typed.of(Optional.of(cone)))
                .orElseGet(() -> Typed.problem(words.text("plans.bad.cone", quoted(text))));
    }

    Typed<String> name(String text) {
        String name = text.strip();
        if (name.isEmpty()) {
            return Typed.problem(words.text("plans.bad.no_name"));
        }
        return text(name, PlanLimits.LONGEST_NAME).value().isPresent()
                ? Typed.of(name)
                : Typed.problem(words.text("plans.bad.long", PlanLimits.LONGEST_NAME));
    }

    /** Nothing is no text. */
    Typed<Optional<String>> text(String text, int longest) {
        String kept = text.strip().replaceAll("[\\p{Cntrl}&&[^\n\t]]", "");
        if (kept.codePointCount(0, kept.length()) > longest) {
            return Typed.problem(words.text("plans.bad.long", longest));
        }
        return Typed.of(kept.isEmpty() ? Optional.empty() : Optional.of(kept));
    }

    /** Kilograms; nothing is not weighed. */
    Typed<Optional<Double>> kilograms(String text) {
        return above(text, "kg", HEAVIEST_KG);
    }

    /** Millimetres; nothing is not measured. */
    Typed<Optional<Double>> millimetres(String text) {
        return above(text, "mm", THICKEST_MM);
    }

    /** The highest a clay or glaze bears; nothing is not said. */
    Typed<Optional<Temperature>> limit(String text) {
        return within(text, LOWEST_LIMIT, HIGHEST_LIMIT);
    }

    /** The room's temperature; nothing is the usual one. */
    Typed<Optional<Temperature>> room(String text) {
        return within(text, COLDEST_ROOM, HOTTEST_ROOM);
    }

    private Typed<Optional<Temperature>> within(String text, Temperature lowest, Temperature highest) {
        if (text.isBlank()) {
            return Typed.of(Optional.empty());
        }
        return quantity(text.strip().replace('\u2212', '-'), words.unit(), UnitText::temperature)
                .filter(its -> its.celsius() >= lowest.celsius() && its.celsius() <= highest.celsius())
                .map(its -> Typed.of(Optional.of(its)))
                .orElseGet(() -> Typed.problem(words.text(
                        "plans.bad.between", quoted(text), words.temperature(lowest), words.temperature(highest))));
    }

    private Typed<Optional<Double>> above(String text, String unit, double most) {
        String plain = text.strip().toLowerCase(Locale.ROOT);
        if (plain.isEmpty()) {
            return Typed.of(Optional.empty());
        }
        String number = plain.replaceFirst(" *" + unit + "$", "").replace(',', '.');
        if (number.matches("[0-9]{1,6}(\\.[0-9]{1,6})?")) {
            double value = Double.parseDouble(number);
            if (value > 0 && value <= most) {
                return Typed.of(Optional.of(value));
            }
        }
        return Typed.problem(words.text("plans.bad.above", quoted(text), number(most) + " " + unit));
    }

    private static <T> Optional<T> quantity(String text, String unit, Function<String, T> reader) {
        boolean hasNumberOnly = text.strip().matches("[+-]?[0-9.,]+");
        try {
            return Optional.of(reader.apply(hasNumberOnly ? text.strip() + " " + unit : text));
        } catch (UnitText.NotAQuantityException | ArithmeticException e) {
            return Optional.empty();
        }
    }

    private static String quoted(String text) {
        String plain = text.strip().replaceAll("\\p{Cntrl}", " ");
        return plain.length() <= LONGEST_QUOTED ? plain : plain.substring(0, LONGEST_QUOTED - 1) + "…";
    }
}

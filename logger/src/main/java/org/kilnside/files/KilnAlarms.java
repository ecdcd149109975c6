package org.kilnside.files;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.kilnside.firing.AlarmThresholds;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.TemperatureDifference;

/** The table {@code [alarms]} of a kiln's file: from where on something is an alarm at this kiln. */
final class KilnAlarms {
    private static final List<String> KEYS =
            List.of("over_plan", "over_top", "candling_over", "steam_rate", "quartz_rate", "box", "silence");
    private static final Map<String, String> WORDS = Map.of(
            "overshoot",
            "over_plan",
            "top",
            "over_top",
            "steam",
            "steam_rate",
            "quartz",
            "quartz_rate",
            "silent",
            "silence");

    private KilnAlarms() {}

    static AlarmThresholds read(TomlFields fields) {
        fields.refuseUnknown(KEYS, WORDS, "[alarms]");
        return new AlarmThresholds(
                difference(fields, "over_plan", "10 °C", 5, 100),
                difference(fields, "over_top", "15 °C", 3, 100),
                difference(fields, "candling_over", "8 °C", 2, 50),
                within(fields, "steam_rate", UnitText::rate, "100 °C/h", HeatingRate::kelvinPerHour, 20, 500, "°C/h"),
                within(fields, "quartz_rate", UnitText::rate, "250 °C/h", HeatingRate::kelvinPerHour, 20, 1000, "°C/h"),
                within(fields, "box", UnitText::temperature, "55 °C", Temperature::celsius, 30, 85, "°C"),
                within(
                        fields,
                        "silence",
                        UnitText::duration,
                        "2 min",
                        its -> its.toMillis() / 60_000.0,
                        0.5,
                        60,
                        "min"));
    }

    private static Optional<TemperatureDifference> difference(
            TomlFields fields, String key, String example, double least, double most) {
        return within(fields, key, UnitText::difference, example, TemperatureDifference::kelvin, least, most, "°C");
    }

    private static <T> Optional<T> within(
            TomlFields fields,
            String key,
            Function<String, T> reading,
            String example,
            ToDoubleFunction<T> number,
            double least,
            double most,
            String unit) {
        return fields.quantity(key, reading, example).filter(value -> {
            double found = number.applyAsDouble(value);
            if (found >= least && found <= most) {
                return true;
            }
            fields.problem(
                    key,
                    "\"" + key + "\" is " + PlanText.number(found) + " " + unit + ", expected " + PlanText.number(least)
                            + " to " + PlanText.number(most) + " " + unit + "; check it, or remove the line");
            return false;
        });
    }

    /** The table as text; nothing where all is as usual. */
    static String text(AlarmThresholds alarms) {
        if (alarms.equals(AlarmThresholds.USUAL)) {
            return "";
        }
        StringBuilder text = new StringBuilder("\n[alarms]\n");
        line(text, "over_plan", alarms.overPlan(), KilnAlarms::kelvin);
        line(text, "over_top", alarms.overTop(), KilnAlarms::kelvin);
        line(text, "candling_over", alarms.candlingOver(), KilnAlarms::kelvin);
        line(text, "steam_rate", alarms.steamRate(), PlanText::rate);
        line(text, "quartz_rate", alarms.quartzRate(), PlanText::rate);
        line(text, "box", alarms.box(), PlanText::temperature);
        line(text, "silence", alarms.silence(), KilnAlarms::minutes);
        return text.toString();
    }

    private static <T> void line(StringBuilder text, String key, Optional<T> value, Function<T, String> written) {
        value.ifPresent(its -> PlanText.line(text, key, written.apply(its)));
    }

    private static String kelvin(TemperatureDifference difference) {
        return PlanText.number(difference.kelvin()) + " °C";
    }

    private static String minutes(Duration duration) {
        return PlanText.number(duration.toMillis() / 60_000.0) + " min";
    }
}

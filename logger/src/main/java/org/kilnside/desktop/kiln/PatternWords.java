package org.kilnside.desktop.kiln;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.files.LinePattern;
import org.kilnside.files.LinePattern.Form;
import org.kilnside.files.LinePattern.Place;
import org.kilnside.files.LinePattern.Quantity;
import org.kilnside.files.LinePatternReader;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.Amplifier;
import org.kilnside.wording.Words;

/** A line pattern in a potter's words: which number is what, and what it says just now. */
final class PatternWords {
    private PatternWords() {}

    /** Which number is taken for what, each with its value on this line. */
    static List<GuideStep.Fact> facts(LinePattern pattern, Optional<String> line, Words words) {
        Optional<LinePatternReader.Said> said =
                line.flatMap(text -> new LinePatternReader(pattern).read(text.replace(" …", "")));
        List<GuideStep.Fact> facts = new ArrayList<>();
        for (Map.Entry<Quantity, Place> entry : pattern.places().entrySet()) {
            String where = where(pattern, entry.getValue().at(), words);
            String what = words.named("pattern", entry.getKey()) + unit(entry.getKey(), entry.getValue(), words);
            String now =
                    said.map(values -> value(values, entry.getKey(), words)).orElse("");
            facts.add(new GuideStep.Fact(where, now.isEmpty() ? what : words.text("pattern.now", what, now)));
        }
        return facts;
    }

    /** A place of the line in words. */
    static String where(LinePattern pattern, String place, Words words) {
        return words.text(pattern.form() == Form.COLUMNS ? "pattern.number" : "pattern.word", place);
    }

    /** The next number of the line that could be the temperature in place of the one proposed; empty where there is none. */
    static Optional<String> otherNumber(LinePattern pattern, Optional<String> line) {
        List<String> numbers = line.map(text -> new LinePatternReader(pattern).numbers(text.replace(" …", "")))
                .orElse(List.of());
        if (numbers.size() < 2) {
            return Optional.empty();
        }
        int now = numbers.indexOf(pattern.places().get(Quantity.TEMPERATURE).at());
        return Optional.of(numbers.get((now + 1) % numbers.size()));
    }

    /** An amplifier by its chip's name, which stands on the board. */
    static String amplifier(Amplifier amplifier, Words words) {
        return amplifier == Amplifier.CELSIUS ? words.text("pattern.own_celsius") : amplifier.name();
    }

    private static String unit(Quantity quantity, Place place, Words words) {
        String scale = place.scale() == 1 ? "" : " × " + words.number(place.scale(), decimals(place.scale()));
        return switch (quantity) {
            case TEMPERATURE, SETPOINT, COLD_JUNCTION -> ", " + place.unit() + scale;
            case UPTIME, OUTPUT, SEGMENT -> scale;
        };
    }

    private static int decimals(double scale) {
        return scale >= 1 ? 0 : (int) Math.ceil(-Math.log10(scale));
    }

    private static String value(LinePatternReader.Said said, Quantity quantity, Words words) {
        return switch (quantity) {
            case TEMPERATURE -> degrees(said.temperatureC(), words);
            case SETPOINT -> degrees(said.setpointC(), words);
            case COLD_JUNCTION -> degrees(said.coldJunctionC(), words);
            case OUTPUT ->
                said.output().isPresent() ? words.number(said.output().getAsDouble() * 100, 0) + " %" : "";
            case SEGMENT ->
                said.segment().isPresent() ? String.valueOf(said.segment().getAsInt()) : "";
            case UPTIME ->
                said.uptimeMs().isPresent()
                        ? words.duration(Duration.ofMillis(said.uptimeMs().getAsLong()))
                        : "";
        };
    }

    private static String degrees(OptionalDouble celsius, Words words) {
        return celsius.isPresent() ? words.temperature(Temperature.ofCelsius(celsius.getAsDouble())) : "";
    }
}

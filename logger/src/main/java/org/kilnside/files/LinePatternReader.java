package org.kilnside.files;

import com.google.re2j.Pattern;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.kilnside.files.LinePattern.Place;
import org.kilnside.files.LinePattern.Quantity;

/** Reads lines by a pattern. */
public final class LinePatternReader {
    private final LinePattern pattern;
    private final Optional<Pattern> expression;

    /**
     * What one line said, in °C, shares and ms.
     *
     * @param temperatureC empty when the place holds no number, such as {@code nan} of a torn thermocouple
     */
    public record Said(
            OptionalDouble temperatureC,
            OptionalDouble setpointC,
            OptionalDouble coldJunctionC,
            OptionalDouble output,
            OptionalInt segment,
            OptionalLong uptimeMs) {}

    /** @throws IllegalArgumentException when the expression is none */
    public LinePatternReader(LinePattern pattern) {
        this.pattern = pattern;
        this.expression = pattern.form() == LinePattern.Form.EXPRESSION
                ? Optional.of(Pattern.compile(pattern.detail()))
                : Optional.empty();
    }

    /** What a line says; empty when it is not of this pattern. */
    public Optional<Said> read(String line) {
        Map<String, String> fields = fields(line);
        if (!fields.containsKey(pattern.places().get(Quantity.TEMPERATURE).at())) {
            return Optional.empty();
        }
        OptionalDouble temperature = celsius(fields, Quantity.TEMPERATURE);
        if (temperature.isEmpty() && !saysNothing(fields)) {
            return Optional.empty();
        }
        OptionalDouble segment = number(fields, Quantity.SEGMENT);
        return Optional.of(new Said(
                temperature,
                celsius(fields, Quantity.SETPOINT),
                celsius(fields, Quantity.COLD_JUNCTION),
                output(fields),
                segment.isPresent() && segment.getAsDouble() >= 1 && segment.getAsDouble() <= 99
                        ? OptionalInt.of((int) segment.getAsDouble())
                        : OptionalInt.empty(),
                uptime(fields)));
    }

    /** The places of a line where a plain number stands, in their order on the line. */
    public List<String> numbers(String line) {
        return fields(line).entrySet().stream()
                .filter(field -> LineNumber.of(field.getValue()).isPresent())
                .map(Map.Entry::getKey)
                .toList();
    }

    private Map<String, String> fields(String line) {
        return switch (pattern.form()) {
            case COLUMNS -> LineFields.columns(line, pattern.detail());
            case KEYS -> LineFields.keys(line);
            case JSON -> LineFields.json(line);
            case EXPRESSION -> LineFields.expression(line, expression.orElseThrow());
        };
    }

    /** Whether the temperature's place says in so many words that there is none. */
    private boolean saysNothing(Map<String, String> fields) {
        return fields.get(pattern.places().get(Quantity.TEMPERATURE).at())
                .matches("(?i)nan|null|none|open|err(or)?|fault|-+|\\?+");
    }

    private OptionalDouble number(Map<String, String> fields, Quantity quantity) {
        Place place = pattern.places().get(quantity);
        if (place == null || !fields.containsKey(place.at())) {
            return OptionalDouble.empty();
        }
        OptionalDouble number = LineNumber.of(fields.get(place.at()));
        return number.isPresent() ? OptionalDouble.of(number.getAsDouble() * place.scale()) : number;
    }

    private OptionalDouble celsius(Map<String, String> fields, Quantity quantity) {
        OptionalDouble number = number(fields, quantity);
        if (number.isEmpty()) {
            return number;
        }
        boolean fahrenheit = pattern.places().get(quantity).unit().equals("°F");
        double celsius = fahrenheit ? (number.getAsDouble() - 32) / 1.8 : number.getAsDouble();
        return celsius > -273.15 && celsius < 3_000 ? OptionalDouble.of(celsius) : OptionalDouble.empty();
    }

    private OptionalDouble output(Map<String, String> fields) {
        Place place = pattern.places().get(Quantity.OUTPUT);
        if (place == null || !fields.containsKey(place.at())) {
            return OptionalDouble.empty();
        }
        if (place.unit().equals("on/off")) {
            String said = fields.get(place.at());
            boolean on = said.matches("(?i)on|1|true|heat(ing)?|yes|high|an|aan|ein");
            boolean off = said.matches("(?i)off|0|false|idle|no|low|aus|uit");
            return on || off ? OptionalDouble.of(on ? 1 : 0) : OptionalDouble.empty();
        }
        double whole = switch (place.unit()) {
            case "percent" -> 100;
            case "permille" -> 1000;
            case "of 255" -> 255;
            default -> 1;
        };
        OptionalDouble number = number(fields, Quantity.OUTPUT);
        double share = number.orElse(-1) / whole;
        return share >= 0 && share <= 1 ? OptionalDouble.of(share) : OptionalDouble.empty();
    }

    private OptionalLong uptime(Map<String, String> fields) {
        Place place = pattern.places().get(Quantity.UPTIME);
        if (place == null || !fields.containsKey(place.at())) {
            return OptionalLong.empty();
        }
        double seconds;
        if (place.unit().equals("h:min:s")) {
            OptionalDouble clock = LineNumber.clockSeconds(fields.get(place.at()));
            if (clock.isEmpty()) {
                return OptionalLong.empty();
            }
            seconds = clock.getAsDouble();
        } else {
            OptionalDouble number = number(fields, Quantity.UPTIME);
            if (number.isEmpty()) {
                return OptionalLong.empty();
            }
            seconds = number.getAsDouble()
                    * switch (place.unit()) {
                        case "ms" -> 0.001;
                        case "min" -> 60.0;
                        default -> 1.0;
                    };
        }
        return seconds >= 0 && seconds < 1e10 ? OptionalLong.of(Math.round(seconds * 1000)) : OptionalLong.empty();
    }
}

package org.kilnside.files;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.kilnside.sensor.Probe;

/**
 * How to read the lines a controller prints of its own: where on the line which number stands, in which unit.
 *
 * @param name what the person calls it
 * @param form how the line is built
 * @param detail the separator of columns ({@code "space"} for any blanks, {@code "tab"}, or a character) or the
 *     expression; empty for keys and JSON
 * @param places which number is what; the temperature is always among them
 * @param probe the thermocouple and amplifier whose number the temperature is; {@link Probe#UNKNOWN} for a controller
 *     that works out °C itself
 */
public record LinePattern(String name, Form form, String detail, Map<Quantity, Place> places, Probe probe) {
    /** A pattern of a controller that works out °C itself. */
    public LinePattern(String name, Form form, String detail, Map<Quantity, Place> places) {
        this(name, form, detail, places, Probe.UNKNOWN);
    }

    public LinePattern {
        EnumMap<Quantity, Place> ordered = new EnumMap<>(Quantity.class);
        ordered.putAll(places);
        places = java.util.Collections.unmodifiableMap(ordered);
        if (!places.containsKey(Quantity.TEMPERATURE)) {
            throw new IllegalArgumentException("a line pattern says where the temperature stands");
        }
    }

    /** The same under another name. */
    public LinePattern named(String other) {
        return new LinePattern(other, form, detail, places, probe);
    }

    /** The same for a temperature that this probe's amplifier gives as it is. */
    public LinePattern from(Probe other) {
        return new LinePattern(name, form, detail, places, other);
    }

    /** The same with the temperatures in another unit. */
    public LinePattern in(String temperatureUnit) {
        EnumMap<Quantity, Place> others = new EnumMap<>(Quantity.class);
        places.forEach((quantity, place) -> others.put(
                quantity,
                quantity.units().contains(temperatureUnit)
                        ? new Place(place.at(), temperatureUnit, place.scale())
                        : place));
        return new LinePattern(name, form, detail, others, probe);
    }

    /** The same with the temperature at another place, which is then nothing else. */
    public LinePattern withTemperatureAt(String at) {
        EnumMap<Quantity, Place> others = new EnumMap<>(Quantity.class);
        places.forEach((quantity, place) -> {
            if (!place.at().equals(at)) {
                others.put(quantity, place);
            }
        });
        others.put(
                Quantity.TEMPERATURE,
                new Place(at, places.get(Quantity.TEMPERATURE).unit(), 1));
        return new LinePattern(name, form, detail, others, probe);
    }

    /** How a line is built. */
    public enum Form {
        /** Numbers in a fixed order; a place is a column counted from 1. */
        COLUMNS,
        /** Words, each with its number behind it; a place is the word. */
        KEYS,
        /** One JSON object a line; a place is the names on the way to the number, joined by dots. */
        JSON,
        /** A regular expression (RE2: linear time); a place is a group, by number or name. */
        EXPRESSION
    }

    /** What a number can be. */
    public enum Quantity {
        TEMPERATURE("temperature", List.of("°C", "°F")),
        SETPOINT("setpoint", List.of("°C", "°F")),
        COLD_JUNCTION("cold_junction", List.of("°C", "°F")),
        OUTPUT("output", List.of("percent", "permille", "share", "of 255", "on/off")),
        SEGMENT("segment", List.of("count")),
        UPTIME("uptime", List.of("ms", "s", "min", "h:min:s"));

        private final String title;
        private final List<String> units;

        Quantity(String title, List<String> units) {
            this.title = title;
            this.units = units;
        }

        /** Its name in the file. */
        public String title() {
            return title;
        }

        /** The units it can be in. */
        public List<String> units() {
            return units;
        }
    }

    /**
     * Where a number stands and what it is worth.
     *
     * @param at the column, word, JSON path or group
     * @param unit one of the quantity's units
     * @param scale what the number on the line is multiplied by to be in that unit, such as 0.1
     */
    public record Place(String at, String unit, double scale) {}
}

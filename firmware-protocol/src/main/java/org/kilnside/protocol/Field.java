package org.kilnside.protocol;

import java.util.OptionalInt;

/**
 * The fields of the protocol, as fields.csv gives them; a test holds the two together. An integer field's value lies
 * within its range, or is the value that stands for "unknown".
 */
enum Field {
    THERMOCOUPLE('t', "RK", true, -262_144, 262_143, 999_999),
    COLD_JUNCTION('j', "RK", true, -27_315, 27_315, 99_999),
    FAULT_BITS('f', "RK", true, 0, 127, 255),
    OUTPUT('u', "RK", false, 0, 1000, 9999),
    SETPOINT('s', "RK", false, -2731, 20_000, 99_999),
    SEGMENT('g', "RK", false, 1, 99, 0),
    KEPT_MINUTE('o', "K", false, -10_080, 71_582),
    SPAN('x', "K", false, 1, 60),
    ASKED_MINUTE('o', "E", false, -10_080, 71_582),
    LINES_SENT('n', "E", false, 0, 65_535),
    VERSION('v', "H", false, 1, 255),
    DEVICE('d', "H", false),
    FIRMWARE('w', "H", false),
    CHANNELS('n', "H", false, 1, 4, 0),
    THERMOCOUPLE_TYPE('p', "H", true),
    AMPLIFIER('a', "H", true),
    LINE_INTERVAL('i', "H", false, 50, 600_000, 0),
    MINUTES_KEPT('k', "H", false, 0, 10_080, 65_535),
    RESET_CAUSE('r', "H", false, 0, 31, 255);

    final char key;
    final String kinds;
    final boolean perChannel;
    final boolean text;
    final int minimum;
    final int maximum;
    final OptionalInt unknown;

    /** A text field. */
    Field(char key, String kinds, boolean perChannel) {
        this(key, kinds, perChannel, true, 0, 0, OptionalInt.empty());
    }

    /** A field that must be known. */
    Field(char key, String kinds, boolean perChannel, int minimum, int maximum) {
        this(key, kinds, perChannel, false, minimum, maximum, OptionalInt.empty());
    }

    Field(char key, String kinds, boolean perChannel, int minimum, int maximum, int unknown) {
        this(key, kinds, perChannel, false, minimum, maximum, OptionalInt.of(unknown));
    }

    Field(char key, String kinds, boolean perChannel, boolean text, int minimum, int maximum, OptionalInt unknown) {
        this.key = key;
        this.kinds = kinds;
        this.perChannel = perChannel;
        this.text = text;
        this.minimum = minimum;
        this.maximum = maximum;
        this.unknown = unknown;
    }

    private static final Field[][] BY_KIND_AND_KEY = byKindAndKey();

    /** The field a key of two letters at most means in a line of a kind; null where the protocol gives it no meaning. */
    static Field of(int kind, int key) {
        return BY_KIND_AND_KEY[kind - 'A'][key - 'a'];
    }

    boolean allows(int value) {
        return value >= minimum && value <= maximum || unknown.isPresent() && value == unknown.getAsInt();
    }

    /** The value, or empty where it is the one that stands for "unknown". */
    OptionalInt known(int value) {
        return value >= minimum && value <= maximum ? OptionalInt.of(value) : OptionalInt.empty();
    }

    private static Field[][] byKindAndKey() {
        Field[][] table = new Field[26][26];
        for (Field field : values()) {
            for (char kind : field.kinds.toCharArray()) {
                table[kind - 'A'][field.key - 'a'] = field;
            }
        }
        return table;
    }
}

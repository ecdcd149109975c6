package org.kilnside.protocol;

import java.util.Arrays;
import java.util.Optional;
import java.util.OptionalInt;

/** The codes each amplifier can give, as amplifiers.csv has them; a code outside is unknown. */
public enum AmplifierCodes {
    MAX31855(-8192, 8191, -2048, 2047),
    MAX31856(-262_144, 262_143, -8192, 8191),
    /** Reports no cold junction. */
    MAX6675(0, 4095, 1, 0),
    CELSIUS(-27_315, 200_000, -27_315, 27_315);

    private final int thermocoupleMinimum;
    private final int thermocoupleMaximum;
    private final int coldJunctionMinimum;
    private final int coldJunctionMaximum;

    AmplifierCodes(int thermocoupleMinimum, int thermocoupleMaximum, int coldJunctionMinimum, int coldJunctionMaximum) {
        this.thermocoupleMinimum = thermocoupleMinimum;
        this.thermocoupleMaximum = thermocoupleMaximum;
        this.coldJunctionMinimum = coldJunctionMinimum;
        this.coldJunctionMaximum = coldJunctionMaximum;
    }

    /** The amplifier of a name as the wire spells it; empty when this version does not know it. */
    public static Optional<AmplifierCodes> named(String name) {
        return Arrays.stream(values())
                .filter(amplifier -> amplifier.name().equals(name))
                .findFirst();
    }

    /** Whether the amplifier can give this thermocouple code. */
    public boolean givesThermocouple(int code) {
        return code >= thermocoupleMinimum && code <= thermocoupleMaximum;
    }

    /** Whether the amplifier can give this cold-junction code. */
    public boolean givesColdJunction(int code) {
        return code >= coldJunctionMinimum && code <= coldJunctionMaximum;
    }

    /** The code, or empty where the amplifier cannot have given it. */
    public OptionalInt thermocouple(OptionalInt code) {
        return code.isPresent() && givesThermocouple(code.getAsInt()) ? code : OptionalInt.empty();
    }

    /** The code, or empty where the amplifier cannot have given it. */
    public OptionalInt coldJunction(OptionalInt code) {
        return code.isPresent() && givesColdJunction(code.getAsInt()) ? code : OptionalInt.empty();
    }
}

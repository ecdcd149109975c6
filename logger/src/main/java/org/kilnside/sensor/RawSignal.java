package org.kilnside.sensor;

import java.util.OptionalInt;

/**
 * What the amplifier said about one channel, to the code.
 *
 * @param thermocouple the thermocouple code in steps of {@link Amplifier#thermocoupleStepC()}; empty when unknown
 * @param coldJunction the cold-junction code in steps of {@link Amplifier#coldJunctionStepC()}; empty when unknown
 * @param faultBits the bits of {@link SensorFault}; 0 = none reported
 */
public record RawSignal(OptionalInt thermocouple, OptionalInt coldJunction, int faultBits) {
    public static RawSignal of(int thermocouple, int coldJunction) {
        return new RawSignal(OptionalInt.of(thermocouple), OptionalInt.of(coldJunction), 0);
    }
}

package org.kilnside.sensor;

import java.util.OptionalDouble;

/**
 * What stands between thermocouple and controller, and what one step of its codes is worth.
 *
 * <p>Codes are kept in the book exactly as the chip gave them; the step turns them into °C as the chip means them,
 * which for an amplifier that does not linearise is not yet the true temperature.
 */
public enum Amplifier {
    /** Maxim 19-5793: 14-bit code of 0.25 °C, 12-bit cold junction of 0.0625 °C, does not linearise. */
    MAX31855(0.25, 0.0625, false, -270, 1800),
    /** 19-bit code of 2⁻⁷ °C, cold junction of 2⁻⁶ °C, linearised inside the chip. */
    MAX31856(0.0078125, 0.015625, true, -210, 1800),
    /** Maxim 19-2235: 12-bit code of 0.25 °C, no cold junction in the frame, does not linearise, ends at 1023.75 °C. */
    MAX6675(0.25, 0, false, 0, 1023.75),
    /** The controller gives °C it has worked out itself: codes of 0.01 °C, taken as they are. */
    CELSIUS(0.01, 0.01, true, -273.15, 20_000);

    /** µV/K of a MAX6675, a chip for type K alone. Maxim 19-2235: V = 41 µV/°C × (T_R − T_AMB). */
    private static final double MAX6675_MV_PER_K = 0.041;

    private final double thermocoupleStepC;
    private final double coldJunctionStepC;
    private final boolean linearises;
    private final double lowestC;
    private final double highestC;

    Amplifier(double thermocoupleStepC, double coldJunctionStepC, boolean linearises, double lowestC, double highestC) {
        this.thermocoupleStepC = thermocoupleStepC;
        this.coldJunctionStepC = coldJunctionStepC;
        this.linearises = linearises;
        this.lowestC = lowestC;
        this.highestC = highestC;
    }

    /**
     * Whether there is such a chip for a type: a MAX6675 for type K alone (Maxim 19-2235), a MAX31855 for every type but B
     * (Maxim 19-5793), and what linearises for every type.
     */
    public boolean isMadeFor(ThermocoupleType type) {
        return this == MAX6675
                ? type == ThermocoupleType.K
                : linearises || nominalMvPerK(type).isPresent();
    }

    /** °C per step of the thermocouple code. */
    public double thermocoupleStepC() {
        return thermocoupleStepC;
    }

    /** °C per step of the cold-junction code; 0 where the chip does not report one. */
    public double coldJunctionStepC() {
        return coldJunctionStepC;
    }

    /** Whether the chip itself follows the thermocouple's curve. */
    public boolean linearises() {
        return linearises;
    }

    /** The lowest number, in °C as the chip means it, that the chip gives. */
    public double lowestC() {
        return lowestC;
    }

    /** The highest number, in °C as the chip means it, that the chip gives: there it saturates. */
    public double highestC() {
        return highestC;
    }

    /**
     * The one sensitivity, in mV/K, with which a chip that does not linearise turns a voltage into degrees; empty for
     * a chip that linearises, and for type B, for which no such chip is made.
     *
     * <p>Maxim 19-5793, table 1: K 41.276 µV/°C (read in the data sheet); the others from memory, each equal to the
     * printed ITS-90 emf at 1000 °C (type T: 400 °C) over that temperature.
     */
    public OptionalDouble nominalMvPerK(ThermocoupleType type) {
        return switch (this) {
            case MAX31855 ->
                switch (type) {
                    case K -> OptionalDouble.of(0.041276);
                    case J -> OptionalDouble.of(0.057953);
                    case N -> OptionalDouble.of(0.036256);
                    case S -> OptionalDouble.of(0.009587);
                    case T -> OptionalDouble.of(0.05218);
                    case E -> OptionalDouble.of(0.076373);
                    case R -> OptionalDouble.of(0.010506);
                    case B -> OptionalDouble.empty();
                };
            case MAX6675 -> OptionalDouble.of(MAX6675_MV_PER_K);
            case MAX31856, CELSIUS -> OptionalDouble.empty();
        };
    }
}

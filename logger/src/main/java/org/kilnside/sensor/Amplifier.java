package org.kilnside.sensor;

/**
 * What stands between thermocouple and controller, and what one step of its codes is worth.
 *
 * <p>Codes are kept in the book exactly as the chip gave them; the step turns them into °C as the chip means them,
 * which for an amplifier that does not linearise is not yet the true temperature.
 */
public enum Amplifier {
    /** Maxim 19-5793: 14-bit code of 0.25 °C, 12-bit cold junction of 0.0625 °C, does not linearise. */
    MAX31855(0.25, 0.0625, false),
    /** 19-bit code of 2⁻⁷ °C, cold junction of 2⁻⁶ °C, linearised inside the chip. */
    MAX31856(0.0078125, 0.015625, true),
    /** Maxim 19-2235: 12-bit code of 0.25 °C, no cold junction in the frame, does not linearise, ends at 1023.75 °C. */
    MAX6675(0.25, 0, false),
    /** The controller gives °C it has worked out itself: codes of 0.01 °C, taken as they are. */
    CELSIUS(0.01, 0.01, true);

    private final double thermocoupleStepC;
    private final double coldJunctionStepC;
    private final boolean linearises;

    Amplifier(double thermocoupleStepC, double coldJunctionStepC, boolean linearises) {
        this.thermocoupleStepC = thermocoupleStepC;
        this.coldJunctionStepC = coldJunctionStepC;
        this.linearises = linearises;
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
}

package org.kilnside.sensor;

/** What stands behind one channel of the controller: a thermocouple and the amplifier that reads it. */
public record Probe(ThermocoupleType type, Amplifier amplifier) {
    /** Until the controller has said what it has: type K whose °C are taken as they are. */
    public static final Probe UNKNOWN = new Probe(ThermocoupleType.K, Amplifier.CELSIUS);
}

package org.kilnside.sensor;

/** The letter-designated thermocouples of IEC 60584-1. */
public enum ThermocoupleType {
    K,
    N,
    S,
    R,
    B,
    J,
    T,
    E
}

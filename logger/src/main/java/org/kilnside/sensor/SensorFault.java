package org.kilnside.sensor;

import java.util.EnumSet;
import java.util.Set;

/** What the amplifier itself reports as wrong. No fault reported does not prove a good sensor. */
public enum SensorFault {
    OPEN_CIRCUIT(1),
    SHORT_TO_GROUND(2),
    SHORT_TO_SUPPLY(4),
    OUT_OF_RANGE(8),
    COLD_JUNCTION_OUT_OF_RANGE(16),
    INPUT_VOLTAGE(32),
    /** The chip does not answer on its bus. */
    NO_ANSWER(64);

    private final int bit;

    SensorFault(int bit) {
        this.bit = bit;
    }

    /** The bit by which the wire and the book know this fault. */
    public int bit() {
        return bit;
    }

    public static Set<SensorFault> ofBits(int bits) {
        EnumSet<SensorFault> faults = EnumSet.noneOf(SensorFault.class);
        for (SensorFault fault : values()) {
            if ((bits & fault.bit) != 0) {
                faults.add(fault);
            }
        }
        return faults;
    }
}

package org.kilnside.firing;

import java.util.Optional;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.RawSignal;

/**
 * One thermocouple channel of one reading.
 *
 * @param number 1 is the channel that guides; more are witnesses
 * @param raw what the amplifier said, to the code
 * @param temperature at the tip, corrected; empty when faulted or unknown
 * @param coldJunction at the amplifier's terminals; empty when it does not say
 */
public record Channel(
        int number, RawSignal raw, Optional<Temperature> temperature, Optional<Temperature> coldJunction) {
    public Channel {
        if (number < 1) {
            throw new IllegalArgumentException("channels count from 1, found " + number);
        }
    }
}

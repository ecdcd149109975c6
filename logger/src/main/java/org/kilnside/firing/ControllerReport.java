package org.kilnside.firing;

import java.util.Optional;
import java.util.OptionalInt;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;

/**
 * What the controller says of itself beside the temperature; each part empty when it does not say.
 *
 * @param output element output, 0 … 1
 * @param setpoint what it is steering for now
 * @param segment the segment it is in, counted from 1
 */
public record ControllerReport(Optional<Share> output, Optional<Temperature> setpoint, OptionalInt segment) {
    public static final ControllerReport NONE =
            new ControllerReport(Optional.empty(), Optional.empty(), OptionalInt.empty());
}

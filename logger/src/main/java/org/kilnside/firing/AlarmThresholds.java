package org.kilnside.firing;

import java.time.Duration;
import java.util.Optional;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.TemperatureDifference;

/**
 * From where on something is an alarm at one kiln, where its owner wants it otherwise than usual; the usual numbers and
 * their reasons are the alarms' own.
 *
 * @param overPlan heating that should not be counts from so much above set-point or plan
 * @param overTop so much above the plan's top is above its maximum
 * @param candlingOver so much above a hold below the boiling point
 * @param steamRate the fastest from 90 to 130 °C
 * @param quartzRate the fastest from 555 to 595 °C, either way
 * @param box the hottest the controller's box may be
 * @param silence nothing from the controller for this long
 */
public record AlarmThresholds(
        Optional<TemperatureDifference> overPlan,
        Optional<TemperatureDifference> overTop,
        Optional<TemperatureDifference> candlingOver,
        Optional<HeatingRate> steamRate,
        Optional<HeatingRate> quartzRate,
        Optional<Temperature> box,
        Optional<Duration> silence) {
    /** As usual. */
    public static final AlarmThresholds USUAL = new AlarmThresholds(
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty());
}

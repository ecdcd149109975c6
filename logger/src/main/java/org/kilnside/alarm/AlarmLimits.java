package org.kilnside.alarm;

import java.time.Duration;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.firing.AlarmThresholds;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.TemperatureDifference;

/**
 * From where on something is an alarm, for one kiln and its load. Each default has its reason beside it; a kiln's own
 * numbers replace them.
 *
 * @param silence nothing from the controller for this long. 90 s: half a minute inside the two minutes promised; a
 *     controller that prints each minute gets three of its intervals, at least 3 min
 * @param overPlan so much above the plan is heating that should not be. 10 K: above noise and regulation, below harm
 * @param overMaximum so much above a maximum counts. 2 K: a reading's noise, no more
 * @param kilnMaximum the maker's; empty = not known, and not guessed
 * @param wareMaximum what clay and glaze stand; empty = not known
 * @param overTop so much above the plan's own highest temperature is above its maximum. 15 K: a hold's overshoot at the
 *     top is a few kelvin; a cone is 15–20 K
 * @param rateMaximum the fastest the kiln's maker allows; empty = not known
 * @param steamRate too fast from 90 to 130 °C for raw ware. 100 K/h: damp ware bursts (common practice: 50–100 K/h)
 * @param quartzRate too fast from 550 to 600 °C, either way. 250 K/h: shelves and thick ware crack (common practice)
 * @param candlingOver so much above a hold below 100 °C. 8 K: 85 °C is held so that nothing boils
 * @param boxMaximum of the controller's box. 55 °C: amplifiers promise their numbers up to 85 °C and drift long before
 * @param diskFreeBytes less room than this is too little. 200 MB: a day at ten lines a second is 30 MB, and the system
 *     needs the rest
 * @param stillTrueAfter an acknowledged alarm that is still true is raised again after this long. 10 min: long enough to walk there
 * @param lid below this the lid may be cracked, in the opinion of the kiln's file
 * @param unload below this the ware may be unloaded, in the same opinion
 * @param forecastMoved a forecast that moved by more than this is told. 30 min
 */
public record AlarmLimits(
        Duration silence,
        TemperatureDifference overPlan,
        TemperatureDifference overMaximum,
        Optional<Temperature> kilnMaximum,
        Optional<Temperature> wareMaximum,
        TemperatureDifference overTop,
        Optional<HeatingRate> rateMaximum,
        HeatingRate steamRate,
        HeatingRate quartzRate,
        TemperatureDifference candlingOver,
        Temperature boxMaximum,
        long diskFreeBytes,
        Duration stillTrueAfter,
        Temperature lid,
        Temperature unload,
        Duration forecastMoved) {
    /** Where nothing is known of the kiln. */
    public static final AlarmLimits USUAL = new AlarmLimits(
            Duration.ofSeconds(90),
            TemperatureDifference.ofKelvin(10),
            TemperatureDifference.ofKelvin(2),
            Optional.empty(),
            Optional.empty(),
            TemperatureDifference.ofKelvin(15),
            Optional.empty(),
            HeatingRate.ofKelvinPerHour(100),
            HeatingRate.ofKelvinPerHour(250),
            TemperatureDifference.ofKelvin(8),
            Temperature.ofCelsius(55),
            200_000_000L,
            Duration.ofMinutes(10),
            Temperature.ofCelsius(120),
            Temperature.ofCelsius(50),
            Duration.ofMinutes(30));

    /** The same, knowing the maker's limits and the temperatures for lid and unloading. */
    public AlarmLimits forKiln(
            Optional<Temperature> highest, Optional<HeatingRate> fastest, Temperature crack, Temperature below) {
        return new AlarmLimits(
                silence,
                overPlan,
                overMaximum,
                highest,
                wareMaximum,
                overTop,
                fastest,
                steamRate,
                quartzRate,
                candlingOver,
                boxMaximum,
                diskFreeBytes,
                stillTrueAfter,
                crack,
                below,
                forecastMoved);
    }

    /** The same with what the kiln's owner wants otherwise than usual. */
    public AlarmLimits with(AlarmThresholds own) {
        return new AlarmLimits(
                own.silence().orElse(silence),
                own.overPlan().orElse(overPlan),
                overMaximum,
                kilnMaximum,
                wareMaximum,
                own.overTop().orElse(overTop),
                rateMaximum,
                own.steamRate().orElse(steamRate),
                own.quartzRate().orElse(quartzRate),
                own.candlingOver().orElse(candlingOver),
                own.box().orElse(boxMaximum),
                diskFreeBytes,
                stillTrueAfter,
                lid,
                unload,
                forecastMoved);
    }

    /** The same, knowing what the ware stands. */
    public AlarmLimits forWare(Temperature highest) {
        return new AlarmLimits(
                silence,
                overPlan,
                overMaximum,
                kilnMaximum,
                Optional.of(highest),
                overTop,
                rateMaximum,
                steamRate,
                quartzRate,
                candlingOver,
                boxMaximum,
                diskFreeBytes,
                stillTrueAfter,
                lid,
                unload,
                forecastMoved);
    }

    /** The lowest maximum that is known of kiln and ware, °C. */
    OptionalDouble lowestMaximumC() {
        return java.util.stream.Stream.of(kilnMaximum, wareMaximum)
                .flatMap(Optional::stream)
                .mapToDouble(Temperature::celsius)
                .min();
    }
}

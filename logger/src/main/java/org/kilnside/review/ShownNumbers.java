package org.kilnside.review;

import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.Thermometer;

/** Between what a sensor reads and the number of a controller that shows, and fires by, what its amplifier says as it is. */
final class ShownNumbers {
    /** The controller's box beside a hot kiln (common practice). */
    static final Temperature BOX = Temperature.ofCelsius(30);

    private final Thermometer thermometer;

    ShownNumbers(Probe probe) {
        this.thermometer = Thermometer.of(probe);
    }

    /** What stands behind a number shown, °C; the number itself where no such thermocouple can be behind it. */
    double behind(double shownC) {
        return thermometer
                .behind(Temperature.ofCelsius(shownC), BOX)
                .map(Temperature::celsius)
                .orElse(shownC);
    }

    /** What is shown at a reading, °C. */
    double shownAt(double readC) {
        return thermometer
                .shownAt(Temperature.ofCelsius(readC), BOX)
                .map(Temperature::celsius)
                .orElse(readC);
    }
}

package org.kilnside.review;

import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.Thermometer;

/** Between what a sensor reads and the number of a controller that shows, and fires by, what its amplifier says as it is. */
final class ShownNumbers {
    /** The controller's box beside a hot kiln (common practice). */
    static final Temperature BOX = Temperature.ofCelsius(30);

    /** Every so many half minutes are enough. */
    private static final int EVERY = 4;

    private static final int FEWEST = 8;

    /** Where number and truth differ by less, lag and swing say more than they do, K. */
    private static final double APART_K = 6;

    /** Further off, a set-point is not being followed, K. */
    private static final double STEERED_K = 30;

    private static final double CLEARLY_K = 2.5;

    private final Thermometer thermometer;

    ShownNumbers(Probe probe) {
        this.thermometer = Thermometer.of(probe);
    }

    /**
     * Whether the set-points beside the readings, given as the truth behind a number shown, lie nearer to the readings when
     * they are taken as they were written: then the controller corrects by itself.
     */
    boolean areCorrected(Bins bins) {
        double nearerK = 0;
        int count = 0;
        for (int i = 0; i < bins.size; i += EVERY) {
            double shownC = Double.isNaN(bins.setpoint[i]) ? Double.NaN : shownAt(bins.setpoint[i]);
            boolean steered = Math.abs(bins.setpoint[i] - bins.celsius[i]) < STEERED_K
                    || Math.abs(shownC - bins.celsius[i]) < STEERED_K;
            if (steered && Math.abs(shownC - bins.setpoint[i]) > APART_K) {
                nearerK += Math.abs(bins.setpoint[i] - bins.celsius[i]) - Math.abs(shownC - bins.celsius[i]);
                count++;
            }
        }
        return count > FEWEST && nearerK / count > CLEARLY_K;
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

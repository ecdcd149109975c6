package org.kilnside.quantity;

import java.time.Duration;

/**
 * How fast a temperature changes; positive = heating.
 *
 * @param kelvinPerHour span per hour in K/h (the trade writes °C/h), finite
 */
public record HeatingRate(double kelvinPerHour) implements Comparable<HeatingRate> {
    public HeatingRate {
        if (!Double.isFinite(kelvinPerHour)) {
            throw new IllegalArgumentException("a heating rate is a finite number, found " + kelvinPerHour);
        }
    }

    public static HeatingRate ofKelvinPerHour(double kelvinPerHour) {
        return new HeatingRate(kelvinPerHour);
    }

    public static HeatingRate ofFahrenheitPerHour(double degreesPerHour) {
        return new HeatingRate(degreesPerHour / 1.8);
    }

    /**
     * The mean rate over a span of time.
     *
     * @throws IllegalArgumentException when the time is not longer than nothing
     */
    public static HeatingRate between(TemperatureDifference difference, Duration time) {
        if (time.isNegative() || time.isZero()) {
            throw new IllegalArgumentException("a rate needs a time longer than 0 s, found " + time);
        }
        return new HeatingRate(difference.kelvin() / (time.toMillis() / 3_600_000.0));
    }

    public double fahrenheitDegreesPerHour() {
        return kelvinPerHour * 1.8;
    }

    @Override
    public int compareTo(HeatingRate other) {
        return Double.compare(kelvinPerHour, other.kelvinPerHour);
    }
}

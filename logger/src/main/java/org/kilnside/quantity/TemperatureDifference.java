package org.kilnside.quantity;

/**
 * A span between two temperatures. One kelvin is one degree Celsius of span and 1.8 degrees Fahrenheit; no 32 is ever
 * added.
 *
 * @param kelvin the span in kelvin, finite; negative = colder
 */
public record TemperatureDifference(double kelvin) implements Comparable<TemperatureDifference> {
    public TemperatureDifference {
        if (!Double.isFinite(kelvin)) {
            throw new IllegalArgumentException("a temperature difference is a finite number, found " + kelvin);
        }
    }

    public static TemperatureDifference ofKelvin(double kelvin) {
        return new TemperatureDifference(kelvin);
    }

    public static TemperatureDifference ofFahrenheit(double degrees) {
        return new TemperatureDifference(degrees / 1.8);
    }

    public double fahrenheitDegrees() {
        return kelvin * 1.8;
    }

    public TemperatureDifference abs() {
        return new TemperatureDifference(Math.abs(kelvin));
    }

    @Override
    public int compareTo(TemperatureDifference other) {
        return Double.compare(kelvin, other.kelvin);
    }
}

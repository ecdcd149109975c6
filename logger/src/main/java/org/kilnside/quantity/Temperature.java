package org.kilnside.quantity;

/**
 * A point on the temperature scale. Held in °C; a span is a {@link TemperatureDifference}.
 *
 * @param celsius degrees Celsius, finite, not below absolute zero (−273.15 °C)
 */
public record Temperature(double celsius) implements Comparable<Temperature> {
    /** 0 °C in kelvin, exactly (SI brochure, 9th ed.). */
    public static final double ZERO_CELSIUS_K = 273.15;

    public Temperature {
        if (!(celsius >= -ZERO_CELSIUS_K) || celsius == Double.POSITIVE_INFINITY) {
            throw new IllegalArgumentException("a temperature is a number above -273.15 °C, found " + celsius);
        }
    }

    public static Temperature ofCelsius(double celsius) {
        return new Temperature(celsius);
    }

    public static Temperature ofFahrenheit(double fahrenheit) {
        return new Temperature((fahrenheit - 32) / 1.8);
    }

    public double fahrenheit() {
        return celsius * 1.8 + 32;
    }

    public double kelvin() {
        return celsius + ZERO_CELSIUS_K;
    }

    public Temperature plus(TemperatureDifference difference) {
        return new Temperature(celsius + difference.kelvin());
    }

    public Temperature minus(TemperatureDifference difference) {
        return new Temperature(celsius - difference.kelvin());
    }

    /** The span from the other temperature up to this one; negative when this one is colder. */
    public TemperatureDifference minus(Temperature other) {
        return new TemperatureDifference(celsius - other.celsius);
    }

    public boolean isAbove(Temperature other) {
        return celsius > other.celsius;
    }

    public boolean isBelow(Temperature other) {
        return celsius < other.celsius;
    }

    @Override
    public int compareTo(Temperature other) {
        return Double.compare(celsius, other.celsius);
    }
}

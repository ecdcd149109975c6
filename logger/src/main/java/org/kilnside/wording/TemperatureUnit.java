package org.kilnside.wording;

import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.TemperatureDifference;

/** The scale a person reads temperatures in. */
public enum TemperatureUnit {
    CELSIUS("°C") {
        @Override
        public double of(Temperature temperature) {
            return temperature.celsius();
        }

        @Override
        public double of(TemperatureDifference difference) {
            return difference.kelvin();
        }

        @Override
        public double of(HeatingRate rate) {
            return rate.kelvinPerHour();
        }
    },
    FAHRENHEIT("°F") {
        @Override
        public double of(Temperature temperature) {
            return temperature.fahrenheit();
        }

        @Override
        public double of(TemperatureDifference difference) {
            return difference.fahrenheitDegrees();
        }

        @Override
        public double of(HeatingRate rate) {
            return rate.fahrenheitDegreesPerHour();
        }
    };

    private final String symbol;

    TemperatureUnit(String symbol) {
        this.symbol = symbol;
    }

    public String symbol() {
        return symbol;
    }

    /** A point on this scale, in its degrees. */
    public abstract double of(Temperature temperature);

    /** A span in this scale's degrees; no zero is shifted. */
    public abstract double of(TemperatureDifference difference);

    /** A rate in this scale's degrees per hour. */
    public abstract double of(HeatingRate rate);

    public TemperatureUnit other() {
        return this == CELSIUS ? FAHRENHEIT : CELSIUS;
    }
}

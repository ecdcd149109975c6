package org.kilnside.alarm;

import java.time.Duration;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.TemperatureDifference;

/** A quantity seen or expected, with its unit in its type. */
public sealed interface Measure {
    /** Has itself said by whoever knows how. */
    <T> T say(Sayer<T> sayer);

    /** What can be said of each sort of quantity. */
    interface Sayer<T> {
        T temperature(Temperature value);

        T difference(TemperatureDifference value);

        T rate(HeatingRate value);

        T time(Duration value);

        /** Of the elements' full power. */
        T power(Share value);

        /** Bytes on a disk. */
        T bytes(long value);

        /** When a temperature is passed. */
        T passing(OfPassing value);
    }

    /** A temperature. */
    record OfTemperature(Temperature value) implements Measure {
        @Override
        public <T> T say(Sayer<T> sayer) {
            return sayer.temperature(value);
        }
    }

    /** A span of temperature. */
    record OfDifference(TemperatureDifference value) implements Measure {
        @Override
        public <T> T say(Sayer<T> sayer) {
            return sayer.difference(value);
        }
    }

    /** How fast it heats; negative = cools. */
    record OfRate(HeatingRate value) implements Measure {
        @Override
        public <T> T say(Sayer<T> sayer) {
            return sayer.rate(value);
        }
    }

    /** A stretch of time. */
    record OfTime(Duration value) implements Measure {
        @Override
        public <T> T say(Sayer<T> sayer) {
            return sayer.time(value);
        }
    }

    /** A share of the elements' full power. */
    record OfPower(Share value) implements Measure {
        @Override
        public <T> T say(Sayer<T> sayer) {
            return sayer.power(value);
        }
    }

    /** Room on a disk, bytes. */
    record OfBytes(long value) implements Measure {
        @Override
        public <T> T say(Sayer<T> sayer) {
            return sayer.bytes(value);
        }
    }

    /**
     * When a temperature is to be passed, with its interval.
     *
     * @param falling whether the kiln comes below it; else it is reached
     * @param fromMs the early end, ms on the recording's clock
     */
    record OfPassing(Temperature temperature, boolean falling, long fromMs, long toMs) implements Measure {
        @Override
        public <T> T say(Sayer<T> sayer) {
            return sayer.passing(this);
        }

        /** The same by a clock that began earlier. */
        public OfPassing later(long byMs) {
            return new OfPassing(temperature, falling, fromMs + byMs, toMs + byMs);
        }
    }

    static Measure ofCelsius(double celsius) {
        return new OfTemperature(Temperature.ofCelsius(celsius));
    }

    static Measure ofKelvin(double kelvin) {
        return new OfDifference(TemperatureDifference.ofKelvin(kelvin));
    }

    static Measure ofKelvinPerHour(double kelvinPerHour) {
        return new OfRate(HeatingRate.ofKelvinPerHour(kelvinPerHour));
    }

    static Measure ofMillis(long ms) {
        return new OfTime(Duration.ofMillis(ms));
    }

    /** A share of full power, held to 0 … 1. */
    static Measure ofShare(double fraction) {
        return new OfPower(new Share(Math.max(0, Math.min(1, fraction))));
    }
}

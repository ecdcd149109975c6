package org.kilnside.review;

import java.time.Duration;
import org.kilnside.heatwork.Cone;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.TemperatureDifference;

/** One number of a finding, with its kind, so that whoever says it knows its unit. */
public sealed interface Amount {
    /** A temperature. */
    record Degrees(Temperature temperature) implements Amount {}

    /** A span of temperature, said without its sign. */
    record Span(TemperatureDifference difference) implements Amount {}

    /** A length of time. */
    record Lasting(Duration duration) implements Amount {}

    /** A moment, ms on the recording's clock. */
    record At(long elapsedMs) implements Amount {}

    /** A rate, said without its sign. */
    record Speed(HeatingRate rate) implements Amount {}

    /** A share of something. */
    record Part(Share share) implements Amount {}

    /** A cone. */
    record Named(Cone cone) implements Amount {}

    /** How many. */
    record Count(int count) implements Amount {}

    /** The potter's own word, such as a shelf's name. */
    record Word(String word) implements Amount {}

    static Amount degrees(double celsius) {
        return new Degrees(Temperature.ofCelsius(celsius));
    }

    static Amount span(double kelvin) {
        return new Span(TemperatureDifference.ofKelvin(kelvin));
    }

    static Amount minutes(double minutes) {
        return new Lasting(Duration.ofMillis(Math.round(minutes * 60_000)));
    }

    static Amount at(double seconds) {
        return new At(Math.round(seconds * 1000));
    }

    static Amount speed(double kelvinPerHour) {
        return new Speed(HeatingRate.ofKelvinPerHour(kelvinPerHour));
    }

    static Amount part(double fraction) {
        return new Part(new Share(Math.max(0, Math.min(1, fraction))));
    }
}

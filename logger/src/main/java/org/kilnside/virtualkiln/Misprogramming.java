package org.kilnside.virtualkiln;

import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;

/** What becomes of a plan when its numbers are keyed into a controller set to the other scale. */
public final class Misprogramming {
    private Misprogramming() {}

    /** Numbers meant in °C are taken for °F: 1000 becomes 538 °C. */
    public static Schedule celsiusTakenForFahrenheit(Schedule plan) {
        return taken(plan, true);
    }

    /** Numbers meant in °F are taken for °C: a plan to 1000 °C, written 1832 °F, goes on to 1832 °C. */
    public static Schedule fahrenheitTakenForCelsius(Schedule plan) {
        return taken(plan, false);
    }

    private static Schedule taken(Schedule plan, boolean forFahrenheit) {
        return new Schedule(
                plan.name(),
                plan.segments().stream()
                        .map(segment -> taken(segment, forFahrenheit))
                        .toList());
    }

    private static Segment taken(Segment segment, boolean forFahrenheit) {
        if (!(segment instanceof Segment.Ramp ramp)) {
            return segment;
        }
        double target = ramp.to().celsius();
        double rate = ramp.rate().kelvinPerHour();
        return forFahrenheit
                ? new Segment.Ramp(HeatingRate.ofFahrenheitPerHour(rate), Temperature.ofFahrenheit(target), ramp.hold())
                : new Segment.Ramp(
                        HeatingRate.ofKelvinPerHour(ramp.rate().fahrenheitDegreesPerHour()),
                        Temperature.ofCelsius(ramp.to().fahrenheit()),
                        ramp.hold());
    }
}

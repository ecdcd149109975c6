package org.kilnside.sensor;

import java.util.Optional;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;

/**
 * Between true temperatures and the numbers a controller shows and steers by. They are not the same where the controller
 * takes the number of an amplifier that does not linearise as it is, or where a calibration has shown how far its sensor
 * is off. Advice on what to key in is given in these. The board is taken to be at
 * {@link Thermometer#ASSUMED_COLD_JUNCTION}, which changes a top by a tenth of a degree. Immutable.
 */
public final class ControllerNumbers {
    /** Nothing is known that would part them. */
    public static final ControllerNumbers SAME = new ControllerNumbers(SensorInPlace.asSaid(Probe.UNKNOWN));

    /** Nobody keys in finer, K. */
    private static final double WORTH_SAYING_K = 1;

    private final CalibratedThermometer thermometer;

    private ControllerNumbers(SensorInPlace sensor) {
        thermometer = CalibratedThermometer.of(sensor);
    }

    /** The numbers of a controller with this sensor. */
    public static ControllerNumbers of(SensorInPlace sensor) {
        return new ControllerNumbers(sensor);
    }

    /** What it shows at a true temperature: what to key in. Empty beyond what its amplifier can show. */
    public Optional<Temperature> at(Temperature truth) {
        return thermometer.shownAt(truth, Thermometer.ASSUMED_COLD_JUNCTION);
    }

    /** The same where it is another number than the truth by a degree at least; else empty. */
    public Optional<Temperature> otherThan(Temperature truth) {
        return at(truth).filter(shown -> Math.abs(shown.celsius() - truth.celsius()) >= WORTH_SAYING_K);
    }

    /** Whether it cannot show a true temperature at all: set to it, it heats for ever. */
    public boolean endsBelow(Temperature truth) {
        return at(truth).isEmpty();
    }

    /** The truth when it shows a number; empty outside what thermocouple and amplifier can give. */
    public Optional<Temperature> truthOf(Temperature shown) {
        return thermometer.behind(shown, Thermometer.ASSUMED_COLD_JUNCTION);
    }

    /** How fast its number changes while the truth goes from one temperature to another at a rate. */
    public HeatingRate rate(HeatingRate truly, Temperature from, Temperature to) {
        Optional<Temperature> shownFrom = at(from);
        Optional<Temperature> shownTo = at(to);
        double span = to.celsius() - from.celsius();
        if (shownFrom.isEmpty() || shownTo.isEmpty() || Math.abs(span) < WORTH_SAYING_K) {
            return truly;
        }
        double part = (shownTo.get().celsius() - shownFrom.get().celsius()) / span;
        return HeatingRate.ofKelvinPerHour(truly.kelvinPerHour() * part);
    }
}

package org.kilnside.review;

import java.util.Optional;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.sensor.Thermometer;

/** What an amplifier that does not linearise reads too low, and whether a log looks like its numbers as they are. */
final class AmplifierError {
    /** The controller's box beside a hot kiln (common practice). */
    private static final Temperature BOX = Temperature.ofCelsius(30);

    private static final Probe USUAL = new Probe(ThermocoupleType.K, Amplifier.MAX31855);
    private static final double QUARTER = 0.25;

    private AmplifierError() {}

    /** By how much the truth lies above what such an amplifier shows, K. */
    static double atShownK(double shownC) {
        Optional<Temperature> truth = Thermometer.of(USUAL).behind(Temperature.ofCelsius(shownC), BOX);
        return truth.map(celsius -> celsius.celsius() - shownC).orElse(0.0);
    }

    /** Whether the numbers come in quarter degrees, and not in halves alone. */
    static boolean inQuarters(Trace curve) {
        int quarters = 0;
        int odd = 0;
        for (int i = 0; i < curve.size(); i++) {
            double steps = curve.temperatureC(i) / QUARTER;
            boolean whole = Math.abs(steps - Math.rint(steps)) < 1e-6;
            quarters += whole ? 1 : 0;
            odd += whole && Math.abs(Math.IEEEremainder(Math.rint(steps), 2)) == 1 ? 1 : 0;
        }
        return quarters > 0.98 * curve.size() && odd > 0.2 * curve.size();
    }
}

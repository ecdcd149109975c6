package org.kilnside.review;

import org.kilnside.firing.Trace;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.ThermocoupleType;

/** What an amplifier that does not linearise reads too low, and how a log's numbers look that come from one as they are. */
final class AmplifierError {
    private static final ShownNumbers USUAL = new ShownNumbers(new Probe(ThermocoupleType.K, Amplifier.MAX31855));

    private static final double NEARLY_ALL = 0.98;

    /** How finely the numbers of a log are stepped. */
    enum Steps {
        /** Quarter degrees, as such an amplifier gives them. */
        QUARTERS,
        /** Whole or half degrees, or whole °F: rounded by whoever wrote them, from whatever. */
        COARSER,
        /** Finer than such an amplifier gives them: they have been through some sum. */
        FINER
    }

    private AmplifierError() {}

    /** By how much the truth lies above what such an amplifier shows, K. */
    static double atShownK(double shownC) {
        return USUAL.behind(shownC) - shownC;
    }

    static Steps stepsOf(Trace curve) {
        int quarters = 0;
        int odd = 0;
        int wholeF = 0;
        for (int i = 0; i < curve.size(); i++) {
            double steps = curve.temperatureC(i) * 4;
            boolean whole = Math.abs(steps - Math.rint(steps)) < 1e-6;
            quarters += whole ? 1 : 0;
            odd += whole && Math.abs(Math.IEEEremainder(Math.rint(steps), 2)) == 1 ? 1 : 0;
            double fahrenheit = curve.temperatureC(i) * 1.8 + 32;
            wholeF += Math.abs(fahrenheit - Math.rint(fahrenheit)) < 0.02 ? 1 : 0;
        }
        if (wholeF > NEARLY_ALL * curve.size()) {
            return Steps.COARSER;
        }
        if (quarters < NEARLY_ALL * curve.size()) {
            return Steps.FINER;
        }
        return odd > 0.2 * curve.size() ? Steps.QUARTERS : Steps.COARSER;
    }
}

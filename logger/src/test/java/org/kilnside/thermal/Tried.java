package org.kilnside.thermal;

import org.kilnside.firing.Trace;

/** A firing of a kiln that is known through and through, to hold forecasts against. */
interface Tried {
    /** The log up to a moment, as the controller would have written it. */
    Trace until(double seconds, boolean withOutput);

    /** When the elements went off for good, s. */
    double offS();

    /** When the sensor first is below a temperature after that, noise-free; NaN when it never is. */
    double belowS(double celsius);

    /** When it first is above a temperature on the way up; NaN when it never is. */
    double aboveS(double celsius);

    /** The room when it was lit, °C. */
    double roomC();

    /** The sensor's highest, °C. */
    double peakC();
}

package org.kilnside.thermal;

import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.kilnside.firing.Trace;

/** A log as a controller would have written it that shows another output than its elements get. */
final class OutputShown {
    private OutputShown() {}

    /** @param shown what it shows of an output, 0 … 1; NaN = it says nothing */
    static Trace in(Trace log, DoubleUnaryOperator shown) {
        Trace.Builder copy = new Trace.Builder();
        for (int i = 0; i < log.size(); i++) {
            double output = shown.applyAsDouble(log.output(i).orElse(0));
            copy.add(
                    log.elapsedMs(i),
                    log.temperatureC(i),
                    Double.isNaN(output) ? OptionalDouble.empty() : OptionalDouble.of(output),
                    log.setpointC(i));
        }
        return copy.view();
    }
}

package org.kilnside.thermal;

import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.kilnside.firing.Trace;
import org.kilnside.schedule.Schedule;
import org.kilnside.virtualkiln.ControllerSpec;
import org.kilnside.virtualkiln.Population;
import org.kilnside.virtualkiln.Programs;

/** A log as a controller would have written it that shows another output than its elements get. */
final class OutputShown {
    static final Schedule PLAN = Programs.glaze(1200, 80);

    private OutputShown() {}

    /** A glaze firing to that plan, its controller waiting for the kiln, a line every ten seconds. */
    static VirtualTrial fired(Population.Family family) {
        return VirtualTrial.run(
                new Population(family, 41)
                        .specimen(1)
                        .glazeFiring(PLAN, 0)
                        .interval(10)
                        .controller(ControllerSpec.waiting())
                        .start(),
                PLAN,
                45,
                Double.POSITIVE_INFINITY);
    }

    static Forecast asked(Trace log) {
        return Forecaster.forecast(ForecastQuestion.about(log).withPlan(PLAN));
    }

    /** The log without its output. */
    static Trace untold(Trace log) {
        return in(log, output -> Double.NaN);
    }

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

package org.kilnside.thermal;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;

/**
 * What is asked of the model, and what is known beside the curve.
 *
 * @param curve the firing so far; "now" is its last reading
 * @param plan what it is fired by
 * @param ahead the plan laid over what happened, where somebody tracked it; else it is worked out from plan and curve
 * @param target how hot it is to get, where there is no plan
 * @param ambient the room
 * @param below temperatures of interest
 * @param memory what earlier firings of this kiln taught
 * @param powerKw of all elements together, kW
 */
public record ForecastQuestion(
        Trace curve,
        Optional<Schedule> plan,
        Optional<PlanAhead> ahead,
        Optional<Temperature> target,
        Optional<Temperature> ambient,
        List<Temperature> below,
        KilnMemory memory,
        OptionalDouble powerKw) {
    /** Common practice until the kiln maker's own are set: lid left shut, lid cracked, unloaded. */
    public static final List<Temperature> USUAL_THRESHOLDS =
            List.of(Temperature.ofCelsius(200), Temperature.ofCelsius(120), Temperature.ofCelsius(60));

    public ForecastQuestion {
        below = below.stream().sorted((a, b) -> b.compareTo(a)).distinct().toList();
    }

    /** A question with nothing known beside the curve. */
    public static ForecastQuestion about(Trace curve) {
        return new ForecastQuestion(
                curve,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                USUAL_THRESHOLDS,
                KilnMemory.none(Optional.empty()),
                OptionalDouble.empty());
    }

    public ForecastQuestion withPlan(Schedule schedule) {
        return new ForecastQuestion(curve, Optional.of(schedule), ahead, target, ambient, below, memory, powerKw);
    }

    public ForecastQuestion withAhead(PlanAhead rest) {
        return new ForecastQuestion(curve, plan, Optional.of(rest), target, ambient, below, memory, powerKw);
    }

    public ForecastQuestion withTarget(Temperature top) {
        return new ForecastQuestion(curve, plan, ahead, Optional.of(top), ambient, below, memory, powerKw);
    }

    public ForecastQuestion withAmbient(Temperature room) {
        return new ForecastQuestion(curve, plan, ahead, target, Optional.of(room), below, memory, powerKw);
    }

    public ForecastQuestion withBelow(List<Temperature> thresholds) {
        return new ForecastQuestion(curve, plan, ahead, target, ambient, thresholds, memory, powerKw);
    }

    public ForecastQuestion withMemory(KilnMemory earlier) {
        return new ForecastQuestion(curve, plan, ahead, target, ambient, below, earlier, powerKw);
    }

    public ForecastQuestion withPowerKw(double kilowatts) {
        return new ForecastQuestion(curve, plan, ahead, target, ambient, below, memory, OptionalDouble.of(kilowatts));
    }

    OptionalDouble ambientC() {
        return ambient.isPresent() ? OptionalDouble.of(ambient.get().celsius()) : OptionalDouble.empty();
    }
}

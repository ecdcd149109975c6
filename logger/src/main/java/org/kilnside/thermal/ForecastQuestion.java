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
 * @param ventilated what a person noted of bungs, vent and lid, in the order of time
 * @param ways from which temperatures down the openings may be opened, for "what each choice would give"
 */
public record ForecastQuestion(
        Trace curve,
        Optional<Schedule> plan,
        Optional<PlanAhead> ahead,
        Optional<Temperature> target,
        Optional<Temperature> ambient,
        List<Temperature> below,
        KilnMemory memory,
        OptionalDouble powerKw,
        List<Ventilated> ventilated,
        Ways ways) {
    /**
     * From where down a bung would be pulled and a lid propped.
     *
     * @param bungFrom common practice 300 °C
     * @param lidFrom the kiln maker's, else common practice 120 °C
     */
    public record Ways(Temperature bungFrom, Temperature lidFrom) {
        public static final Ways USUAL = new Ways(Temperature.ofCelsius(300), Temperature.ofCelsius(120));
    }

    /** Common practice until the kiln maker's own are set: lid left shut, lid cracked, unloaded. */
    public static final List<Temperature> USUAL_THRESHOLDS =
            List.of(Temperature.ofCelsius(200), Temperature.ofCelsius(120), Temperature.ofCelsius(60));

    public ForecastQuestion {
        below = below.stream().sorted((a, b) -> b.compareTo(a)).distinct().toList();
        ventilated = Ventilated.inOrder(ventilated);
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
                OptionalDouble.empty(),
                List.of(),
                Ways.USUAL);
    }

    public ForecastQuestion withPlan(Schedule schedule) {
        return new ForecastQuestion(
                curve, Optional.of(schedule), ahead, target, ambient, below, memory, powerKw, ventilated, ways);
    }

    public ForecastQuestion withAhead(PlanAhead rest) {
        return new ForecastQuestion(
                curve, plan, Optional.of(rest), target, ambient, below, memory, powerKw, ventilated, ways);
    }

    public ForecastQuestion withTarget(Temperature top) {
        return new ForecastQuestion(
                curve, plan, ahead, Optional.of(top), ambient, below, memory, powerKw, ventilated, ways);
    }

    public ForecastQuestion withAmbient(Temperature room) {
        return new ForecastQuestion(
                curve, plan, ahead, target, Optional.of(room), below, memory, powerKw, ventilated, ways);
    }

    public ForecastQuestion withBelow(List<Temperature> thresholds) {
        return new ForecastQuestion(curve, plan, ahead, target, ambient, thresholds, memory, powerKw, ventilated, ways);
    }

    public ForecastQuestion withMemory(KilnMemory earlier) {
        return new ForecastQuestion(curve, plan, ahead, target, ambient, below, earlier, powerKw, ventilated, ways);
    }

    public ForecastQuestion withPowerKw(double kilowatts) {
        return new ForecastQuestion(
                curve, plan, ahead, target, ambient, below, memory, OptionalDouble.of(kilowatts), ventilated, ways);
    }

    /** What was done to the openings, and when. */
    public ForecastQuestion withVentilated(List<Ventilated> noted) {
        return new ForecastQuestion(curve, plan, ahead, target, ambient, below, memory, powerKw, noted, ways);
    }

    public ForecastQuestion withWays(Ways others) {
        return new ForecastQuestion(curve, plan, ahead, target, ambient, below, memory, powerKw, ventilated, others);
    }

    OptionalDouble ambientC() {
        return ambient.isPresent() ? OptionalDouble.of(ambient.get().celsius()) : OptionalDouble.empty();
    }
}

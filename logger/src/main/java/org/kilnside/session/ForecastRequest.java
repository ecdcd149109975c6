package org.kilnside.session;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.Kiln;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.SensorUncertainty;
import org.kilnside.thermal.Ventilated;
import org.kilnside.tracking.FiringTracker;
import org.kilnside.tracking.PlanPosition.PlanPoint;

/**
 * All a forecast rests on, at one moment. Handed from the session's thread to the forecast's: nothing in it changes any
 * more, and {@code work} is a copy of the forecast's own.
 *
 * @param generation which course of the firing it belongs to: an answer about an older course is thrown away
 * @param curve the good readings so far, at least one
 * @param plan what is fired
 * @param ahead the plan's corners still to come, laid over what happened; empty when the plan is through; absent when
 *     nobody tracked it
 * @param work the heat work so far
 * @param sensor what the number may be off by
 * @param ambient the room, where it could be read before the firing
 * @param thresholds when the lid may be cracked and the ware unloaded
 * @param wall what the kiln's wall is made of
 * @param powerKw of all elements
 * @param firing its number in the book
 * @param ventilated what a person noted of bungs, vent and lid
 * @param described the kiln as its owner describes it
 */
public record ForecastRequest(
        long generation,
        Trace curve,
        Optional<Schedule> plan,
        Optional<List<PlanPoint>> ahead,
        HeatWork work,
        SensorUncertainty sensor,
        Optional<Temperature> ambient,
        Kiln.Thresholds thresholds,
        Optional<Kiln.Wall> wall,
        OptionalDouble powerKw,
        long firing,
        List<Ventilated> ventilated,
        Optional<Kiln> described) {
    public ForecastRequest {
        ventilated = List.copyOf(ventilated);
    }

    /** A request about a firing that is in no book, of which nobody noted anything and whose kiln nobody described. */
    public ForecastRequest(
            long generation,
            Trace curve,
            Optional<Schedule> plan,
            Optional<List<PlanPoint>> ahead,
            HeatWork work,
            SensorUncertainty sensor,
            Optional<Temperature> ambient,
            Kiln.Thresholds thresholds,
            Optional<Kiln.Wall> wall,
            OptionalDouble powerKw) {
        this(
                generation,
                curve,
                plan,
                ahead,
                work,
                sensor,
                ambient,
                thresholds,
                wall,
                powerKw,
                0,
                List.of(),
                Optional.empty());
    }

    /**
     * A request about a firing on file, as far as its log goes: its place in the plan follows from the curve and what the
     * controller told beside it.
     */
    public static ForecastRequest ofLog(
            Trace curve, Schedule plan, ConeSeries series, SensorUncertainty sensor, Kiln.Thresholds thresholds) {
        FiringTracker tracker = new FiringTracker(Optional.of(plan));
        for (int i = 0; i < curve.size(); i++) {
            OptionalDouble output = curve.output(i);
            OptionalDouble setpointC = curve.setpointC(i);
            tracker.take(
                    curve.elapsedMs(i),
                    curve.temperatureC(i),
                    new ControllerReport(
                            output.isPresent() ? Optional.of(new Share(output.getAsDouble())) : Optional.empty(),
                            setpointC.isPresent()
                                    ? Optional.of(Temperature.ofCelsius(setpointC.getAsDouble()))
                                    : Optional.empty(),
                            OptionalInt.empty()));
        }
        long nowMs = curve.elapsedMs(curve.size() - 1);
        return new ForecastRequest(
                0,
                curve,
                Optional.of(plan),
                tracker.position().flatMap(position -> Forecasts.ahead(position, nowMs)),
                HeatWork.of(ConeTable.of(series), curve),
                sensor,
                Optional.empty(),
                thresholds,
                Optional.empty(),
                OptionalDouble.empty());
    }

    /** The reading it rests on, ms on the recording's clock. */
    public long askedMs() {
        return curve.elapsedMs(curve.size() - 1);
    }
}

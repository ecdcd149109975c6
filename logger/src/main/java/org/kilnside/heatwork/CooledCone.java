package org.kilnside.heatwork;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Interval;
import org.kilnside.schedule.PlannedCurve;
import org.kilnside.sensor.SensorUncertainty;

/**
 * The cone of a firing that nobody has seen cool: {@link FreeFall#USUAL} is the one answer to how it will, whoever asks.
 *
 * @param whole the cone; its range holds what the coolings of kilns leave open, beside sensor and chart
 * @param coolingAdded nine in ten: by how many cones the rest of the cooling adds; empty when nothing is down
 */
public record CooledCone(ConeReached whole, Optional<Interval<Double>> coolingAdded) {
    /**
     * Cools a firing.
     *
     * @param risen the curve until its top is over
     * @param afterTop what the plan has after that, see {@link PlanHeat#afterTop}
     */
    public static CooledCone of(
            ConeTable table, Trace risen, List<PlannedCurve.Leg> afterTop, SensorUncertainty sensor) {
        ConeReached usual = usual(table, risen, afterTop, sensor);
        HeatWork atTop = HeatWork.ofLine(table, risen);
        ConeReached quickest = reached(atTop, risen, afterTop, FreeFall.USUAL_AT_LEAST, sensor);
        ConeReached slowest = reached(atTop, risen, afterTop, FreeFall.USUAL_AT_MOST, sensor);
        Interval<ConePosition> between = usual.between();
        double steps = steps(usual.cone());
        double down = Math.hypot(steps - steps(between.from()), steps - steps(quickest.cone()));
        double up = Math.hypot(steps(between.to()) - steps, steps(slowest.cone()) - steps);
        double[] rest = Stream.of(quickest, usual, slowest)
                .map(ConeReached::coolingAdded)
                .flatMapToDouble(OptionalDouble::stream)
                .sorted()
                .toArray();
        return new CooledCone(
                usual.withRange(
                        Interval.ofNineInTen(ConePosition.ofSteps(steps - down), ConePosition.ofSteps(steps + up))),
                rest.length < 3 ? Optional.empty() : Optional.of(Interval.ofNineInTen(rest[0], rest[2])));
    }

    /** The middle alone: quick, for trying one plan after the other; its range is sensor's and chart's. */
    public static ConeReached usual(
            ConeTable table, Trace risen, List<PlannedCurve.Leg> afterTop, SensorUncertainty sensor) {
        return reached(HeatWork.ofLine(table, risen), risen, afterTop, FreeFall.USUAL, sensor);
    }

    private static ConeReached reached(
            HeatWork atTop, Trace risen, List<PlannedCurve.Leg> afterTop, FreeFall fall, SensorUncertainty sensor) {
        int last = risen.size() - 1;
        double topC = risen.temperatureC(last);
        Trace down = WayDown.of(topC, afterTop, fall, topC - PlanHeat.COUNTS_BELOW_TOP_K);
        Trace.Builder ahead = new Trace.Builder();
        for (int i = 1; i < down.size(); i++) {
            ahead.add(risen.elapsedMs(last) + down.elapsedMs(i), down.temperatureC(i));
        }
        return atTop.goingOn(ahead.view()).reached(sensor);
    }

    private static double steps(ConePosition position) {
        return position.steps().orElse(-1);
    }
}

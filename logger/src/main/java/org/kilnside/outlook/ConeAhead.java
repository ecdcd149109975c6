package org.kilnside.outlook;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConePosition;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.CooledCone;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.heatwork.PlanHeat;
import org.kilnside.quantity.Interval;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlannedCurve;
import org.kilnside.sensor.ControllerNumbers;
import org.kilnside.sensor.SensorUncertainty;
import org.kilnside.thermal.ImaginedFiring;
import org.kilnside.thermal.ImaginedFirings;

/**
 * The cone a plan comes to in this kiln: as the kiln is expected to fire it, which is not as written where the elements
 * cannot follow.
 *
 * @param cone where it stands up to the top and until it has fallen 25 °C from it, as in {@link ConeReached}
 * @param between what sensor, cone chart and kiln may make of it, nine in ten
 * @param coolingAdded by how many cones the rest of the cooling adds; empty when nothing is down
 * @param coolingBetween the same, nine in ten; empty too of a kiln that goes by its own coolings
 */
public record ConeAhead(
        ConePosition cone,
        Estimate<ConePosition> between,
        OptionalDouble coolingAdded,
        Optional<Interval<Double>> coolingBetween) {
    private static final DoubleUnaryOperator TRUE = celsius -> celsius;

    /** Heat work of this many of the draws says how far kilns of this kind part. */
    private static final int TRIED = 16;

    static ConeAhead of(ImaginedFirings firings, ConeTable table, SensorUncertainty sensor) {
        boolean cooledBefore = firings.coolAsSeen();
        CooledCone ahead = cooledBefore
                ? new CooledCone(asItCools(firings.middle(), table, sensor), Optional.empty())
                : CooledCone.of(table, risen(firings.middle(), TRUE), afterTop(firings.middle(), TRUE), sensor);
        ConeReached middle = ahead.whole();
        double steps = middle.cone().steps().orElse(-1);
        double down = Math.max(0, steps - middle.between().from().steps().orElse(-1));
        double up = Math.max(0, middle.between().to().steps().orElse(-1) - steps);
        double[] kilns = kilns(firings, table, sensor, steps);
        Estimate<ConePosition> between = Estimate.of(
                middle.cone(),
                ConePosition.ofSteps(steps - Math.hypot(down, kilns[0])),
                ConePosition.ofSteps(steps + Math.hypot(up, kilns[1])));
        return new ConeAhead(middle.cone(), between, middle.coolingAdded(), ahead.coolingAdded());
    }

    /** How far below and above the middle's cone nine in ten of the kilns come: only those that do not follow part. */
    private static double[] kilns(ImaginedFirings firings, ConeTable table, SensorUncertainty sensor, double middle) {
        List<ImaginedFiring> draws = firings.draws();
        if (draws.stream()
                .allMatch(draw -> draw.arrivalS().isPresent()
                        && draw.legs().stream().allMatch(leg -> leg.lagsFromC().isEmpty()))) {
            return new double[] {0, 0};
        }
        int step = Math.max(1, draws.size() / TRIED);
        double[] off = IntStream.iterate(0, i -> i < draws.size(), i -> i + step)
                .mapToDouble(i -> reached(draws.get(i), firings.coolAsSeen(), table, sensor)
                                .cone()
                                .steps()
                                .orElse(-1)
                        - middle)
                .sorted()
                .toArray();
        int end = (int) Math.round(0.05 * (off.length - 1));
        return new double[] {Math.max(0, -off[end]), Math.max(0, off[off.length - 1 - end])};
    }

    /**
     * What a firing comes to; the plan's temperatures are true ones.
     *
     * @param cooledBefore whether the kiln was seen to cool: else it cools as kilns nobody knows do
     */
    static ConeReached reached(ImaginedFiring firing, boolean cooledBefore, ConeTable table, SensorUncertainty sensor) {
        return cooledBefore
                ? asItCools(firing, table, sensor)
                : CooledCone.usual(table, risen(firing, TRUE), afterTop(firing, TRUE), sensor);
    }

    /** What it comes to where the controller's own numbers are the plan's. */
    static ConePosition keyedInAsWritten(
            ImaginedFirings firings, ConeTable table, SensorUncertainty sensor, ControllerNumbers numbers) {
        DoubleUnaryOperator truth = celsius -> numbers.truthOf(Temperature.ofCelsius(celsius))
                .map(Temperature::celsius)
                .orElse(celsius);
        ImaginedFiring firing = firings.middle();
        return (firings.coolAsSeen()
                        ? HeatWork.ofLine(table, hot(firing, Long.MAX_VALUE, truth))
                                .reached(sensor)
                        : CooledCone.usual(table, risen(firing, truth), afterTop(firing, truth), sensor))
                .cone();
    }

    private static ConeReached asItCools(ImaginedFiring firing, ConeTable table, SensorUncertainty sensor) {
        return HeatWork.ofLine(table, hot(firing, Long.MAX_VALUE, TRUE)).reached(sensor);
    }

    /** The last stretch of a firing at the hottest that its plan wanted of it. */
    private static int topLeg(ImaginedFiring firing) {
        List<ImaginedFiring.Leg> legs = firing.legs();
        int top = 0;
        for (int i = 1; i < legs.size(); i++) {
            top = legs.get(i).planned().toC() >= legs.get(top).planned().toC() ? i : top;
        }
        return top;
    }

    private static Trace risen(ImaginedFiring firing, DoubleUnaryOperator truth) {
        double overS = firing.legs().get(topLeg(firing)).toS();
        return hot(firing, Math.round(overS * 1000), truth);
    }

    private static List<PlannedCurve.Leg> afterTop(ImaginedFiring firing, DoubleUnaryOperator truth) {
        return firing.legs().stream()
                .skip(topLeg(firing) + 1L)
                .map(ImaginedFiring.Leg::planned)
                .map(leg -> new PlannedCurve.Leg(
                        leg.segment(),
                        leg.kind(),
                        leg.fromMs(),
                        leg.toMs(),
                        truth.applyAsDouble(leg.fromC()),
                        truth.applyAsDouble(leg.toC())))
                .toList();
    }

    /** What of a curve counts. */
    private static Trace hot(ImaginedFiring firing, long untilMs, DoubleUnaryOperator truth) {
        double fromC = firing.highestC() - PlanHeat.COUNTS_BELOW_TOP_K;
        Trace curve = firing.curve();
        Trace.Builder hot = new Trace.Builder();
        for (int i = 0; i < curve.size() && curve.elapsedMs(i) <= untilMs; i++) {
            boolean near = curve.temperatureC(i) >= fromC
                    || i > 0 && curve.temperatureC(i - 1) >= fromC
                    || i + 1 < curve.size() && curve.temperatureC(i + 1) >= fromC;
            if (near) {
                hot.add(curve.elapsedMs(i), truth.applyAsDouble(curve.temperatureC(i)));
            }
        }
        return hot.view();
    }

    /** A cone as a number of whole cones above the softest; a half cone by its temperature between its neighbours. */
    static Optional<Double> steps(Cone cone, ConeTable table) {
        List<Cone> whole = Cone.whole();
        int index = whole.indexOf(cone);
        if (index >= 0) {
            return table.cones().contains(cone) ? Optional.of((double) index) : Optional.empty();
        }
        List<Cone> softer = new ArrayList<>(whole);
        softer.removeIf(each -> each.compareTo(cone) > 0);
        int below = softer.size() - 1;
        if (below < 0 || below + 1 >= whole.size() || table.temperature(cone).isEmpty()) {
            return Optional.empty();
        }
        double belowC = table.temperature(whole.get(below)).orElseThrow().celsius();
        double aboveC = table.temperature(whole.get(below + 1)).orElseThrow().celsius();
        return Optional.of(below + (table.temperature(cone).get().celsius() - belowC) / (aboveC - belowC));
    }
}

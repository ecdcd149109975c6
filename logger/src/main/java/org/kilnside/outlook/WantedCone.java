package org.kilnside.outlook;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleFunction;
import org.hipparchus.analysis.solvers.BracketingNthOrderBrentSolver;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.thermal.ImaginedFiring;
import org.kilnside.thermal.ImaginedFirings;
import org.kilnside.thermal.LikelyKilns;

/**
 * The question turned round: with which top, or else with which hold at the top, the plan comes to the wanted cone in
 * this kiln. All else in the plan stays as written.
 *
 * @param cone the wanted one
 * @param top what the top would have to be; empty when there is none
 * @param onController the number the controller shows at that top; empty where it is the same, or it cannot show as much
 * @param hold what the hold at the written top would have to be; empty when no hold up to twelve hours does it
 * @param noTop why there is no top; empty when there is one
 */
public record WantedCone(
        Cone cone,
        Optional<Estimate<Temperature>> top,
        Optional<Temperature> onController,
        Optional<Duration> hold,
        Optional<NoTop> noTop) {
    private static final double LOWEST_C = 350;
    private static final double HIGHEST_C = 1500;
    private static final double LONGEST_HOLD_S = 12 * 3600;
    private static final int MOST_TRIES = 200;

    /** Nobody keys in finer. */
    private static final double WITHIN_K = 0.1;

    private static final double WITHIN_S = 10;

    /** Why there is no top. */
    public enum NoTop {
        /** The kiln does not get hot enough. */
        KILN_TOO_WEAK,
        /** The rest of the plan alone is hotter than that. */
        REST_IS_HOTTER,
        /** The series has no such cone. */
        NO_SUCH_CONE
    }

    static WantedCone of(OutlookQuestion question, LikelyKilns kilns, Cone cone) {
        Optional<Double> steps = ConeAhead.steps(cone, question.table());
        if (steps.isEmpty()) {
            return new WantedCone(
                    cone, Optional.empty(), Optional.empty(), Optional.empty(), Optional.of(NoTop.NO_SUCH_CONE));
        }
        double wanted = steps.get();
        Schedule plan = question.plan();
        double lowest = Math.max(LOWEST_C, nextHottestC(plan) + 0.1);
        DoubleFunction<Double> withTop = celsius -> cones(question, kilns, withTop(plan, celsius));
        Optional<Estimate<Temperature>> top = Optional.empty();
        Optional<NoTop> noTop = Optional.empty();
        if (withTop.apply(HIGHEST_C) < wanted) {
            noTop = Optional.of(NoTop.KILN_TOO_WEAK);
        } else if (withTop.apply(lowest) > wanted) {
            noTop = Optional.of(NoTop.REST_IS_HOTTER);
        } else {
            double celsius = solve(withTop, wanted, lowest, HIGHEST_C, WITHIN_K);
            double half =
                    HeatWork.halfWidthK(question.series(), question.sensor().uncertainty(), celsius);
            top = Optional.of(Estimate.of(
                    Temperature.ofCelsius(celsius),
                    Temperature.ofCelsius(celsius - half),
                    Temperature.ofCelsius(celsius + half)));
        }
        DoubleFunction<Double> withHold = seconds -> cones(question, kilns, withHold(plan, seconds));
        Optional<Duration> hold = withHold.apply(LONGEST_HOLD_S) < wanted || withHold.apply(0) > wanted
                ? Optional.empty()
                : Optional.of(Duration.ofSeconds(Math.round(solve(withHold, wanted, 0, LONGEST_HOLD_S, WITHIN_S))));
        Optional<Temperature> onController =
                top.flatMap(found -> question.numbers().otherThan(found.probable()));
        return new WantedCone(cone, top, onController, hold, noTop);
    }

    private static double solve(DoubleFunction<Double> rising, double wanted, double from, double to, double within) {
        return new BracketingNthOrderBrentSolver(within, 5)
                .solve(MOST_TRIES, each -> rising.apply(each) - wanted, from, to);
    }

    private static double cones(OutlookQuestion question, LikelyKilns kilns, Schedule plan) {
        ImaginedFiring firing = ImaginedFirings.middle(
                plan,
                kilns,
                List.of(Temperature.ofCelsius(
                        Math.max(question.room().celsius() + 5, plan.top().celsius() - 330))));
        return ConeAhead.reached(
                        firing,
                        kilns.isSeenToCool(),
                        question.table(),
                        question.sensor().uncertainty())
                .cone()
                .steps()
                .orElse(-1);
    }

    private static double nextHottestC(Schedule plan) {
        double topC = plan.top().celsius();
        return plan.segments().stream()
                .flatMap(segment -> segment.target().stream())
                .mapToDouble(Temperature::celsius)
                .filter(celsius -> celsius < topC)
                .max()
                .orElse(0);
    }

    /** The plan with another top: every segment that goes to the top goes to the new one. */
    static Schedule withTop(Schedule plan, double celsius) {
        return with(plan, ramp -> new Segment.Ramp(ramp.rate(), Temperature.ofCelsius(celsius), ramp.hold()), false);
    }

    /** The plan with another hold at its top: in the last segment that goes there. */
    static Schedule withHold(Schedule plan, double seconds) {
        return with(
                plan,
                ramp -> new Segment.Ramp(ramp.rate(), ramp.to(), Duration.ofMillis(Math.round(seconds * 1000))),
                true);
    }

    private static Schedule with(
            Schedule plan, java.util.function.UnaryOperator<Segment.Ramp> change, boolean lastOnly) {
        List<Segment> segments = new ArrayList<>(plan.segments());
        Temperature top = plan.top();
        for (int i = segments.size() - 1; i >= 0; i--) {
            if (segments.get(i) instanceof Segment.Ramp ramp && ramp.to().equals(top)) {
                segments.set(i, change.apply(ramp));
                if (lastOnly) {
                    break;
                }
            }
        }
        return new Schedule(plan.name(), plan.aimsFor(), plan.clay(), plan.notes(), segments);
    }
}

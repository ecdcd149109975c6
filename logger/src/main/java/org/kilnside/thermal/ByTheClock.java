package org.kilnside.thermal;

import java.util.Arrays;
import java.util.Optional;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.thermal.Forecast.Arrival;
import org.kilnside.thermal.Forecast.Reaches;
import org.kilnside.thermal.Forecast.Remark;
import org.kilnside.thermal.Forecast.TopsOut;
import org.kilnside.thermal.Forecast.When;

/** What becomes of a top where the controller does not wait for a kiln that lags, or may not. */
final class ByTheClock {
    /** So much after its plan's time is after it, s. */
    private static final double AFTER_PLAN_S = 900;

    /** A controller leads or lags its kiln by this, K. */
    private static final double STEERS_WITHIN_K = 5;

    private ByTheClock() {}

    /**
     * The arrival where the plan's clock may run out before it.
     *
     * @param waited the arrival were the kiln waited for
     * @param highest how hot it gets until its clock runs out; only where it goes by the clock
     * @param leavesS when the plan leaves its top by the clock
     */
    static Arrival arrival(
            Steering steering,
            Arrival waited,
            Spread highest,
            FiringData data,
            double leavesS,
            ArrivalScale.Power power) {
        if (steering == Steering.WAITS || waited.reaches() == Reaches.NO || hasArrived(waited, data)) {
            return waited;
        }
        if (steering == Steering.BY_THE_CLOCK && highest.isKnown()) {
            double mean = highest.mean();
            int stretches = data.powered.size();
            double lower = Math.hypot(STEERS_WITHIN_K, ArrivalScale.topOutLower(highest, data.nowC, power, stretches));
            double higher =
                    Math.hypot(STEERS_WITHIN_K, ArrivalScale.topOutHigher(highest, data.nowC, power, stretches));
            if (mean + higher < waited.target().celsius()) {
                TopsOut topsOut = new TopsOut(
                        Temperature.ofCelsius(Math.max(data.nowC, mean)),
                        Temperature.ofCelsius(
                                Math.min(Math.max(data.nowC, mean), Math.max(data.course.atLeastC(), mean - lower))),
                        Temperature.ofCelsius(Math.max(data.nowC, mean + higher)));
                return new Arrival(waited.target(), Reaches.NO, Optional.empty(), Optional.of(topsOut));
            }
        }
        boolean inTime = waited.when().filter(when -> when.toS() <= leavesS).isPresent();
        return inTime ? waited : new Arrival(waited.target(), Reaches.CANNOT_SAY_YET, waited.when(), waited.topsOut());
    }

    private static boolean hasArrived(Arrival arrival, FiringData data) {
        return arrival.when().filter(when -> when.toS() <= data.nowS).isPresent();
    }

    /** What to mind: the set-point ran ahead, or no set-point is told and the plan's clock runs out before the top. */
    static Optional<Remark> remark(
            Steering steering, Arrival waited, Optional<Schedule> plan, Course course, double leavesS) {
        Optional<Double> when = waited.when().map(When::atS);
        if (steering != Steering.WAITS) {
            return when.filter(at -> at > leavesS + AFTER_PLAN_S).map(at -> Remark.of(Remark.Kind.SETPOINT_RUNS_AHEAD));
        }
        if (plan.isEmpty() || tellsSetpoint(course)) {
            return Optional.empty();
        }
        double clockS = PlanAlignment.leavesTopS(plan.get(), course);
        boolean stillMayEnd = course.lastS() < clockS + AFTER_PLAN_S;
        return when.filter(at -> stillMayEnd && at > clockS + AFTER_PLAN_S)
                .map(at -> Remark.of(Remark.Kind.MAY_END_BY_THE_CLOCK));
    }

    private static boolean tellsSetpoint(Course course) {
        return Arrays.stream(course.setpointC, 0, course.size).anyMatch(each -> !Double.isNaN(each));
    }
}

package org.kilnside.thermal;

import java.util.List;
import java.util.Optional;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast.Arrival;
import org.kilnside.thermal.Forecast.Reaches;
import org.kilnside.thermal.Forecast.TopsOut;
import org.kilnside.thermal.Forecast.When;

/** Whether and when a kiln reaches its top, and how hot it could get: from the log itself, or from what a fit answers. */
final class Arrivals {
    /** A top-out is the highest within this, s. */
    static final double TOPS_OUT_WITHIN_S = 12 * 3600;

    /**
     * Below this nobody says that a kiln is too weak, unless it has run full for half an hour: little has been asked of
     * the elements, and water that leaves takes a share of their power that looks like weakness, °C.
     */
    private static final double TOO_EARLY_C = 300;

    private static final double FULL_OUTPUT = 0.9;
    private static final double FULL_FOR_S = 1800;

    /** As {@link #FULL_OUTPUT}, where what is held against it is the curve of a kiln that gives all it has. */
    private static final double ALL_IT_HAS = 0.97;

    private static final double ALL_IT_HAS_FOR_S = 3600;

    /** The slowest part of a wall's warming, the load with it, has run off within so many of the wall's time constants. */
    private static final double SLOWEST_OF_TAU = 2;

    /** Below this raw ware still takes heat for its bound water: the curve may steepen again, °C. */
    private static final double ONLY_FLATTENS_ABOVE_C = 800;

    /** What a reading and the slope of an hour may be off by, K. */
    private static final double SLOPE_WITHIN_K = 4;

    /** A controller lets a kiln lag or lead its set-point by some kelvins, and creeps up to a top: so long a time, s. */
    private static final double STEERS_WITHIN_S = 360;

    /** A controller holds a top some kelvins under it. */
    private static final double AS_GOOD_AS_THERE_K = 3;

    private Arrivals() {}

    /**
     * What the kilns of a fit answer.
     *
     * @param when ln of the seconds to the top
     * @param top the highest they get to with all they have, °C
     * @param topWhenLate the same, were the plan's time longer
     */
    record Answers(Spread when, Spread top, Spread topWhenLate) {}

    static Optional<Temperature> target(ForecastQuestion question) {
        if (question.target().isPresent()) {
            return question.target();
        }
        return question.plan().map(plan -> plan.top());
    }

    static Optional<Arrival> unknown(ForecastQuestion question) {
        return target(question)
                .map(target -> new Arrival(target, Reaches.CANNOT_SAY_YET, Optional.empty(), Optional.empty()));
    }

    /** On the way down the log itself says whether the top was reached, where it shows the top. */
    static Optional<Arrival> afterTop(ForecastQuestion question, FiringData data) {
        return target(question).map(target -> {
            Optional<When> arrived = arrived(data.course, target);
            Reaches reaches = arrived.isPresent() ? Reaches.YES : UnseenTop.reaches(data, target.celsius());
            if (reaches == Reaches.NO && Phases.stillAsked(data.course)) {
                // Its supply may come back, or somebody may find the fuse.
                reaches = Reaches.CANNOT_SAY_YET;
            }
            return new Arrival(target, reaches, arrived, Optional.empty());
        });
    }

    /** When the log itself shows that it got there. */
    private static Optional<When> arrived(Course course, Temperature target) {
        for (int i = 0; i < course.size; i++) {
            if (course.temperatureC[i] >= target.celsius() - AS_GOOD_AS_THERE_K) {
                double at = course.timeS[i];
                return Optional.of(new When(at, at, at));
            }
        }
        return Optional.empty();
    }

    /** @param noHigherC above this it cannot come, as {@link #flattensBelowC} has it */
    static Arrival of(
            Temperature target, FiringData data, Answers answers, double noHigherC, ArrivalScale.Power power) {
        Spread when = answers.when();
        Spread top = answers.top();
        Optional<When> arrived = arrived(data.course, target);
        if (power == ArrivalScale.Power.UNKNOWN || power == ArrivalScale.Power.PACE_ALONE) {
            // Nothing tells how much power is left: the pace may go on until, near the top, it cannot.
            Optional<When> guess = when.isKnown() ? Optional.of(arrives(data, when, power)) : Optional.empty();
            return new Arrival(
                    target,
                    arrived.isPresent() ? Reaches.YES : Reaches.CANNOT_SAY_YET,
                    arrived.or(() -> guess),
                    Optional.empty());
        }
        double nowC = data.nowC;
        int stretches = data.powered.size();
        double lower = ArrivalScale.topOutLower(top, nowC, power, stretches);
        double higher = ArrivalScale.topOutHigher(top, nowC, power, stretches);
        double highest = Math.max(nowC, Math.min(noHigherC, top.mean()));
        TopsOut topsOut = new TopsOut(
                Temperature.ofCelsius(highest),
                Temperature.ofCelsius(Math.min(
                        highest, Math.max(data.course.atLeastC(), top.mean() - ArrivalScale.needed(lower, power)))),
                Temperature.ofCelsius(
                        Math.max(nowC, Math.min(noHigherC, top.mean() + ArrivalScale.needed(higher, power)))));
        if (arrived.isPresent()) {
            return new Arrival(target, Reaches.YES, arrived, topsOut.asElementsBear());
        }
        double aimC = target.celsius();
        Spread late = answers.topWhenLate();
        double lateC = late.mean() + ArrivalScale.topOutHigher(late, nowC, power, stretches);
        double atLeastC = Math.min(highest, Math.max(data.course.atLeastC(), top.mean() - lower));
        double atMostC = Math.max(nowC, Math.min(noHigherC, Math.max(top.mean() + higher, lateC)));
        Reaches reaches = atLeastC >= aimC ? Reaches.YES : atMostC < aimC ? Reaches.NO : Reaches.CANNOT_SAY_YET;
        if (reaches == Reaches.NO && nowC < TOO_EARLY_C && !runsFull(data.course, FULL_OUTPUT, FULL_FOR_S)) {
            return new Arrival(target, Reaches.CANNOT_SAY_YET, Optional.empty(), Optional.empty());
        }
        Optional<When> arrives =
                reaches != Reaches.NO && when.isKnown() ? Optional.of(arrives(data, when, power)) : Optional.empty();
        return new Arrival(target, reaches, arrives, topsOut.asElementsBear());
    }

    /** Whether how hot it could get is left out because its elements would melt first. */
    static boolean isBeyondElements(Arrival arrival, Answers answers, ArrivalScale.Power power) {
        boolean powerKnown = power == ArrivalScale.Power.TOLD || power == ArrivalScale.Power.TAKEN_FOR_FULL;
        return powerKnown
                && arrival.topsOut().isEmpty()
                && answers.top().isKnown()
                && answers.top().mean() > TopsOut.ELEMENTS_MELT_C;
    }

    /**
     * How hot a kiln can get that has given all it has for an hour: from now on its curve only flattens. Infinite while
     * it gives less. A kiln that has stood still for hours has told where it ends, whatever the fit believes of its own
     * error.
     */
    static double flattensBelowC(FiringData data, List<FiringFit.Weighted> fits) {
        boolean full = data.guessedFullForS.orElse(0) >= ALL_IT_HAS_FOR_S
                || runsFull(data.course, ALL_IT_HAS, ALL_IT_HAS_FOR_S);
        if (data.nowC < ONLY_FLATTENS_ABOVE_C || !full) {
            return Double.POSITIVE_INFINITY;
        }
        double tauS = fits.stream()
                .mapToDouble(each -> each.fit().kiln().tauS())
                .max()
                .orElse(TOPS_OUT_WITHIN_S);
        double slope = data.course.line(data.nowS - ALL_IT_HAS_FOR_S, data.nowS).slopeKS();
        double leftS = Math.min(TOPS_OUT_WITHIN_S, SLOWEST_OF_TAU * tauS);
        return data.nowC + Math.max(0, slope) * leftS + SLOPE_WITHIN_K;
    }

    private static boolean runsFull(Course course, double full, double forS) {
        double fromS = course.lastS() - forS;
        for (int i = course.last(); i >= 0 && course.timeS[i] >= fromS; i--) {
            if (!(course.output[i] >= full)) {
                return false;
            }
        }
        return course.timeS[0] < fromS;
    }

    private static When arrives(FiringData data, Spread spread, ArrivalScale.Power power) {
        double log = spread.mean();
        double steers = STEERS_WITHIN_S / Math.exp(log);
        double sooner = Math.hypot(steers, ArrivalScale.sooner(spread.halfWidth(), data.nowC, power));
        double later = Math.hypot(steers, ArrivalScale.later(spread.halfWidth(), data.nowC, power));
        return new When(
                data.nowS + Math.exp(log), data.nowS + Math.exp(log - sooner), data.nowS + Math.exp(log + later));
    }
}

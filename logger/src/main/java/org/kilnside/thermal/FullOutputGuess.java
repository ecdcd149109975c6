package org.kilnside.thermal;

import java.util.Arrays;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlannedCurve;
import org.kilnside.schedule.Schedule;

/**
 * When a kiln whose controller does not tell its output seems to have given all it has: while it lags behind what is wanted
 * of it, or while its climb grows slower and slower, which no controller's ramp does.
 */
final class FullOutputGuess {
    /** A kiln this far under its set-point, or under its plan, is taken to be at full output, K. */
    private static final double SETPOINT_LAG_K = 8;

    private static final double PLAN_LAG_K = 18;
    private static final double LAG_BEGINS_K = 8;
    private static final double STEADILY_K = 0.5;

    /** A kiln that lost time and climbs at its plan's own rate again, within this part, is steered: it lags no more. */
    private static final double SAME_RATE = 0.05;

    private static final double RATE_OVER_S = 1200;

    /** Lower down a kiln waits for water, or for itself, °C. */
    private static final double LAGS_ABOVE_C = 200;

    private static final double SHORTEST_SPELL_S = 1800;

    /** So near to a hold's temperature, and climbing so slowly, it holds, K and K/s. */
    private static final double HOLD_BAND_K = 8;

    private static final double HOLDS_KS = 30 / 3600.0;

    /** Further below its highest than this and its climb was broken off, K. */
    private static final double FALLEN_K = 20;

    /** A climb that slows down is seen in four parts of half an hour, each slower than the one before by this part. */
    private static final double PART_S = 1800;

    private static final int PARTS = 4;
    private static final double SLOWER = 0.95;

    /** Lower down water and a cold load slow a climb down, °C; a climb slower than this is a hold, K/s. */
    private static final double SLOWS_ABOVE_C = 650;

    private static final double LEAST_CLIMB_KS = 3 / 3600.0;
    private static final double STANDS_KS = 2 / 3600.0;

    private FullOutputGuess() {}

    /** For every point of a course, whether all output seems on there. */
    static boolean[] of(Course course, Optional<Schedule> plan) {
        boolean[] full = new boolean[course.size];
        double[] lagK = new double[course.size];
        // A kiln that lost time to an outage is behind its plan, and need not be at full output for that.
        Optional<PlannedCurve> curve = plan.filter(each -> !hasFallen(course))
                .map(each -> each.curveFrom(Temperature.ofCelsius(course.temperatureC[0])));
        double began = curve.map(each -> PlanAlignment.beganS(course, each)).orElse(0.0);
        for (int i = 0; i < course.size; i++) {
            double setpointC = course.setpointC[i];
            if (!Double.isNaN(setpointC)) {
                full[i] = setpointC - course.temperatureC[i] > SETPOINT_LAG_K;
            } else if (curve.isPresent()) {
                lagK[i] = wantedC(curve.get(), course.timeS[i] - began) - course.temperatureC[i];
                full[i] = lagK[i] > PLAN_LAG_K && !keepsPace(course, i, curve.get());
            }
        }
        for (int i = course.last() - 1; i >= 0; i--) {
            // All was on already when it began to fall behind.
            boolean fallsBehind = lagK[i] > LAG_BEGINS_K && lagK[i] <= PLAN_LAG_K && lagK[i] < lagK[i + 1] + STEADILY_K;
            full[i] |= full[i + 1] && fallsBehind;
        }
        for (int i = 0; i < course.size; i++) {
            full[i] &= course.temperatureC[i] > LAGS_ABOVE_C;
        }
        dropShortSpells(course, full);
        OptionalDouble slowsDownSinceS = full[course.last()] ? OptionalDouble.empty() : slowsDownSinceS(course);
        if (slowsDownSinceS.isPresent()) {
            Arrays.fill(full, course.at(slowsDownSinceS.getAsDouble()) + 1, course.size, true);
        }
        return full;
    }

    /** Where a ramp meets a hold, or the next one, a kiln that is late is neither at the one rate nor at the other. */
    private static void dropShortSpells(Course course, boolean[] full) {
        int begin = 0;
        for (int i = 0; i <= full.length; i++) {
            if (i < full.length && full[i]) {
                continue;
            }
            if (i > begin && course.timeS[i - 1] - course.timeS[begin] < SHORTEST_SPELL_S) {
                Arrays.fill(full, begin, i, false);
            }
            begin = i + 1;
        }
    }

    /** A kiln that is late is still wanted at the top when the plan's time is over. */
    private static double wantedC(PlannedCurve curve, double elapsedS) {
        long planned = Math.min(Math.round(elapsedS * 1000), curve.timeToTop().toMillis());
        return curve.temperatureC(planned).orElse(Double.NaN);
    }

    /**
     * Whether it climbs as fast as its plan wants at this temperature, neither slower nor faster, or stands where its plan
     * has it hold: then it is late, and steered.
     */
    private static boolean keepsPace(Course course, int at, PlannedCurve curve) {
        double celsius = course.temperatureC[at];
        double slopeKS =
                course.line(course.timeS[at] - RATE_OVER_S, course.timeS[at]).slopeKS();
        for (PlannedCurve.Leg leg : curve.legs()) {
            boolean hold = leg.kind() == PlannedCurve.Kind.HOLD;
            if (hold && Math.abs(celsius - leg.toC()) < HOLD_BAND_K && Math.abs(lately(course, at)) < HOLDS_KS) {
                return true;
            }
        }
        for (PlannedCurve.Leg leg : curve.legs()) {
            if (leg.kind() == PlannedCurve.Kind.RAMP && celsius < leg.toC()) {
                double wantedKS = (leg.toC() - leg.fromC()) / (leg.toMs() - leg.fromMs()) * 1000;
                return Math.abs(slopeKS - wantedKS) < SAME_RATE * wantedKS;
            }
        }
        return false;
    }

    /** K/s in the last minutes: a hold of a quarter of an hour is seen. */
    private static double lately(Course course, int at) {
        return course.line(course.timeS[at] - RATE_OVER_S / 3, course.timeS[at]).slopeKS();
    }

    /**
     * Since when the climb has grown slower from half-hour to half-hour, and is no faster again; empty where it has not.
     * A kiln that stands still in the end has all it can give.
     */
    private static OptionalDouble slowsDownSinceS(Course course) {
        double nowS = course.lastS();
        double sinceS = nowS;
        double earlierKS = Double.POSITIVE_INFINITY;
        int slower = 0;
        boolean slows = false;
        for (int back = (int) ((nowS - course.timeS[0]) / PART_S); back > 0; back--) {
            double fromS = nowS - back * PART_S;
            Course.Line line = course.line(fromS, fromS + PART_S);
            if (line.points() < 5
                    || course.overlapsGap(fromS, fromS + PART_S)
                    || course.temperatureAt(fromS) < SLOWS_ABOVE_C) {
                earlierKS = Double.POSITIVE_INFINITY;
                slower = 0;
                slows = false;
                continue;
            }
            double slopeKS = line.slopeKS();
            boolean climbs = slopeKS > Math.max(LEAST_CLIMB_KS, 4 * line.slopeErrorKS());
            boolean stands = slows && slopeKS < earlierKS + STANDS_KS && slopeKS > -STANDS_KS;
            if (slower > 0 && climbs && slopeKS < SLOWER * earlierKS) {
                slower++;
            } else if (!stands) {
                slower = 1;
                slows = false;
                sinceS = fromS;
            }
            slows |= slower >= PARTS;
            earlierKS = slopeKS;
        }
        return slows ? OptionalDouble.of(sinceS) : OptionalDouble.empty();
    }

    private static boolean hasFallen(Course course) {
        double highestC = course.temperatureC[0];
        for (int i = 1; i < course.size; i++) {
            highestC = Math.max(highestC, course.temperatureC[i]);
            if (course.temperatureC[i] < highestC - FALLEN_K) {
                return true;
            }
        }
        return false;
    }
}

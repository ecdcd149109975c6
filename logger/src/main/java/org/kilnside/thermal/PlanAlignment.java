package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlannedCurve;
import org.kilnside.schedule.Schedule;

/** Finds where in its plan a firing is, from curve and set-point alone, and what of the plan is left. */
final class PlanAlignment {
    private static final double BAND_K = 8;
    private static final double ON_PLAN_K = 15;
    private static final double BEGAN_K = 6;

    /** A hold goes on for so long past its time before it is no hold of this plan: it began when the kiln was there, s. */
    private static final double OVERDUE_S = 1800;

    /** A kiln without power that falls so many times as fast as its plan's ramp is not on that ramp. */
    private static final double NOT_HELD_TIMES = 1.3;

    /** A kiln within {@link #BAND_K} of a ramp's end for so much longer than the ramp takes for it is in the hold, s. */
    private static final double LEVELLED_S = 300;

    /** Elements off and no set-point over so many points and seconds, and it is switched off. */
    private static final int FEWEST_OFF = 2;

    private static final double OFF_FOR_S = 50;

    /** What its controller told is seen in so long, s; some say 0 where they want nothing, °C. */
    private static final double TOLD_WITHIN_S = 3600;

    private static final double WANTS_NOTHING_C = 40;

    private PlanAlignment() {}

    /**
     * What the plan still wants.
     *
     * @return empty when the plan is over and the kiln left to itself
     */
    static PlanAhead ahead(Schedule schedule, Course course, Phases phases) {
        return ahead(schedule, course, phases, Steering.WAITS);
    }

    /** The same by a controller that treats a lagging kiln in its own way. */
    static PlanAhead ahead(Schedule schedule, Course course, Phases phases, Steering steering) {
        PlannedCurve curve = schedule.curveFrom(Temperature.ofCelsius(course.temperatureC[0]));
        double nowS = course.lastS();
        if (phases.coolingNow() && isSwitchedOff(course)) {
            return new PlanAhead(List.of());
        }
        PlanTurns turns = PlanTurns.of(curve, course);
        double planned = turns.heatsAgain()
                ? plannedOnTurns(turns, curve, course, phases, steering)
                : phases.coolingNow() ? plannedCooling(curve, course, phases) : plannedHeating(curve, course, steering);
        List<PlanAhead.Corner> corners = new ArrayList<>();
        for (PlannedCurve.Leg leg : curve.legs()) {
            double end = leg.toMs() / 1000.0;
            if (end > planned) {
                corners.add(new PlanAhead.Corner(nowS + end - planned, leg.toC()));
            }
        }
        double setpointC = course.setpointC[course.last()];
        boolean waits = corners.isEmpty() || Math.abs(corners.get(0).temperatureC() - setpointC) < 1;
        if (!phases.coolingNow() && waits && course.temperatureC[course.last()] < setpointC - 1) {
            // The set-point is there and the kiln is not: until it is, all it has is asked of it.
            corners.add(0, new PlanAhead.Corner(nowS, setpointC));
        }
        return new PlanAhead(corners);
    }

    /** When a plan lit with this course leaves its top if nothing is waited for, s on the course's clock. */
    static double leavesTopS(Schedule schedule, Course course) {
        PlannedCurve curve = schedule.curveFrom(Temperature.ofCelsius(course.temperatureC[0]));
        int top = schedule.topSegment();
        return beganS(course, curve)
                + curve.legs().stream()
                        .filter(leg -> leg.segment() == top)
                        .mapToDouble(leg -> leg.toMs() / 1000.0)
                        .max()
                        .orElse(0);
    }

    /** Where it is in a plan that heats again on the way down: on the rise or fall it has come to. */
    private static double plannedOnTurns(
            PlanTurns turns, PlannedCurve curve, Course course, Phases phases, Steering steering) {
        double end = endS(curve);
        boolean told = !Double.isNaN(course.setpointC[course.last()]);
        if (turns.isFirst() && phases.coolingNow() && !told) {
            if (!turns.isThere()) {
                // Given up on its first rise, or let go early at its top.
                return plannedCooling(curve, course, phases);
            }
            turns.goOn();
        }
        PlanTurns.Stretch stretch = turns.stretch();
        if (turns.isFirst()) {
            return Math.min(stretch.endS(), plannedHeating(curve, stretch.legs(), stretch.endS(), course, steering));
        }
        double temperature = course.temperatureC[course.last()];
        double lowest = stretch.up() ? Math.min(stretch.endC(), turns.hottestC()) : stretch.endC();
        boolean alone = phases.coolingNow() && !phases.drivenNow() && !told;
        if (alone && temperature < lowest - BAND_K || stretch.up() && turns.isLast() && turns.hasLeft()) {
            return end;
        }
        if (!stretch.up()) {
            return plannedCooling(stretch.legs(), stretch.endS(), end, course, phases);
        }
        if (told) {
            return placeOnRise(stretch.legs(), stretch.endS(), course.setpointC[course.last()], 1, course, steering);
        }
        return plannedRise(stretch, turns.hottestC(), course);
    }

    /** Where it is on a later rise by its temperature alone: a ramp that was once at its end is over, however its hold sags. */
    private static double plannedRise(PlanTurns.Stretch rise, double hottestC, Course course) {
        double temperature = course.temperatureC[course.last()];
        for (PlannedCurve.Leg leg : rise.legs()) {
            double from = leg.fromMs() / 1000.0;
            double to = leg.toMs() / 1000.0;
            double held = inBandS(course, leg.toC());
            if (leg.kind() == PlannedCurve.Kind.HOLD && Math.abs(temperature - leg.toC()) < BAND_K) {
                return Math.min(to, from + held);
            }
            double span = leg.toC() - leg.fromC();
            boolean levelled = held > BAND_K / Math.max(1, span) * (to - from) + LEVELLED_S;
            if (leg.kind() == PlannedCurve.Kind.RAMP && hottestC < leg.toC() - 1 && !levelled) {
                return from + (to - from) * Math.max(0, Math.min(1, (temperature - leg.fromC()) / span));
            }
        }
        return rise.endS();
    }

    /** The set-point it had has gone, and the elements are off: nothing of the plan is wanted any more. */
    static boolean isSwitchedOff(Course course) {
        int i = course.last();
        while (i >= 0 && !wants(course.setpointC[i]) && course.output[i] == 0) {
            i--;
        }
        boolean since = course.last() - i >= FEWEST_OFF && course.lastS() - course.timeS[i + 1] >= OFF_FOR_S;
        int told = 0;
        int j = i;
        while (j >= 0 && course.timeS[j] > course.timeS[i] - TOLD_WITHIN_S) {
            told += wants(course.setpointC[j]) ? 1 : 0;
            j--;
        }
        return since && 2 * told > i - j;
    }

    private static boolean wants(double setpointC) {
        return setpointC > WANTS_NOTHING_C;
    }

    private static double plannedHeating(PlannedCurve curve, Course course, Steering steering) {
        return plannedHeating(curve, curve.legs(), curve.timeToTop().toMillis() / 1000.0, course, steering);
    }

    private static double plannedHeating(
            PlannedCurve curve, List<PlannedCurve.Leg> legs, double endS, Course course, Steering steering) {
        double now = course.lastS();
        double temperature = course.temperatureC[course.last()];
        double setpoint = course.setpointC[course.last()];
        double elapsed = now - beganS(course, curve);
        if (Double.isNaN(setpoint)) {
            Optional<Double> wanted = wanted(curve, elapsed);
            if (wanted.isPresent() && Math.abs(wanted.get() - temperature) <= ON_PLAN_K) {
                return elapsed;
            }
        }
        boolean told = !Double.isNaN(setpoint);
        return placeOnRise(legs, endS, told ? setpoint : temperature, told ? 1 : BAND_K, course, steering);
    }

    private static double placeOnRise(
            List<PlannedCurve.Leg> legs, double endS, double at, double bandK, Course course, Steering steering) {
        for (PlannedCurve.Leg leg : legs) {
            double from = leg.fromMs() / 1000.0;
            double to = leg.toMs() / 1000.0;
            if (leg.kind() == PlannedCurve.Kind.HOLD && Math.abs(at - leg.toC()) < bandK) {
                double held = steering == Steering.BY_THE_CLOCK
                        ? bandS(course, course.setpointC, leg.toC())
                        : inBandS(course, leg.toC());
                return Math.min(to, from + held);
            }
            if (leg.kind() == PlannedCurve.Kind.RAMP && at < leg.toC() - 1) {
                double span = leg.toC() - leg.fromC();
                return from + (to - from) * Math.max(0, Math.min(1, (at - leg.fromC()) / span));
            }
        }
        return endS;
    }

    private static double endS(PlannedCurve curve) {
        return curve.duration().toMillis() / 1000.0;
    }

    private static double plannedCooling(PlannedCurve curve, Course course, Phases phases) {
        int top = curve.schedule().topSegment();
        List<PlannedCurve.Leg> legs =
                curve.legs().stream().filter(leg -> leg.segment() > top).toList();
        return plannedCooling(legs, endS(curve), endS(curve), course, phases);
    }

    /**
     * Where it is on a fall.
     *
     * @param fallenS when the fall is over
     * @param end when all of the plan is
     */
    private static double plannedCooling(
            List<PlannedCurve.Leg> legs, double fallenS, double end, Course course, Phases phases) {
        double temperature = course.temperatureC[course.last()];
        for (PlannedCurve.Leg leg : legs) {
            double from = leg.fromMs() / 1000.0;
            double to = leg.toMs() / 1000.0;
            if (leg.kind() == PlannedCurve.Kind.HOLD && Math.abs(temperature - leg.toC()) < BAND_K) {
                double held = inBandS(course, leg.toC());
                if (held < to - from + OVERDUE_S && (held < to - from || phases.drivenNow())) {
                    return Math.min(from + held, to - 1);
                }
            }
            if (leg.kind() == PlannedCurve.Kind.CONTROLLED_COOLING
                    && temperature > leg.toC() + 1
                    && !wasAtItsEnd(course, leg.toC())) {
                double span = leg.fromC() - leg.toC();
                if (!phases.drivenNow() && fallsFasterThan(course, span / (to - from))) {
                    // Switched off, or another program: nobody holds it to this ramp.
                    return end;
                }
                return from + (to - from) * Math.max(0, Math.min(1, (leg.fromC() - temperature) / span));
            }
        }
        return fallenS;
    }

    /** Whether what is some kelvins above a fall's end has been there: its hold swings, or it heats again. */
    private static boolean wasAtItsEnd(Course course, double celsius) {
        int i = course.last();
        while (i > 0 && Math.abs(course.temperatureC[i] - celsius) < BAND_K && course.temperatureC[i] > celsius + 1) {
            i--;
        }
        return course.temperatureC[i] <= celsius + 1 && course.temperatureC[i] > celsius - BAND_K;
    }

    private static boolean fallsFasterThan(Course course, double plannedKS) {
        Course.Line lately = course.line(course.lastS() - Phases.LOOK_S / 2, course.lastS());
        return lately.points() > 4 && -lately.slopeKS() - 2 * lately.slopeErrorKS() > NOT_HELD_TIMES * plannedKS;
    }

    private static Optional<Double> wanted(PlannedCurve curve, double elapsedS) {
        var found = curve.temperatureC(Math.round(elapsedS * 1000));
        return found.isPresent() ? Optional.of(found.getAsDouble()) : Optional.empty();
    }

    /** When the kiln was lit: so long before it was some kelvins warmer as its plan's first ramp takes for them. */
    static double beganS(Course course, PlannedCurve curve) {
        double first = course.temperatureC[0];
        int i = 0;
        while (i + 1 < course.size && course.temperatureC[i + 1] < first + BEGAN_K) {
            i++;
        }
        double takes = curve.legs().stream()
                .filter(leg -> leg.kind() == PlannedCurve.Kind.RAMP && leg.toC() > leg.fromC())
                .findFirst()
                .map(leg -> BEGAN_K * (leg.toMs() - leg.fromMs()) / 1000.0 / (leg.toC() - leg.fromC()))
                .orElse(0.0);
        return Math.max(course.timeS[0], course.timeS[i] - takes);
    }

    private static double inBandS(Course course, double celsius) {
        return bandS(course, course.temperatureC, celsius);
    }

    private static double bandS(Course course, double[] valuesC, double celsius) {
        int i = course.last();
        while (i > 0 && Math.abs(valuesC[i - 1] - celsius) < BAND_K) {
            i--;
        }
        return course.lastS() - course.timeS[i];
    }
}

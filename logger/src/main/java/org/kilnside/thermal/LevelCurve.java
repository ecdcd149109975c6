package org.kilnside.thermal;

import java.util.Optional;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlannedCurve;
import org.kilnside.schedule.Schedule;

/** Why a hot kiln's curve has grown level: it holds, as is wanted of it, or it has no more to give. */
enum LevelCurve {
    HOLDS,
    /** It is below what is wanted of it, and need not be at full output. */
    LAGS,
    /** It is at full output, or seems so, below what is wanted of it. */
    AT_ITS_LIMIT;

    /** So near to its set-point it is where it is wanted, K. */
    private static final double THERE_K = 3;

    /** So far below its set-point, its plan's hold or its top it is not, K. */
    private static final double BELOW_K = 8;

    /** A set-point that has moved less, for so long, stands, K and s. */
    private static final double STANDS_WITHIN_K = 0.5;

    private static final double STANDS_FOR_S = 180;

    private static final double FULL_OUTPUT = 0.97;
    private static final double FULL_FOR_S = 1200;

    /** Judges by set-point, output and plan, as far as they are known. */
    static LevelCurve of(ForecastQuestion question, FiringData data) {
        Course course = data.course;
        double belowK = course.setpointC[course.last()] - data.nowC;
        if (belowK <= THERE_K) {
            return HOLDS;
        }
        boolean full = data.outputUntoldNow()
                ? FullOutputGuess.of(course, question.plan())[course.last()]
                : course.meanOutput(data.nowS - FULL_FOR_S, data.nowS) >= FULL_OUTPUT;
        if (belowK > BELOW_K) {
            return full ? AT_ITS_LIMIT : LAGS;
        }
        boolean wantedHotter = Arrivals.target(question)
                .map(target -> data.nowC < target.celsius() - BELOW_K)
                .orElse(true);
        boolean atHold = question.plan().filter(plan -> holdsAt(plan, data)).isPresent();
        return full && wantedHotter && !atHold ? AT_ITS_LIMIT : HOLDS;
    }

    /** Whether the set-point has stood still for some minutes and the kiln is there: a hold just begun, level or not yet. */
    static boolean isWhereItsSetPointStands(FiringData data) {
        Course course = data.course;
        double setpointC = course.setpointC[course.last()];
        double belowK = setpointC - data.nowC;
        if (!(belowK <= THERE_K && belowK >= -BELOW_K)) {
            return false;
        }
        int i = course.last();
        while (i > 0 && Math.abs(course.setpointC[i - 1] - setpointC) < STANDS_WITHIN_K) {
            i--;
        }
        return data.nowS - course.timeS[i] >= STANDS_FOR_S;
    }

    private static boolean holdsAt(Schedule plan, FiringData data) {
        Optional<PlannedCurve.Leg> hold =
                plan.curveFrom(Temperature.ofCelsius(data.course.temperatureC[0])).legs().stream()
                        .filter(leg -> leg.kind() == PlannedCurve.Kind.HOLD)
                        .filter(leg -> Math.abs(leg.toC() - data.nowC) < BELOW_K)
                        .findFirst();
        return hold.isPresent();
    }
}

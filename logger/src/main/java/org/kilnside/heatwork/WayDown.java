package org.kilnside.heatwork;

import java.util.List;
import org.kilnside.firing.Trace;
import org.kilnside.schedule.PlannedCurve;

/**
 * What comes after a plan's top in a kiln: the plan, as far as the kiln comes down so fast, then the kiln by itself.
 */
public final class WayDown {
    /** So near to a colder temperature a controller calls it reached and goes on, K. */
    private static final double THERE_K = 4;

    private static final double LONGEST_WAIT_S = 24 * 3600;

    /** After this long alone nothing counts any more. */
    private static final double ALONE_S = 8 * 3600;

    /** Short enough for the bend just below the top. */
    private static final double STEP_S = 60;

    /** A long stretch of a plan is straight: no more corners than this. */
    private static final int MOST_CORNERS = 500;

    private WayDown() {}

    /**
     * The way down as corners, ms from when the top was over and °C; the first is the top.
     *
     * @param after what the plan has after its top, in order; empty where it leaves the kiln to itself
     * @param downToC where nothing counts any more
     */
    public static Trace of(double topC, List<PlannedCurve.Leg> after, FreeFall fall, double downToC) {
        Trace.Builder line = new Trace.Builder();
        FreeFall.Falling kiln = fall.from(topC);
        double atS = 0;
        line.add(0, topC);
        for (int i = 0; i < after.size(); i++) {
            boolean heatsAgain = after.subList(i, after.size()).stream().anyMatch(leg -> leg.toC() > downToC);
            if (kiln.celsius() <= downToC && !heatsAgain) {
                return line.view();
            }
            atS = follow(after.get(i), topC, kiln, atS, line);
        }
        for (double alone = 0; alone < ALONE_S && kiln.celsius() > downToC; alone += STEP_S) {
            kiln.go(STEP_S, Double.NEGATIVE_INFINITY);
            atS += STEP_S;
            line.add(Math.round(atS * 1000), kiln.celsius());
        }
        return line.view();
    }

    private static double follow(
            PlannedCurve.Leg leg, double topC, FreeFall.Falling kiln, double fromS, Trace.Builder line) {
        double lengthS = leg.durationMs() / 1000.0;
        double step = Math.max(STEP_S, lengthS / MOST_CORNERS);
        double gone = 0;
        boolean falls = leg.toC() < leg.fromC();
        while (gone < lengthS || falls && kiln.celsius() > leg.toC() + THERE_K && gone < lengthS + LONGEST_WAIT_S) {
            double by = gone < lengthS ? Math.min(step, lengthS - gone) : STEP_S;
            gone += by;
            // A kiln that never got to the plan's top will not on its way down.
            kiln.go(by, Math.min(topC, leg.temperatureC(leg.fromMs() + Math.round(gone * 1000))));
            line.add(Math.round((fromS + gone) * 1000), kiln.celsius());
        }
        return fromS + gone;
    }
}

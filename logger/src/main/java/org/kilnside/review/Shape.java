package org.kilnside.review;

import java.util.ArrayList;
import java.util.List;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.FreeFall;
import org.kilnside.heatwork.PlanHeat;
import org.kilnside.heatwork.WayDown;
import org.kilnside.schedule.PlannedCurve;

/**
 * A firing taken apart so that one part can be exchanged: the level of its top, the rise to it and the stretch at it
 * as depths below the level, and the fall from it.
 *
 * @param levelC °C
 * @param rise °C relative to the level (negative) from {@link #BELOW_K} below it up to {@link TopPhase#NEAR_K} below
 * @param top relative to the level, from there until it is left for good
 * @param fall relative to the level, from then on
 */
record Shape(double levelC, Line rise, Line top, Line fall) {
    /** What lies further below the top adds less than a thousandth of a cone. */
    static final double BELOW_K = 250;

    /** On the way down the rate has gone long before this. */
    static final double FALL_K = 200;

    private static final double STEP_S = 60;
    private static final double FALL_FOR_S = 8 * 3600;

    /** The parts of a measured curve; where its fall was not seen, the kiln falls by itself. */
    static Shape measured(Bins bins, TopPhase phase, FreeFall fall) {
        double level = phase.levelC();
        int reached = bins.firstFrom(phase.reachedS());
        int left = bins.at(phase.leftS());
        int from = reached;
        while (from > 0 && bins.celsius[from] > level - BELOW_K) {
            from--;
        }
        Line rise = new Line();
        for (int i = from; i <= reached; i++) {
            rise.add(bins.timeS[i], bins.celsius[i] - level);
        }
        Line top = new Line();
        for (int i = reached; i <= left; i++) {
            top.add(bins.timeS[i], bins.celsius[i] - level);
        }
        Line down = new Line();
        int i = left;
        down.add(bins.timeS[i], bins.celsius[i] - level);
        int end = bins.last();
        while (end > left && bins.celsius[end] <= level - FALL_K) {
            end--;
        }
        // To the last time it was so hot: a kiln may be heated once more after an interruption.
        while (++i <= end) {
            down.add(bins.timeS[i], bins.celsius[i] - level);
        }
        if (i >= bins.size) {
            double endS = bins.timeS[bins.last()];
            double endC = bins.celsius[bins.last()];
            addFall(down, endS, endC, level, fall);
        }
        return new Shape(level, rise, top, down);
    }

    private static void addFall(Line down, double fromS, double fromC, double level, FreeFall fall) {
        FreeFall.Falling kiln = fall.from(fromC);
        for (double after = STEP_S; after < FALL_FOR_S; after += STEP_S) {
            kiln.go(STEP_S, Double.NEGATIVE_INFINITY);
            double celsius = kiln.celsius();
            if (celsius < level - FALL_K) {
                return;
            }
            down.add(fromS + after, celsius - level);
        }
    }

    /** The fall of a kiln left to itself at a level. */
    static Line byItself(double level, FreeFall fall) {
        Line down = new Line().add(0, 0);
        addFall(down, 0, level, level, fall);
        return down;
    }

    /**
     * The parts of a plan.
     *
     * @param ownFall the fall of the firing it is compared with, taken over where the plan lets the kiln cool by itself
     * @param fall how this kiln falls by itself, so that a plan cannot ask for a faster cooling than there is
     */
    static Shape planned(PlannedCurve plan, Line ownFall, FreeFall fall) {
        double level = plan.schedule().top().celsius();
        List<PlannedCurve.Leg> legs = plan.legs();
        int firstTop = 0;
        while (legs.get(firstTop).toC() < level) {
            firstTop++;
        }
        int lastTop = legs.size() - 1;
        while (legs.get(lastTop).toC() < level) {
            lastTop--;
        }
        List<double[]> before = new ArrayList<>();
        for (int i = 0; i <= firstTop; i++) {
            before.add(new double[] {legs.get(i).fromMs() / 1000.0, legs.get(i).fromC() - level});
            before.add(new double[] {legs.get(i).toMs() / 1000.0, legs.get(i).toC() - level});
        }
        Line rise = new Line();
        Line top = new Line();
        split(before, rise, top);
        for (int i = firstTop + 1; i <= lastTop; i++) {
            top.add(legs.get(i).toMs() / 1000.0, legs.get(i).toC() - level);
        }
        if (lastTop == legs.size() - 1) {
            return new Shape(level, rise, top, ownFall);
        }
        Line down = new Line();
        Trace after = WayDown.of(level, PlanHeat.afterTop(plan), fall, level - FALL_K);
        for (int i = 0; i < after.size(); i++) {
            down.add(after.elapsedMs(i) / 1000.0, after.temperatureC(i) - level);
        }
        return new Shape(level, rise, top, down);
    }

    /** Cuts a planned rise where it comes near the top. */
    private static void split(List<double[]> corners, Line rise, Line top) {
        double cut = -TopPhase.NEAR_K;
        boolean atTop = false;
        for (int i = 0; i < corners.size(); i++) {
            double[] corner = corners.get(i);
            if (!atTop && corner[1] > cut) {
                if (i > 0) {
                    double[] last = corners.get(i - 1);
                    double share = (cut - last[1]) / (corner[1] - last[1]);
                    double cutS = last[0] + share * (corner[0] - last[0]);
                    rise.add(cutS, cut);
                    top.add(cutS, cut);
                } else {
                    rise.add(corner[0], corner[1]);
                    top.add(corner[0], corner[1]);
                }
                atTop = true;
            }
            (atTop ? top : rise).add(corner[0], corner[1]);
        }
    }

    /** K/h of the rise at a depth below the level (negative), 0 where it is not known. */
    double rateAt(double depthK) {
        for (int i = 1; i < rise.size(); i++) {
            double seconds = rise.seconds(i) - rise.seconds(i - 1);
            if (rise.celsius(i - 1) <= depthK && rise.celsius(i) > depthK && seconds > 0) {
                return (rise.celsius(i) - rise.celsius(i - 1)) / seconds * 3600;
            }
        }
        return 0;
    }

    double topMinutes() {
        return top.lengthS() / 60;
    }

    /** K/h over the last 100 °C below the top, up to where the top begins; 0 where less of it is known. */
    double lastRateKPerH() {
        int end = rise.size() - 1;
        if (end < 1) {
            return 0;
        }
        int from = end;
        while (from > 0 && rise.celsius(from) > -100) {
            from--;
        }
        double fromS = rise.seconds(from);
        double fromC = rise.celsius(from);
        if (fromC < -100 && from < end) {
            double share = (-100 - fromC) / (rise.celsius(from + 1) - fromC);
            fromS += share * (rise.seconds(from + 1) - fromS);
            fromC = -100;
        }
        double seconds = rise.seconds(end) - fromS;
        return seconds <= 0 ? 0 : (rise.celsius(end) - fromC) / seconds * 3600;
    }
}

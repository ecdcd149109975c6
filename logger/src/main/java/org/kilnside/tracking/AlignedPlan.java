package org.kilnside.tracking;

import java.util.ArrayList;
import java.util.List;
import org.kilnside.schedule.PlannedCurve.Leg;
import org.kilnside.tracking.PlanPosition.PlanPoint;

/**
 * The plan laid over what the kiln really did, as few corners. What is gone by grows by one corner whenever a straight
 * line would miss a planned temperature by more than the tolerance ("swinging door": two slopes that close as points
 * come, O(1) each); what is to come is the rest of the plan's corners, moved to begin now.
 */
final class AlignedPlan {
    private static final double TOLERANCE_K = 0.75;
    /** What is to come is laid anew when it has moved by this much. */
    private static final long STALE_MS = 15_000;

    private final List<PlanPoint> past = new ArrayList<>();
    private long anchorMs;
    private double anchorC;
    private long lastMs;
    private double lastC;
    private double steepest;
    private double flattest;
    private boolean begun;

    private List<PlanPoint> laid = List.of();
    private int laidPast = -1;
    private int laidLeg = -1;
    private long laidShiftMs;

    /** The plan wants this temperature now. */
    void wants(long elapsedMs, double plannedC) {
        if (!begun) {
            begun = true;
            corner(elapsedMs, plannedC);
            return;
        }
        if (elapsedMs <= lastMs) {
            return;
        }
        double span = elapsedMs - anchorMs;
        double low = (plannedC - TOLERANCE_K - anchorC) / span;
        double high = (plannedC + TOLERANCE_K - anchorC) / span;
        if (low > flattest || high < steepest) {
            corner(lastMs, lastC);
            span = elapsedMs - anchorMs;
            low = (plannedC - TOLERANCE_K - anchorC) / span;
            high = (plannedC + TOLERANCE_K - anchorC) / span;
        }
        steepest = Math.max(steepest, low);
        flattest = Math.min(flattest, high);
        lastMs = elapsedMs;
        lastC = plannedC;
    }

    private void corner(long elapsedMs, double celsius) {
        if (past.isEmpty() || past.get(past.size() - 1).elapsedMs() < elapsedMs) {
            past.add(new PlanPoint(elapsedMs, celsius));
        }
        anchorMs = elapsedMs;
        anchorC = celsius;
        lastMs = elapsedMs;
        lastC = celsius;
        steepest = Double.NEGATIVE_INFINITY;
        flattest = Double.POSITIVE_INFINITY;
    }

    /** The whole: what is gone by up to now, then the corners still to come. */
    List<PlanPoint> points(List<Leg> legs, int leg, long plannedMs) {
        long shiftMs = lastMs - plannedMs;
        if (laidPast == past.size() && laidLeg == leg && Math.abs(shiftMs - laidShiftMs) < STALE_MS) {
            return laid;
        }
        List<PlanPoint> points = new ArrayList<>(past.size() + legs.size() - leg + 1);
        points.addAll(past);
        add(points, lastMs, lastC);
        for (int i = leg; i < legs.size(); i++) {
            add(
                    points,
                    Math.max(lastMs, legs.get(i).toMs() + shiftMs),
                    legs.get(i).toC());
        }
        return keep(points, leg, shiftMs);
    }

    /** What is gone by alone: nothing is planned any more. */
    List<PlanPoint> pastAlone() {
        if (laidPast == past.size() && laidLeg == Integer.MAX_VALUE) {
            return laid;
        }
        List<PlanPoint> points = new ArrayList<>(past);
        if (begun) {
            add(points, lastMs, lastC);
        }
        return keep(points, Integer.MAX_VALUE, 0);
    }

    private List<PlanPoint> keep(List<PlanPoint> points, int leg, long shiftMs) {
        laid = List.copyOf(points);
        laidPast = past.size();
        laidLeg = leg;
        laidShiftMs = shiftMs;
        return laid;
    }

    private static void add(List<PlanPoint> points, long elapsedMs, double celsius) {
        PlanPoint last = points.isEmpty() ? null : points.get(points.size() - 1);
        if (last == null || last.elapsedMs() < elapsedMs) {
            points.add(new PlanPoint(elapsedMs, celsius));
        } else if (last.temperatureC() != celsius) {
            points.set(points.size() - 1, new PlanPoint(last.elapsedMs(), celsius));
        }
    }
}

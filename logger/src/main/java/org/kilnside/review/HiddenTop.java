package org.kilnside.review;

import java.util.Optional;
import org.kilnside.heatwork.FreeFall;
import org.kilnside.schedule.PlannedCurve;

/**
 * A stretch without readings that hides where the firing turned, and what most likely happened in it: heating goes on
 * as it went until it meets the cooling drawn back from after the gap.
 *
 * @param fromS the last reading before it, s
 * @param toS the first after it, s
 * @param fromC before, °C
 * @param toC after, °C
 * @param heatingWentOn whether the cooling drawn back needs heat to have gone in after the readings stopped
 * @param clear whether the cooling leaves no doubt of that
 * @param filled the curve with the gap filled as is most likely
 */
record HiddenTop(
        double fromS, double toS, double fromC, double toC, boolean heatingWentOn, boolean clear, Bins filled) {
    private static final double LONG_GAP_S = 240;
    private static final double ROOM_C = 20;

    /** The last ramp may be missing with the top. */
    private static final double FAR_K = 250;

    /** A kiln so much colder after a gap has turned in it, however little was seen after, K. */
    private static final double FELL_K = 60;

    /** The cooling drawn back is uncertain by some of its length. */
    private static final double SLACK_S = 480;

    private static final double SLACK_SHARE = 0.1;

    private static final double AS_PLANNED_S = 1500;
    private static final double FASTER_AT_FIRST = 0.19;

    /**
     * What the plan asks for about its top.
     *
     * @param topC °C
     * @param lastRate of the last ramp, K/h
     * @param holdS at the top, s
     * @param curve the whole of it
     */
    record Asked(double topC, double lastRate, double holdS, PlannedCurve curve) {
        /** Whether the plan has the kiln cool at about such a rate, K/h, at a temperature: then the controller was at work. */
        boolean isCoolingAt(double celsius, double kelvinPerHour) {
            return curve.legs().stream()
                    .filter(leg -> leg.kind() == PlannedCurve.Kind.CONTROLLED_COOLING
                            && celsius < leg.fromC()
                            && celsius > leg.toC())
                    .mapToDouble(leg -> (leg.fromC() - leg.toC()) / Math.max(1, leg.durationMs()) * 3_600_000)
                    .anyMatch(rate -> Math.abs(rate - kelvinPerHour) < 0.25 * rate);
        }
    }

    static Optional<HiddenTop> of(Bins bins, Asked plan) {
        double highest = Double.NEGATIVE_INFINITY;
        for (double celsius : bins.celsius) {
            highest = Math.max(highest, celsius);
        }
        for (int i = 1; i < bins.size; i++) {
            double apart = bins.timeS[i] - bins.timeS[i - 1];
            boolean gap = apart > LONG_GAP_S && apart > 4 * usualS(bins, i);
            boolean fell = bins.celsius[i] < bins.celsius[i - 1] - FELL_K
                    || bins.slopeKPerH(bins.timeS[i], bins.timeS[i] + 900) < -30;
            boolean turned = bins.celsius[i - 1] > highest - FAR_K
                    && fell
                    && bins.slopeKPerH(bins.timeS[i - 1] - 600, bins.timeS[i - 1]) > -30
                    && stays(bins, i, bins.celsius[i] + 5);
            if (gap && turned) {
                return Optional.of(fill(bins, i, plan));
            }
        }
        return Optional.empty();
    }

    private static double usualS(Bins bins, int before) {
        int from = Math.max(1, before - 20);
        return before <= from ? Bins.WIDTH_S : (bins.timeS[before - 1] - bins.timeS[from - 1]) / (before - from);
    }

    private static boolean stays(Bins bins, int from, double belowC) {
        for (int i = from; i < bins.size; i++) {
            if (bins.celsius[i] > belowC) {
                return false;
            }
        }
        return true;
    }

    private static HiddenTop fill(Bins bins, int after, Asked plan) {
        double fromS = bins.timeS[after - 1];
        double toS = bins.timeS[after];
        double fromC = bins.celsius[after - 1];
        double toC = bins.celsius[after];
        double slope = bins.slopeKPerH(toS, toS + 900) / 3600;
        double constantAfter = slope < 0 ? (toC - ROOM_C) / -slope : FreeFall.USUAL.slowS();
        // A kiln falls faster at first: of the time constant seen later 0.81 ± 0.05 holds from the top on (simulated
        // kilns of four families).
        double constant = constantAfter * (1 - FASTER_AT_FIRST);
        double before = bins.slopeKPerH(fromS - 900, fromS) / 3600;
        boolean holding = before < plan.lastRate() / 3600 / 4 || fromC > plan.topC() - TopPhase.NEAR_K;
        double rate = holding ? 0 : before;
        double stopsS = backTo(fromC, toC, toS, constant);
        double[] fill = new double[(int) ((toS - fromS) / Bins.WIDTH_S)];
        double levelC = holding ? fromC : plan.topC();
        double arriveS = holding || rate <= 0 ? fromS : fromS + Math.max(0, levelC - fromC) / rate;
        double leaveS = backTo(levelC, toC, toS, constant);
        double plannedEndS = holding ? fromS + plan.holdS() : arriveS + plan.holdS();
        // Cut off where the readings stopped, or gone on as planned: whichever the cooling drawn back comes nearer to.
        boolean wentOn = Math.abs(stopsS - fromS) > Math.abs(leaveS - plannedEndS) || stopsS > fromS + 2 * SLACK_S;
        double byStop = Math.abs(stopsS - fromS);
        double byPlan = Math.abs(leaveS - plannedEndS);
        double slackS = SLACK_S + SLACK_SHARE * (toS - fromS);
        boolean clear =
                Math.max(byStop, byPlan) > 2 * slackS && Math.max(byStop, byPlan) > 3 * Math.min(byStop, byPlan);
        boolean heldBack = plan.isCoolingAt(toC, -slope * 3600);
        wentOn |= heldBack;
        boolean asPlanned = Math.abs(leaveS - arriveS - plan.holdS()) < AS_PLANNED_S && arriveS + plan.holdS() < toS;
        if (wentOn && (asPlanned || heldBack) && !holding) {
            // The controller was at work before and after: what it was told is likelier than a cooling drawn back.
            leaveS = arriveS + plan.holdS();
            constant = (toS - leaveS) / Math.log(Math.max(1.001, (levelC - ROOM_C) / (toC - ROOM_C)));
        }
        for (int i = 0; i < fill.length; i++) {
            double at = fromS + (i + 1) * Bins.WIDTH_S;
            double rising = wentOn ? Math.min(levelC, fromC + rate * (at - fromS)) : fromC;
            double falling = ROOM_C + (toC - ROOM_C) * Math.exp((toS - at) / constant);
            fill[i] = at < leaveS ? Math.min(rising, Math.max(falling, toC)) : Math.min(rising, falling);
        }
        return new HiddenTop(fromS, toS, fromC, toC, wentOn, clear, bins.filled(after, fromS, fill));
    }

    /** When a free fall that is at one temperature at a time was at a higher one, s. */
    private static double backTo(double higherC, double lowerC, double atS, double constantS) {
        return atS - constantS * Math.log(Math.max(1, (higherC - ROOM_C) / (lowerC - ROOM_C)));
    }

    double minutes() {
        return (toS - fromS) / 60;
    }
}

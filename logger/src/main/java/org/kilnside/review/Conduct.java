package org.kilnside.review;

import java.util.List;

/**
 * What the controller asked of the kiln about the top and how the kiln answered, as far as the log tells: from
 * set-point and output where they are there, else from the shape of the curve.
 *
 * @param asks whether a set-point is known, and what of it
 * @param outputKnown whether the output is
 * @param limited how the kiln was short of power
 * @param end how the heating ended
 * @param dips where the heat was gone for a while
 * @param recovered whether the rise slackened on the way and came back to the planned pace by itself
 * @param broke whether its pace broke at once where the plan's goes on
 */
record Conduct(
        Asks asks, boolean outputKnown, Limited limited, Ending end, List<Dip> dips, boolean recovered, boolean broke) {
    /** A set-point counts as known where at least half of the last hours have one. */
    private static final double KNOWN = 0.5;

    private static final double LAST_HOURS_S = 3 * 3600;
    private static final double FULL = 0.95;
    /** A kiln with power to spare follows its set-point closer than this, K. */
    static final double BEHIND_K = 6;

    /** A set-point stands still within this, K. */
    private static final double STILL_K = 0.25;

    /** No ramp goes so far from one half minute to the next, K. */
    private static final double LEAP_K = 30;

    /** Less output than this is none. */
    private static final double LITTLE = 0.01;

    private static final double END_S = 1800;

    /** Slower than this share of the planned rate, a kiln does not follow. */
    private static final double SLOW = 0.85;

    /** A kiln that comes to its top as fast as that had power to spare. */
    private static final double KEEPS_PACE = 0.92;

    private static final double FAR_BEHIND_K = 15;
    private static final double LONG_FULL_MINUTES = 60;
    private static final double FASTER = 1.15;

    /** A top so much longer than planned, and lower, is a kiln that came no further. */
    private static final double STUCK_MINUTES = 30;

    private static final double STUCK_WITHIN_K = 100;

    static final double LATE_S = 480;

    /** A controller that has its kiln so close to the highest it asks for has what it wants, K. */
    static final double CONTENT_K = 4;

    private static final double SLACK_WINDOW_S = 1800;

    /** A supply fails once or twice in a firing; what swings more often is a controller. */
    private static final int MOST_CUTS = 3;

    private static final double LEAST_DIP_K = 15;

    /**
     * What the controller asked for.
     *
     * @param known whether the log tells
     * @param topC the highest set-point, °C
     * @param topMinutes how long it stood within a degree of it
     * @param stoodMinutes how long it stood still at it; where it stood there for ever, while the elements were on, as far
     *     as the log tells
     * @param stale whether it still stood there when the kiln had long been falling
     * @param rateKPerH how fast it rose over the last 100 °C below its highest; 0 where nobody can tell
     * @param leaps whether it leapt to its highest: the end of a ramp, given at once, and not where the kiln ought to be
     */
    record Asks(
            boolean known,
            double topC,
            double topMinutes,
            double stoodMinutes,
            boolean stale,
            double rateKPerH,
            boolean leaps) {
        static final Asks UNKNOWN = new Asks(false, 0, 0, 0, false, 0, false);

        /** Whether the kiln's distance from it says how the kiln followed. */
        boolean leads() {
            return known && !leaps;
        }
    }

    /**
     * Whether the kiln gave all it had and it was not enough.
     *
     * @param atEnd when the top was left, short of what was asked
     * @param inRise on the last 100 °C
     * @param late so that it came to the top when the hold it was asked for was partly over
     * @param fullMinutes how long before the top was left the output stood at its end
     * @param behindK how far below the set-point over the last half hour, K; 0 where not known
     * @param fromKPerH the rate from 100 to 60 °C below the top
     * @param toKPerH the rate over the last 20 °C
     */
    record Limited(
            boolean atEnd,
            boolean inRise,
            boolean late,
            double fullMinutes,
            double behindK,
            double fromKPerH,
            double toKPerH) {
        Limited andGaveWay() {
            return new Limited(true, inRise, late, fullMinutes, behindK, fromKPerH, toKPerH);
        }
    }

    /**
     * How the firing stands against the plan's own times, counted from a cold start.
     *
     * @param endedByTheClock whether the top was left, without a hold, when the plan's time for it was over
     * @param lateS by how much later than planned it came to its level, s; 0 where nobody can tell
     * @param heatsAgain whether the plan itself has the kiln rise once more after its top
     */
    record Schedule(boolean endedByTheClock, double lateS, boolean heatsAgain) {}

    /**
     * A stretch on which the kiln fell in mid-heating and came back.
     *
     * @param fromS when the heat went, s
     * @param toS when it was back, s
     * @param fromC where the kiln was, °C
     * @param depthK by how much it fell
     * @param asking whether the controller still asked for heat, or the log does not tell
     */
    record Dip(double fromS, double toS, double fromC, double depthK, boolean asking) {
        double minutes() {
            return (toS - fromS) / 60;
        }
    }

    static Conduct of(Bins bins, TopPhase phase, Shape real, Shape plan, double planHoldMinutes, Schedule schedule) {
        double left = phase.leftS();
        boolean setpoint = share(bins.setpoint, bins, left - LAST_HOURS_S, left) > KNOWN;
        boolean output = share(bins.output, bins, left - LAST_HOURS_S, left) > KNOWN;
        Asks asks = setpoint ? asks(bins, left) : Asks.UNKNOWN;
        Ending end = Ending.of(bins, phase, plan.levelC(), asks.known(), output);
        Limited limited = limited(bins, phase, real, plan, planHoldMinutes, schedule, asks, output);
        if (end.how() == Ending.How.GAVE_WAY) {
            limited = limited.andGaveWay();
        }
        return new Conduct(
                asks,
                output,
                limited,
                end,
                Dips.of(bins, phase, asks, output, schedule).stream()
                        .filter(dip -> !output || !gaveWay(bins, dip))
                        .toList(),
                recovered(bins, phase, plan),
                broke(bins, phase, plan));
    }

    /** A fall at full output that no kiln without any heat shows: some of the power was left. */
    private static boolean gaveWay(Bins bins, Dip dip) {
        return bins.meanOutput(dip.fromS() + 300, dip.toS()) > FULL && Ending.cameToRest(bins, dip.fromS(), dip.toS());
    }

    /** A slack of half an hour and more below the planned pace, with the planned pace before and after it. */
    private static boolean recovered(Bins bins, TopPhase phase, Shape plan) {
        double from = riseTime(bins, phase, Shape.BELOW_K);
        boolean kept = false;
        double slackest = Double.POSITIVE_INFINITY;
        double slackPlanned = 0;
        for (double at = from; at + SLACK_WINDOW_S <= phase.reachedS(); at += SLACK_WINDOW_S / 2) {
            double planned = plannedPace(bins, plan, at);
            double rate = bins.slopeKPerH(at, at + SLACK_WINDOW_S);
            double pace = planned <= 0 ? 1 : rate / planned;
            if (pace > 0.9 && rate > 1.3 * slackest && planned > 0.95 * slackPlanned && planned < 1.05 * slackPlanned) {
                return true;
            }
            if (kept && pace < 0.65 && rate < slackest) {
                slackest = rate;
                slackPlanned = planned;
            }
            kept |= pace > 0.8;
        }
        return false;
    }

    /** Whether the pace broke at once, away from the plan's corners: by a third of the planned pace within half an hour. */
    private static boolean broke(Bins bins, TopPhase phase, Shape plan) {
        double from = riseTime(bins, phase, Shape.BELOW_K);
        for (double at = from + 1500; at + 1500 <= phase.leftS(); at += 300) {
            double before = plannedPace(bins, plan, at - 1500);
            double after = plannedPace(bins, plan, at);
            boolean straight = before > 0 && Math.abs(before - after) < 0.05 * before;
            double drop = bins.slopeKPerH(at - 1380, at - 120) - bins.slopeKPerH(at + 120, at + 1380);
            double wider = bins.slopeKPerH(at - 2700, at - 1200) - bins.slopeKPerH(at - 1380, at - 120);
            if (straight && at + 1500 < phase.reachedS() && drop > 0.33 * before && wider < 0.12 * before) {
                return true;
            }
        }
        return false;
    }

    /** What the plan's pace is over the half hour from a time on, at the temperature then; 0 across a corner. */
    private static double plannedPace(Bins bins, Shape plan, double atS) {
        double fromK = bins.meanC(atS, atS + 120) - plan.levelC();
        double toK = bins.meanC(atS + SLACK_WINDOW_S - 120, atS + SLACK_WINDOW_S) - plan.levelC();
        double from = plan.rateAt(Math.min(fromK, -TopPhase.NEAR_K - 1));
        double to = plan.rateAt(Math.min(toK, -TopPhase.NEAR_K - 1));
        return Math.abs(from - to) < 0.05 * from ? from : 0;
    }

    private static double share(double[] values, Bins bins, double fromS, double toS) {
        int known = 0;
        int all = 0;
        for (int i = bins.firstFrom(fromS); i < bins.size && bins.timeS[i] <= toS; i++) {
            all++;
            known += Double.isNaN(values[i]) ? 0 : 1;
        }
        return all == 0 ? 0 : (double) known / all;
    }

    private static Asks asks(Bins bins, double left) {
        double top = Double.NEGATIVE_INFINITY;
        for (int i = 1; i < bins.size && bins.timeS[i] <= left + 60; i++) {
            // Two bins in a row: one garbled line is no set-point.
            double both = Math.min(bins.setpoint[i - 1], bins.setpoint[i]);
            top = both > top ? both : top;
        }
        if (Double.isInfinite(top)) {
            return Asks.UNKNOWN;
        }
        boolean stale = bins.meanSetpoint(left + 300, left + 900) > top - 1;
        double minutes = 0;
        double still = 0;
        double from = Double.NaN;
        double at = Double.NaN;
        boolean leaps = false;
        for (int i = 1; i < bins.size && bins.timeS[i] <= left + 60; i++) {
            double now = bins.setpoint[i];
            leaps |= now >= top - 1
                    && now > bins.setpoint[i - 1] + LEAP_K
                    && bins.setpoint[i - 1] > bins.celsius[i] - LEAP_K;
            double stood = now >= top - 1 ? (bins.timeS[i] - bins.timeS[i - 1]) / 60 : 0;
            minutes += stood;
            // A controller that has ended and goes on giving its last number holds nothing.
            boolean ended = bins.timeS[i] > left || stale && bins.output[i] < LITTLE;
            still += ended || now < top - STILL_K ? 0 : stood;
            from = Double.isNaN(from) && now >= top - 100 && bins.setpoint[i - 1] < top - 100 ? bins.timeS[i] : from;
            at = Double.isNaN(at) && now >= top - TopPhase.NEAR_K ? bins.timeS[i] : at;
        }
        boolean ramp = !Double.isNaN(from) && !Double.isNaN(at) && at - from > 300;
        double rate = ramp && !leaps ? (100 - TopPhase.NEAR_K) / (at - from) * 3600 : 0;
        return new Asks(true, top, minutes, still, stale, rate, leaps);
    }

    private static Limited limited(
            Bins bins,
            TopPhase phase,
            Shape real,
            Shape plan,
            double planHoldMinutes,
            Schedule schedule,
            Asks asks,
            boolean output) {
        double left = phase.leftS();
        double from = rate(bins, phase, 100, 60);
        double to = rate(bins, phase, 20, TopPhase.NEAR_K);
        double behind = asks.leads() ? bins.meanLag(left - END_S, left) : 0;
        double fullMinutes = output ? fullMinutes(bins, left) : 0;
        boolean low = phase.levelC() < plan.levelC() - TopPhase.NEAR_K;
        double planned = plan.lastRateKPerH();
        boolean fell = fellAway(bins, phase, from, to, planned);
        double riseFrom = riseTime(bins, phase, 100);
        double endRate = bins.slopeKPerH(left - END_S, left - 60);
        boolean slowAtEnd = endRate < SLOW * planned;
        boolean farBehind = asks.leads() && behind > FAR_BEHIND_K;
        boolean slow = real.lastRateKPerH() < SLOW * planned;
        // Faster than the plan all the same: the elements could have followed the plan.
        double pace = asks.known() && asks.rateKPerH() > 0 ? asks.rateKPerH() : real.lastRateKPerH();
        boolean faster = pace > FASTER * planned;
        boolean content = asks.known() && phase.levelC() > asks.topC() - CONTENT_K;
        boolean atEnd;
        boolean inRise;
        boolean cameLate;
        if (output) {
            boolean fullForLong =
                    !asks.leads() && fullMinutes > LONG_FULL_MINUTES && (!faster || schedule.lateS() > LATE_S);
            boolean cannotFollow = asks.leads() && behind > BEHIND_K;
            atEnd = low
                    && !content
                    && (slowAtEnd || cannotFollow || fullForLong)
                    && fullShare(bins, left - END_S, left - 60) > 0.8;
            inRise = slow && fullShare(bins, riseFrom, phase.reachedS()) > 0.6;
            cameLate = fullShare(bins, phase.reachedS() - 3600, phase.reachedS()) > 0.8;
        } else if (asks.leads()) {
            atEnd = low && !content && (slowAtEnd && behind > BEHIND_K || farBehind);
            inRise = slow && bins.meanLag(riseFrom, phase.reachedS()) > BEHIND_K;
            cameLate = bins.meanLag(phase.reachedS() - 2400, phase.reachedS() - 600) > BEHIND_K;
        } else {
            // Lower and slower, or lower and longer, is what a lack of power does; nobody programs the one against the
            // other.
            double heldMinutes = real.topMinutes() - plan.topMinutes();
            double below = plan.levelC() - phase.levelC();
            boolean stuck = below > BEHIND_K
                    && below < STUCK_WITHIN_K
                    && (slow && to < SLOW * planned || heldMinutes > STUCK_MINUTES);
            boolean heldAsPlanned = planHoldMinutes > 4 && heldMinutes > -0.3 * planHoldMinutes;
            boolean paced = to > KEEPS_PACE * planned && heldAsPlanned;
            boolean clock = schedule.endedByTheClock() && !paced && (!faster || schedule.lateS() > LATE_S);
            atEnd = low && (fell || clock || stuck);
            inRise = slow && fell;
            cameLate = false;
        }
        boolean askedFully = !asks.known() || asks.topMinutes() > 0.7 * planHoldMinutes;
        boolean late =
                cameLate && (!low || content) && !faster && askedFully && real.topMinutes() < plan.topMinutes() - 2;
        return new Limited(atEnd, inRise, late, fullMinutes, Double.isNaN(behind) ? 0 : behind, from, to);
    }

    /** Whether the rise bent over towards its end as a kiln does that has no more to give, where a program bends sharply. */
    private static boolean fellAway(Bins bins, TopPhase phase, double from, double to, double planned) {
        double middle = rate(bins, phase, 60, 30);
        return to < 0.6 * Math.min(planned, from) && middle < 0.95 * from && to < 0.85 * middle;
    }

    /** K/h between two depths below the level; 0 where the curve was not seen there. */
    private static double rate(Bins bins, TopPhase phase, double upperK, double lowerK) {
        double from = riseTime(bins, phase, upperK);
        double to = riseTime(bins, phase, lowerK);
        return to > from ? (upperK - lowerK) / (to - from) * 3600 : 0;
    }

    /** When the curve last rose through a depth below the level before it came to the top. */
    private static double riseTime(Bins bins, TopPhase phase, double belowK) {
        int i = bins.at(phase.reachedS());
        while (i > 0 && bins.celsius[i] > phase.levelC() - belowK) {
            i--;
        }
        return bins.timeS[i];
    }

    private static double fullMinutes(Bins bins, double left) {
        double end = left - 60;
        double at = end;
        while (at > bins.timeS[0] && bins.meanOutput(at - 300, at) >= FULL) {
            at -= 300;
        }
        return (end - at) / 60;
    }

    private static double fullShare(Bins bins, double fromS, double toS) {
        int full = 0;
        int all = 0;
        for (double at = fromS; at + 300 <= toS + 1; at += 300) {
            double mean = bins.meanOutput(at, at + 300);
            if (!Double.isNaN(mean)) {
                all++;
                full += mean >= FULL ? 1 : 0;
            }
        }
        return all == 0 ? 0 : (double) full / all;
    }

    /** A dip late enough to have cost heat work, and too deep for a controller's swing. */
    List<Dip> dipsThatCount(double levelC) {
        double usual = dips.stream()
                .map(Dip::depthK)
                .sorted()
                .skip(dips.size() / 2)
                .findFirst()
                .orElse(0.0);
        double least = dips.size() > MOST_CUTS ? Math.max(LEAST_DIP_K, 3 * usual) : LEAST_DIP_K;
        return dips.stream()
                .filter(dip -> dip.fromC() > levelC - Shape.BELOW_K && dip.depthK() >= least && dip.minutes() >= 4)
                .toList();
    }
}

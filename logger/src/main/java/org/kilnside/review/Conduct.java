package org.kilnside.review;

import java.util.ArrayList;
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
 */
record Conduct(Asks asks, boolean outputKnown, Limited limited, End end, List<Dip> dips) {
    /** A set-point counts as known where at least half of the last hours have one. */
    private static final double KNOWN = 0.5;

    private static final double LAST_HOURS_S = 3 * 3600;
    private static final double FULL = 0.95;
    /** A kiln with power to spare follows its set-point closer than this, K. */
    static final double BEHIND_K = 6;

    private static final double END_S = 1800;

    /**
     * What the controller asked for.
     *
     * @param known whether the log tells
     * @param topC the highest set-point, °C
     * @param topMinutes how long it stood within a degree of it
     * @param rateKPerH how fast it rose over the last 100 °C below its highest
     */
    record Asks(boolean known, double topC, double topMinutes, double rateKPerH) {
        static final Asks UNKNOWN = new Asks(false, 0, 0, 0);
    }

    /**
     * Whether the kiln gave all it had and it was not enough.
     *
     * @param atEnd when the top was left, short of what was asked
     * @param inRise on the last 100 °C
     * @param fullMinutes how long before the top was left the output stood at its end
     * @param behindK how far below the set-point over the last half hour, K; 0 where not known
     * @param fromKPerH the rate from 100 to 60 °C below the top
     * @param toKPerH the rate over the last 20 °C
     */
    record Limited(
            boolean atEnd, boolean inRise, double fullMinutes, double behindK, double fromKPerH, double toKPerH) {}

    /** How the heating ended. */
    record End(How how, double atS, double atC) {
        enum How {
            /** The controller had stopped asking for heat. */
            STOPPED_ASKING,
            /** It still asked, and the kiln fell. */
            STILL_ASKING,
            /** The log does not tell. */
            UNKNOWN,
            /** The log ends before the kiln falls. */
            NOT_SEEN
        }
    }

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

    static Conduct of(Bins bins, TopPhase phase, Shape real, Shape plan) {
        double left = phase.leftS();
        boolean setpoint = share(bins.setpoint, bins, left - LAST_HOURS_S, left) > KNOWN;
        boolean output = share(bins.output, bins, left - LAST_HOURS_S, left) > KNOWN;
        Asks asks = setpoint ? asks(bins, left) : Asks.UNKNOWN;
        Limited limited = limited(bins, phase, real, plan, asks, output);
        return new Conduct(asks, output, limited, end(bins, phase, asks, output), dips(bins, phase, asks, output));
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
        double minutes = 0;
        double from = Double.NaN;
        double at = Double.NaN;
        for (int i = 1; i < bins.size && bins.timeS[i] <= left + 60; i++) {
            double now = bins.setpoint[i];
            minutes += now >= top - 1 ? (bins.timeS[i] - bins.timeS[i - 1]) / 60 : 0;
            from = Double.isNaN(from) && now >= top - 100 && bins.setpoint[i - 1] < top - 100 ? bins.timeS[i] : from;
            at = Double.isNaN(at) && now >= top - TopPhase.NEAR_K ? bins.timeS[i] : at;
        }
        boolean ramp = !Double.isNaN(from) && !Double.isNaN(at) && at - from > 300;
        return new Asks(true, top, minutes, ramp ? (100 - TopPhase.NEAR_K) / (at - from) * 3600 : 0);
    }

    private static Limited limited(Bins bins, TopPhase phase, Shape real, Shape plan, Asks asks, boolean output) {
        double left = phase.leftS();
        double from = rate(bins, phase, 100, 60);
        double to = rate(bins, phase, 20, TopPhase.NEAR_K);
        double behind = asks.known() ? bins.meanLag(left - END_S, left) : 0;
        double fullMinutes = output ? fullMinutes(bins, left) : 0;
        boolean low = phase.levelC() < plan.levelC() - TopPhase.NEAR_K;
        double planned = plan.lastRateKPerH();
        boolean fell = fellAway(bins, phase, from, to, planned);
        boolean atEnd;
        boolean inRise;
        double riseFull = Double.NaN;
        double riseFrom = riseTime(bins, phase, 100);
        if (output) {
            riseFull = fullShare(bins, riseFrom, phase.reachedS());
        }
        double real100 = real.lastRateKPerH();
        boolean slow = real100 < 0.85 * planned;
        if (output) {
            atEnd = low && fullShare(bins, left - END_S, left - 60) > 0.8;
            inRise = slow && riseFull > 0.6;
        } else if (asks.known()) {
            atEnd = low && behind > BEHIND_K && (fell || bins.slopeKPerH(left - END_S, left) < 0.7 * planned);
            inRise = slow && bins.meanLag(riseFrom, phase.reachedS()) > BEHIND_K;
        } else {
            atEnd = low && fell;
            inRise = slow && fell;
        }
        return new Limited(atEnd, inRise, fullMinutes, Double.isNaN(behind) ? 0 : behind, from, to);
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

    private static End end(Bins bins, TopPhase phase, Asks asks, boolean output) {
        double left = phase.leftS();
        double atC = bins.meanC(left - 120, left + 1);
        if (!phase.falls() || bins.timeS[bins.last()] < left + 180) {
            return new End(End.How.NOT_SEEN, left, atC);
        }
        boolean freely = bins.slopeKPerH(left + 120, left + 900) < -45;
        if (output) {
            double after = bins.meanOutput(left + 150, left + 1050);
            return new End(after > 0.5 && freely ? End.How.STILL_ASKING : End.How.STOPPED_ASKING, left, atC);
        }
        if (asks.known()) {
            double lag = bins.meanLag(left + 300, left + 1200);
            boolean asking = !Double.isNaN(lag) && lag > 12 && freely && asks.topC() > atC - 30;
            return new End(asking ? End.How.STILL_ASKING : End.How.STOPPED_ASKING, left, atC);
        }
        return new End(End.How.UNKNOWN, left, atC);
    }

    /** Falls of at least 12 °C in mid-heating, over before the top is left, that no plan asked for. */
    private static List<Dip> dips(Bins bins, TopPhase phase, Asks asks, boolean output) {
        List<Dip> dips = new ArrayList<>();
        double highest = bins.celsius[0];
        int highestAt = 0;
        int end = bins.at(phase.leftS());
        for (int i = 1; i <= end; i++) {
            if (bins.celsius[i] >= highest) {
                highest = bins.celsius[i];
                highestAt = i;
                continue;
            }
            if (highest - bins.celsius[i] < 12) {
                continue;
            }
            int back = i;
            double lowest = bins.celsius[i];
            int lowestAt = i;
            while (back <= end && bins.celsius[back] < highest - 2) {
                if (bins.celsius[back] < lowest) {
                    lowest = bins.celsius[back];
                    lowestAt = back;
                }
                back++;
            }
            if (back <= end || bins.timeS[end] - bins.timeS[lowestAt] > 600) {
                double fromS = bins.timeS[highestAt];
                double toS = bins.timeS[lowestAt];
                double out = bins.meanOutput(fromS + 120, toS);
                double lag = bins.meanLag(fromS + 120, toS);
                boolean asking =
                        output && !Double.isNaN(out) ? out > 0.5 : Double.isNaN(lag) || lag > 3 || !asks.known();
                dips.add(new Dip(fromS, toS, highest, highest - lowest, asking));
            }
            i = Math.max(i, Math.min(back, end));
            highest = Math.max(highest - 2, bins.celsius[i]);
            highestAt = i;
        }
        return dips;
    }

    /** A dip late enough to have cost heat work, and deep enough not to be a controller's swing. */
    List<Dip> dipsThatCount(double levelC) {
        return dips.stream()
                .filter(dip -> dip.fromC() > levelC - Shape.BELOW_K && dip.depthK() >= 15 && dip.minutes() >= 4)
                .toList();
    }
}

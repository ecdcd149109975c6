package org.kilnside.review;

/**
 * How the heating ended.
 *
 * @param how in which way
 * @param atS when the top was left, s
 * @param atC where the kiln was then, °C
 * @param askedUntilS until when heat was asked for, s; the same as {@code atS} but where the kiln gave way
 */
record Ending(How how, double atS, double atC, double askedUntilS) {
    enum How {
        /** The controller had stopped asking for heat. */
        STOPPED_ASKING,
        /** It still asked, and the kiln fell. */
        STILL_ASKING,
        /** It still asked, and the kiln fell more slowly than one without any heat: part of the power was left. */
        GAVE_WAY,
        /** The log does not tell. */
        UNKNOWN,
        /** The log ends before the kiln falls. */
        NOT_SEEN
    }

    private static final double FULL = 0.95;
    private static final double FALLING_K_PER_H = 40;
    private static final double BEHIND_K = 12;

    /** The heaviest of kilns that glows falls faster than this without heat, K/h. */
    private static final double SLOWEST_FREE_FALL_K_PER_H = 80;

    private static final double STILL_GLOWING_C = 900;

    /** With two rings of three left a kiln falls at less than this part of its free fall. */
    private static final double PART_OF_FREE_FALL = 0.5;

    /** Without heat a kiln slows down to a third of its pace in an hour; one with some heat left comes to rest. */
    private static final double COMES_TO_REST = 0.12;

    private static final double WINDOW_S = 600;

    /** A set-point that moves on by so much after the kiln has turned is one of a controller at work, K. */
    private static final double MOVED_K = 1;

    /** Unless that brought it to the plan's top, where it may end, K. */
    private static final double ARRIVED_K = 1;

    private static final double NEARLY_ARRIVED_K = 4;

    private static final double STANDS_K = 1.5;
    private static final double STANDS_S = 480;

    static Ending of(Bins bins, TopPhase phase, double planTopC, boolean setpoint, boolean output) {
        double left = phase.leftS();
        double atC = bins.meanC(left - 120, left + 1);
        if (!phase.falls() || bins.timeS[bins.last()] < left + 180) {
            return new Ending(How.NOT_SEEN, left, atC, left);
        }
        if (!output && !setpoint) {
            return new Ending(How.UNKNOWN, left, atC, left);
        }
        for (double at = left + 120; at < left + 1500; at += 150) {
            boolean falling = bins.slopeKPerH(at, at + 300) < -FALLING_K_PER_H;
            if (falling && isAsking(bins, at, setpoint, output)) {
                How how = output ? How.STILL_ASKING : bySetpointAlone(bins, left, planTopC);
                double until = askedUntil(bins, at, setpoint, output);
                boolean someHeat = how == How.STILL_ASKING && fellSlowly(bins, left, until);
                return new Ending(someHeat ? How.GAVE_WAY : how, left, atC, someHeat ? until : left);
            }
        }
        return new Ending(How.STOPPED_ASKING, left, atC, left);
    }

    private static boolean isAsking(Bins bins, double at, boolean setpoint, boolean output) {
        double out = bins.meanOutput(at, at + 300);
        double lag = bins.meanLag(at, at + 300);
        boolean full = output && !Double.isNaN(out) && out > FULL;
        boolean behind = setpoint && !Double.isNaN(lag) && lag > BEHIND_K;
        return output ? full && (behind || !setpoint) : behind;
    }

    private static double askedUntil(Bins bins, double fromS, boolean setpoint, boolean output) {
        double until = fromS;
        while (until + 300 <= bins.timeS[bins.last()] && isAsking(bins, until, setpoint, output)) {
            until += 300;
        }
        return until;
    }

    /** Whether it fell, while heat was asked for, as no kiln does that has none at all. */
    private static boolean fellSlowly(Bins bins, double left, double until) {
        double free = fastest(bins, until + 120, until + 4 * WINDOW_S);
        boolean fasterAfter = free > 0 && fastest(bins, left + 120, until) < PART_OF_FREE_FALL * free;
        return fasterAfter || cameToRest(bins, left, until);
    }

    /** Whether it fell from a time until another, for half an hour at least, as if to come to rest while it still glowed. */
    static boolean cameToRest(Bins bins, double left, double until) {
        double fastest = fastest(bins, left + 120, until);
        boolean rests = -bins.slopeKPerH(until - 2 * WINDOW_S, until) < COMES_TO_REST * fastest;
        boolean glowed = bins.meanC(until - WINDOW_S, until) > STILL_GLOWING_C;
        return glowed && until > left + 3 * WINDOW_S && (rests || fastest < SLOWEST_FREE_FALL_K_PER_H);
    }

    /** The fastest fall over a window, K/h; 0 where there is none. */
    private static double fastest(Bins bins, double fromS, double toS) {
        double fastest = 0;
        for (double at = fromS; at + WINDOW_S <= Math.min(toS, bins.timeS[bins.last()]); at += WINDOW_S / 2) {
            fastest = Math.max(fastest, -bins.slopeKPerH(at, at + WINDOW_S));
        }
        return fastest;
    }

    /**
     * A set-point above a falling kiln: a controller at work moves it on, or leaves its top when the hold is over. One
     * that has ended may go on giving its last number for ever, which tells nothing.
     */
    private static How bySetpointAlone(Bins bins, double left, double planTopC) {
        double before = bins.meanSetpoint(left - 45, left + 1);
        double highest = before;
        double standsUntil = left;
        for (int i = bins.firstFrom(left); i < bins.size; i++) {
            if (Double.isNaN(bins.setpoint[i]) || bins.setpoint[i] < before - STANDS_K) {
                break;
            }
            highest = Math.max(highest, bins.setpoint[i]);
            standsUntil = bins.timeS[i];
        }
        boolean arrived = highest > planTopC - ARRIVED_K && before > planTopC - NEARLY_ARRIVED_K;
        boolean wentOn = highest > before + MOVED_K && !arrived;
        boolean leftItLater = standsUntil < bins.timeS[bins.last()] - 60 && standsUntil > left + STANDS_S;
        return wentOn || leftItLater ? How.STILL_ASKING : How.UNKNOWN;
    }
}

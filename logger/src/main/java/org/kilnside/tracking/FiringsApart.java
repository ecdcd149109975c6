package org.kilnside.tracking;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Share;

/**
 * The firings that follow one another in one curve, parted where a live recording would begin a new one: the ware was
 * changed between them, so that heat of the one is none of the other's.
 */
public final class FiringsApart {
    /** A kiln that gets no hotter than this was dried or tried, and not fired, °C. */
    private static final double FIRED_C = 200;

    /** A kiln that has fallen by as much cools; one that is by as much above where it was lit burns, K. */
    private static final double FALLEN_K = 15;

    private static final double LIT_K = 60;
    /** The elements' share of the time by which a kiln is heated. */
    private static final double HEATED = 0.1;

    /** A kiln that is lit again is seen to be within so long. */
    private static final long SEEN_WITHIN_MS = 2 * 3_600_000L;

    private FiringsApart() {}

    /**
     * Parts a curve of good readings.
     *
     * @return the firings, oldest first; the curve itself where it holds no second one
     */
    public static List<Trace> of(Trace curve) {
        return fired(curve, begins(curve), false);
    }

    /** The firing a curve ends in, though it has just been lit: what was before is over. */
    public static Trace newest(Trace curve) {
        List<Trace> firings = fired(curve, begins(curve), true);
        return firings.get(firings.size() - 1);
    }

    /** Where each piece begins; last, the end. */
    private static List<Integer> begins(Trace curve) {
        List<Integer> begins = new ArrayList<>();
        begins.add(0);
        FiringTracker tracker = new FiringTracker(Optional.empty());
        int begun = 0;
        for (int i = 0; i < curve.size(); i++) {
            tracker.take(curve.elapsedMs(i), curve.temperatureC(i), said(curve, i));
            tracker.takeHappened();
            if (tracker.litAgain()) {
                begun = Math.max(begun + 1, coldest(curve, i));
                begins.add(begun);
                tracker = new FiringTracker(Optional.empty());
                i = begun - 1;
            }
        }
        begins.add(curve.size());
        return begins;
    }

    /** Where the rise began by which the lighting was seen. */
    private static int coldest(Trace curve, int seen) {
        int coldest = seen;
        for (int i = seen; i >= 0 && curve.elapsedMs(i) >= curve.elapsedMs(seen) - SEEN_WITHIN_MS; i--) {
            coldest = curve.temperatureC(i) < curve.temperatureC(coldest) ? i : coldest;
        }
        return coldest;
    }

    /** Joins what was no firing to the firing before it, or at the beginning to the one after it. */
    private static List<Trace> fired(Trace curve, List<Integer> begins, boolean underWay) {
        List<Trace> firings = new ArrayList<>();
        int from = 0;
        boolean hot = false;
        for (int piece = 1; piece < begins.size(); piece++) {
            double highestC = highestC(curve, begins.get(piece - 1), begins.get(piece));
            boolean isLast = piece == begins.size() - 1;
            boolean isFiring =
                    highestC >= FIRED_C || (underWay && isLast && rises(curve, begins.get(piece - 1), highestC));
            if (hot && isFiring) {
                firings.add(part(curve, from, begins.get(piece - 1)));
                from = begins.get(piece - 1);
            }
            hot |= isFiring;
        }
        firings.add(from == 0 ? curve : part(curve, from, curve.size()));
        return firings;
    }

    /**
     * Whether it has been heated well above where it was lit, by the controller's own word: without that it may as well be a
     * lid that was shut over warm ware.
     */
    private static boolean rises(Trace curve, int from, double highestC) {
        if (from == 0 || curve.output(curve.size() - 1).isEmpty()) {
            return false;
        }
        double on = IntStream.range(from, curve.size())
                .mapToDouble(i -> curve.output(i).orElse(0))
                .average()
                .orElse(0);
        double nowC = curve.temperatureC(curve.size() - 1);
        return on >= HEATED && nowC >= highestC - FALLEN_K && nowC >= curve.temperatureC(from) + LIT_K;
    }

    private static double highestC(Trace curve, int from, int to) {
        double highest = Double.NEGATIVE_INFINITY;
        for (int i = from; i < to; i++) {
            highest = Math.max(highest, curve.temperatureC(i));
        }
        return highest;
    }

    private static Trace part(Trace curve, int from, int to) {
        Trace.Builder part = new Trace.Builder();
        for (int i = from; i < to; i++) {
            part.add(curve.elapsedMs(i), curve.temperatureC(i), curve.output(i), curve.setpointC(i));
        }
        return part.view();
    }

    private static ControllerReport said(Trace curve, int index) {
        Optional<Share> output = curve.output(index).isPresent()
                ? Optional.of(new Share(curve.output(index).getAsDouble()))
                : Optional.empty();
        return new ControllerReport(output, Optional.empty(), OptionalInt.empty());
    }
}

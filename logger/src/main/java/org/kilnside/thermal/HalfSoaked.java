package org.kilnside.thermal;

import java.util.List;
import java.util.Optional;
import org.kilnside.quantity.Temperature;

/**
 * A wall that took up its heat in another way than firings have it: the elements went off while the kiln still climbed, far below any
 * top, as when the power fails, or it was heated again on its way down. How unevenly wall and load are warm is what such a
 * cooling begins with, and a fit that knows a wall and one lump of load is surer of it than it may be. Set on thirty kilns of an outside
 * simulator with four lumps of load, of brick, fibre and layers, 6 to 800 litres (docs/decisions/0021).
 */
final class HalfSoaked {
    /** What the end of a broken climb leaves open of ln(remaining time), and after what time alone two thirds of that are told, s. */
    private static final double CLIMBED = 0.8;

    private static final double CLIMBED_TOLD_S = 6500;

    /** Slower than this it was hardly a climb, K/s, looked at over so long, s. */
    private static final double CLIMBS_KS = 40 / 3600.0;

    private static final double CLIMB_LOOK_S = 600;

    /** From here up a wall is as soaked as at many a top, and wholly unlike one from so much further down, °C and K. */
    private static final double SOAKED_C = 1100;

    /** The same where nobody says how hot it was to get: a bisque may end here, with hardly a hold. */
    private static final double MAY_BE_ITS_TOP_C = 950;

    /** Within this of its top a kiln has come to it, K. */
    private static final double AT_ITS_TOP_K = 25;

    private static final double SOAKED_WITHIN_K = 300;

    /** The same of a kiln that was heated again, and by how much it was at the least, K. */
    private static final double AGAIN = 0.22;

    private static final double AGAIN_TOLD_S = 9000;

    /** By how much such a one is told too early: its ware is warm outside and gives way fast at first, ln. */
    private static final double AGAIN_EARLY = 0.06;

    private static final double AGAIN_BY_K = 50;

    /** More than this is said. */
    static final double SAID = 0.1;

    private HalfSoaked() {}

    /** Whether the kiln that is left alone now was heated again after it had begun to cool. */
    static boolean again(Course course, Phases phases) {
        List<Phases.Span> spans = phases.free();
        if (spans.size() < 2 || phases.drivenNow()) {
            return false;
        }
        int cooledTo = spans.get(spans.size() - 2).to();
        int from = spans.get(spans.size() - 1).from();
        return cooledTo > phases.peak() && course.temperatureC[from] - course.temperatureC[cooledTo] > AGAIN_BY_K;
    }

    /** Whether a kiln that is left alone was heated again, or let go in mid-climb more likely than not. */
    static boolean is(FiringData data) {
        List<Phases.Span> spans = data.phases.free();
        return again(data.course, data.phases)
                || !spans.isEmpty()
                        && climbed(data.course, spans.get(spans.size() - 1).from()) > 0.5;
    }

    /** How far a kiln left alone since a point was let go in mid-climb, 0 … 1; 0 where it was let go at a top. */
    static double climbed(Course course, int from) {
        return climbed(course, from, MAY_BE_ITS_TOP_C);
    }

    private static double climbed(Course course, int from, double soakedC) {
        double at = course.timeS[from];
        double climbs = course.line(at - CLIMB_LOOK_S, at).slopeKS() / CLIMBS_KS;
        return share(climbs) * share((soakedC - course.temperatureC[from]) / SOAKED_WITHIN_K);
    }

    /**
     * Half-width of ln(remaining time) that it leaves open beside all else; 0 where the elements are on.
     *
     * @param top how hot it was to get, where somebody said
     */
    static double leavesOpen(FiringData data, Optional<Temperature> top) {
        List<Phases.Span> spans = data.phases.free();
        if (spans.isEmpty() || data.phases.drivenNow()) {
            return 0;
        }
        double alone = data.leftAloneForS();
        if (again(data.course, data.phases)) {
            return AGAIN * Math.exp(-alone / AGAIN_TOLD_S);
        }
        int from = spans.get(spans.size() - 1).from();
        double letGoC = data.course.temperatureC[from];
        if (top.isPresent() && letGoC > top.get().celsius() - AT_ITS_TOP_K) {
            return 0;
        }
        double climbed = climbed(data.course, from, top.isPresent() ? SOAKED_C : MAY_BE_ITS_TOP_C);
        return CLIMBED * climbed * Math.exp(-alone / CLIMBED_TOLD_S);
    }

    /** What to add to ln(remaining time). */
    static double takesLonger(FiringData data) {
        return again(data.course, data.phases) ? AGAIN_EARLY * Math.exp(-data.leftAloneForS() / AGAIN_TOLD_S) : 0;
    }

    private static double share(double part) {
        return Math.max(0, Math.min(1, part));
    }
}

package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.List;

/** Where a falling curve's rate changes all at once: power coming on or off, a bung, a lid. */
final class SuddenChanges {
    private static final double WAIT_S = 120;

    /** Hotter than this, a fall that suddenly is this many times as fast is not a bung but power going off. */
    private static final double NOBODY_OPENS_C = 450;

    private static final double NO_BUNG = 1.6;
    private static final double EARLIEST_POWER_S = 300;

    private SuddenChanges() {}

    /**
     * Sudden changes of rate after the top. A fall that slows by a third is power coming on, and the next one that
     * quickens its going off: what lies between is marked as driven. A fall that quickens without that is a bung
     * pulled, a lid propped, a door opened, and one that then slows is its closing.
     */
    static List<Phases.Bend> find(Course course, int from, boolean[] driven) {
        List<Phases.Bend> bends = new ArrayList<>();
        int poweredFrom = -1;
        int lastEvent = Math.min(course.last(), from + 1);
        boolean opened = false;
        double topS = course.timeS[from];
        int i = course.at(topS + EARLIEST_POWER_S) + 1;
        while (i < course.last()) {
            double at = course.timeS[i];
            boolean settled = at > topS + 2 * Phases.LOOK_S;
            if (driven[i]) {
                poweredFrom = poweredFrom < 0 ? i : poweredFrom;
                i++;
                continue;
            }
            Course.Line before = course.line(Math.max(topS, at - Phases.LOOK_S), at);
            Course.Line after = course.line(at + WAIT_S, at + WAIT_S + Phases.LOOK_S);
            if (at + WAIT_S + Phases.LOOK_S > course.lastS()) {
                after = course.line(Math.max(at + WAIT_S, course.lastS() - Phases.LOOK_S), course.lastS());
                if (after.points() < 6 || at + WAIT_S + Phases.LOOK_S / 2 > course.lastS()) {
                    break;
                }
            }
            if (before.points() < 5 || after.points() < 5) {
                i++;
                continue;
            }
            double slow = -before.slopeKS();
            double fast = -after.slopeKS();
            double error = 4.5 * Math.hypot(before.slopeErrorKS(), after.slopeErrorKS());
            if ((settled || poweredFrom >= 0) && slow > -Phases.FLAT_KS && fast > slow * 1.12 + error + 3 / 3600.0) {
                int corner = corner(course, i, 1);
                if (poweredFrom < 0 && course.temperatureC[corner] > NOBODY_OPENS_C && fast > NO_BUNG * slow) {
                    poweredFrom = lastEvent;
                }
                lastEvent = corner;
                if (poweredFrom >= 0) {
                    for (int k = poweredFrom; k <= corner; k++) {
                        driven[k] = true;
                    }
                    poweredFrom = -1;
                } else {
                    bends.add(new Phases.Bend(corner, fast / Math.max(slow, Phases.FLAT_KS)));
                    opened = true;
                }
                i = course.at(course.timeS[corner] + 2 * Phases.LOOK_S) + 1;
            } else if (fast < slow * (settled ? 0.66 : 0.2) - error) {
                int corner = corner(course, i, -1);
                lastEvent = corner;
                if (opened) {
                    opened = false;
                } else {
                    poweredFrom = corner;
                }
                i = course.at(course.timeS[corner] + Phases.LOOK_S) + 1;
            } else {
                i++;
            }
        }
        if (poweredFrom >= 0 && !driven[course.last()]) {
            for (int k = poweredFrom; k < course.size; k++) {
                driven[k] = driven[k] || lastDrivenAfter(driven, k);
            }
        }
        return bends;
    }

    private static boolean lastDrivenAfter(boolean[] driven, int at) {
        for (int k = at; k < driven.length; k++) {
            if (driven[k]) {
                return true;
            }
        }
        return false;
    }

    /** The point in the next 25 min where the curve bends most: downwards for 1, upwards for −1. */
    private static int corner(Course course, int from, int sign) {
        int best = from;
        double most = 0;
        for (int k = from; k < course.last() && course.timeS[k] < course.timeS[from] + Phases.LOOK_S + 300; k++) {
            double at = course.timeS[k];
            if (at + Phases.KNEE_LOOK_S > course.lastS()) {
                break;
            }
            double bend = sign
                    * (course.line(at - Phases.KNEE_LOOK_S, at).slopeKS()
                            - course.line(at, at + Phases.KNEE_LOOK_S).slopeKS());
            if (bend > most) {
                most = bend;
                best = k;
            }
        }
        return best;
    }
}

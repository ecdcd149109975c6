package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalInt;

/**
 * Where in a course the elements were on and where the kiln was left to itself: from the output where the controller
 * gives it, else from the set-point, else from the curve's shape. Left to itself a kiln cools ever more slowly; a
 * straight ramp, a flat line or a bend downwards has a cause.
 */
final class Phases {
    /** An output below this is off: a controller's dead time, rounding. */
    private static final double OFF_OUTPUT = 0.01;

    /** Without output: this far above its set-point a kiln is not heated; and this far below it, it ought to be, K. */
    private static final double ABOVE_SETPOINT_K = 20;

    static final double LOOK_S = 1200;
    private static final double SHORTEST_SPAN_S = 600;
    private static final double SHORTEST_BETWEEN_S = 3600;

    /** Pauses of a pulsing controller: how far back they are looked for, s; and by how much the next may be longer. */
    private static final double PAUSES_WITHIN_S = 3 * 3600;

    private static final double PAUSE_TIMES = 1.4;
    private static final double LONGEST_PAUSE_S = 2400;

    /** A hold sags or is overshot by less than this, K. */
    private static final double KNEE_K = 30;

    static final double KNEE_LOOK_S = 420;

    /** Six kelvin an hour is a hold. */
    static final double FLAT_KS = 6 / 3600.0;

    /** Lower than this nothing was fired; less than so far below its top a kiln may have sunk and stalled, °C and K. */
    private static final double FIRED_C = 450;

    private static final double BELOW_TOP_K = 60;

    /** A kiln that takes more output than this is not held: it cannot do more. */
    private static final double HELD_WITH = 0.9;

    /**
     * A span in which the elements were off and the kiln was cooling.
     *
     * @param from first point
     * @param to last point
     */
    record Span(int from, int to) {}

    /**
     * A bend that no kiln left to itself makes: something was opened.
     *
     * @param rateTimes how many times as fast it cools after it; less than 1 where what was open has been shut
     */
    record Bend(int at, double rateTimes) {
        boolean opens() {
            return rateTimes > 1;
        }
    }

    private final List<Span> free;
    private final List<Bend> bends;
    private final int peak;
    private final boolean coolingNow;
    private final boolean drivenNow;

    private Phases(List<Span> free, List<Bend> bends, int peak, boolean coolingNow, boolean drivenNow) {
        this.free = List.copyOf(free);
        this.bends = List.copyOf(bends);
        this.peak = peak;
        this.coolingNow = coolingNow;
        this.drivenNow = drivenNow;
    }

    /** Spans of free cooling, in time; the last one may reach to now. */
    List<Span> free() {
        return free;
    }

    /** Bends in the last free span. */
    List<Bend> bends() {
        return bends;
    }

    /** Whether a controller asks for more than the kiln has, whatever the elements do. */
    static boolean stillAsked(Course course) {
        int last = course.last();
        return course.setpointC[last] > course.temperatureC[last] + ABOVE_SETPOINT_K;
    }

    /** The last point near the highest temperature. */
    int peak() {
        return peak;
    }

    /** Whether the top is past and the kiln is on its way down, driven or not. */
    boolean coolingNow() {
        return coolingNow;
    }

    /** Whether the elements are on now although the kiln is on its way down. */
    boolean drivenNow() {
        return drivenNow;
    }

    /** The same, with elements that lead it down since a moment. */
    Phases ledDownSince(Course course, double sinceS) {
        List<Span> alone = new ArrayList<>();
        for (Span span : free) {
            int to = Math.min(span.to(), course.at(sinceS));
            if (!DrivenFall.fallsNoFaster(course, course.timeS[span.from()], course.timeS[to], course.lastS())) {
                addSpan(course, alone, span.from(), to, course.last());
            }
        }
        return new Phases(alone, List.of(), peak, coolingNow, true);
    }

    static Phases of(Course course) {
        return of(course, OptionalInt.empty());
    }

    /** The same of a course without outputs, its plan's last driven stretch being over from some point on. */
    static Phases letGo(Course course, int at) {
        return of(course, OptionalInt.of(at));
    }

    private static Phases of(Course course, OptionalInt letGo) {
        boolean[] off = off(course, letGo);
        int peak = peak(course);
        List<Span> free = new ArrayList<>();
        int begin = -1;
        for (int i = 0; i < course.size; i++) {
            if (off[i] && begin < 0) {
                begin = i;
            }
            if (begin >= 0 && (!off[i] || i == course.last())) {
                int end = off[i] ? i : i - 1;
                addSpan(course, free, begin, end, course.last());
                begin = -1;
            }
        }
        int last = course.last();
        boolean fallen = course.temperatureC[last] < course.temperatureC[peak] - Math.max(6, noise(course) * 6);
        boolean freeNow = !free.isEmpty() && free.get(free.size() - 1).to() == last;
        // Off for too short a time to say more: not yet a cooling, and not one with the elements on either.
        boolean cooling = fallen
                && (freeNow || !off[last] && fallsNow(course) || holdsOnTheWayDown(course, peak))
                && hasHeated(course, peak);
        List<Bend> bends = new ArrayList<>();
        if (freeNow) {
            int begin1 = free.get(free.size() - 1).from();
            for (Bend bend : SuddenChanges.find(course, begin1, new boolean[course.size])) {
                if (bend.at() > begin1) {
                    bends.add(bend);
                }
            }
            if (bends.isEmpty()) {
                bends.addAll(Kinks.find(course, begin1));
            }
        }
        return new Phases(free, bends, peak, cooling, cooling && !freeNow);
    }

    private static void addSpan(Course course, List<Span> free, int begin, int end, int last) {
        boolean long1 = course.timeS[end] - course.timeS[begin] >= SHORTEST_SPAN_S;
        boolean falls = course.temperatureC[begin] - course.temperatureC[end] > 5;
        boolean now =
                end == last && (course.temperatureC[begin] - course.temperatureC[end] > 2 || fellBefore(course, begin));
        if (end - begin >= (end == last ? 1 : 2) && (long1 && falls || now)) {
            free.add(new Span(begin, end));
        }
    }

    /** Whether the log was silent while the kiln fell to where it is back, the elements off: it need not be seen to fall on. */
    private static boolean fellBefore(Course course, int begin) {
        return begin > 0
                && course.overlapsGap(course.timeS[begin - 1], course.timeS[begin])
                && course.temperatureC[begin - 1] - course.temperatureC[begin] > BELOW_TOP_K;
    }

    private static boolean hasHeated(Course course, int peak) {
        return course.temperatureC[peak] > course.temperatureC[0] + 30 || course.temperatureC[0] > 60;
    }

    private static boolean fallsNow(Course course) {
        double now = course.lastS();
        double from = course.afterGaps(now - LOOK_S / 2, now);
        return course.line(from, now).slopeKS() < -5 / 3600.0;
    }

    /**
     * Held or led down far below the top of a firing with a part of the power, however a thermostat lets it swing: not a kiln
     * that climbs and has stalled.
     */
    private static boolean holdsOnTheWayDown(Course course, int peak) {
        double now = course.lastS();
        double topC = course.temperatureC[peak];
        double from = now - 2 * LOOK_S;
        if (BrokenClimb.is(course, peak)) {
            if (BrokenClimb.isJustBack(course, peak)) {
                return false;
            }
            from = course.afterGaps(from, now);
        }
        double output = course.meanOutput(Math.max(from, now - LOOK_S), now);
        return topC > FIRED_C
                && course.temperatureC[course.last()] < topC - BELOW_TOP_K
                && course.line(from, now).slopeKS() < 5 * FLAT_KS
                && !(output > HELD_WITH);
    }

    private static double noise(Course course) {
        int last = course.last();
        double sum = 0;
        int count = 0;
        for (int i = Math.max(1, last - 30); i < last; i++) {
            double bend = course.temperatureC[i - 1] - 2 * course.temperatureC[i] + course.temperatureC[i + 1];
            sum += bend * bend;
            count++;
        }
        return count == 0 ? 0 : Math.min(5, Math.sqrt(sum / count / 6));
    }

    private static int peak(Course course) {
        int highest = 0;
        for (int i = 1; i < course.size; i++) {
            if (course.temperatureC[i] >= course.temperatureC[highest]) {
                highest = i;
            }
        }
        return highest;
    }

    private static boolean[] off(Course course, OptionalInt letGo) {
        boolean[] off = new boolean[course.size];
        int known = 0;
        for (int i = 0; i < course.size; i++) {
            if (!Double.isNaN(course.output[i])) {
                known++;
            }
        }
        if (known * 2 > course.size) {
            boolean latest = false;
            for (int i = 0; i < course.size; i++) {
                if (!Double.isNaN(course.output[i])) {
                    latest = course.output[i] < OFF_OUTPUT;
                }
                off[i] = latest;
            }
            closeShortOnes(course, off);
            return off;
        }
        byShape(course, off, letGo);
        for (int i = 0; i < course.size; i++) {
            if (!Double.isNaN(course.setpointC[i])) {
                off[i] = off[i] && course.temperatureC[i] > course.setpointC[i] + ABOVE_SETPOINT_K
                        || course.temperatureC[i] > course.setpointC[i] + 4 * ABOVE_SETPOINT_K;
            }
        }
        return off;
    }

    /**
     * A controller that pulses slowly is not off between its pulses: what is shorter than an hour and over is none, nor is
     * what goes on until it has lasted longer, or fallen further, than the pauses of the last hours.
     */
    private static void closeShortOnes(Course course, boolean[] off) {
        int begin = -1;
        double longest = 0;
        double deepest = 0;
        int last = off.length - 1;
        for (int i = 0; i <= last; i++) {
            if (off[i] && begin < 0) {
                begin = i;
            }
            if (begin < 0 || off[i] && i < last) {
                continue;
            }
            int end = off[i] ? i : i - 1;
            double lasted = course.timeS[end] - course.timeS[begin];
            double fell = course.temperatureC[begin] - course.temperatureC[end];
            boolean goesOn = off[i];
            boolean lately = course.timeS[last] - course.timeS[end] < PAUSES_WITHIN_S;
            if (goesOn
                    ? lasted < Math.min(PAUSE_TIMES * longest, LONGEST_PAUSE_S) && fell < PAUSE_TIMES * deepest
                    : lasted < SHORTEST_BETWEEN_S) {
                Arrays.fill(off, begin, end + 1, false);
            }
            if (!goesOn && lately && lasted < SHORTEST_BETWEEN_S) {
                longest = Math.max(longest, lasted);
                deepest = Math.max(deepest, fell);
            }
            begin = -1;
        }
    }

    /**
     * After the top the elements are taken to be off from the last sign of power: a flat line or a straight ramp after
     * which the curve falls faster, or that goes on to now.
     */
    private static void byShape(Course course, boolean[] off, OptionalInt letGo) {
        int lastTop = knee(course, peak(course));
        boolean[] straight = straight(course, lastTop);
        if (letGo.isPresent() && letGo.getAsInt() > lastTop) {
            straight = letGo(course, lastTop, letGo.getAsInt());
        }
        int powered = lastTop;
        for (int i = lastTop + 1; i < course.size; i++) {
            if (straight[i]) {
                powered = i;
            }
        }
        // Between top and a driven part the kiln may have been free as well.
        for (int i = lastTop; i < course.size; i++) {
            off[i] = i > powered || i > lastTop && !anyWithin(course, straight, i);
        }
        off[lastTop] = powered == lastTop;
    }

    /** Points after the top on which the curve's shape tells of power. */
    private static boolean[] straight(Course course, int from) {
        boolean[] straight = DrivenFall.straight(course, from);
        DrivenFall.joinBeginnings(course, from, straight);
        DrivenFall.markClimbs(course, from, straight, noise(course));
        SuddenChanges.find(course, from, straight);
        return straight;
    }

    /** The same where it is known when it was let go: what is led before ends there, and no straight line goes on through it. */
    private static boolean[] letGo(Course course, int top, int at) {
        boolean[] straight = straight(course, at);
        boolean[] before = straight(course.until(course.timeS[at]), top);
        int led = at;
        while (led > top && !before[led]) {
            led--;
        }
        Arrays.fill(before, led, at + 1, led > top);
        System.arraycopy(before, 0, straight, 0, at + 1);
        return straight;
    }

    /** The corner near the top after which the kiln falls: the end of a hold that sagged or was overshot. */
    private static int knee(Course course, int peak) {
        double topC = course.temperatureC[peak];
        double noiseK = noise(course);
        int knee = peak;
        double most = 0;
        for (int i = peak; i < course.size && course.temperatureC[i] > topC - KNEE_K; i++) {
            double at = course.timeS[i];
            Course.Line before = course.line(at - KNEE_LOOK_S, at);
            Course.Line after = course.line(at, at + KNEE_LOOK_S);
            double corner = before.slopeKS() - after.slopeKS();
            if (at + KNEE_LOOK_S > course.lastS()) {
                // A corner of these very minutes counts as far as the few points behind it bear it out.
                corner -= 2 * Math.min(after.slopeErrorKS(), noiseK / Math.max(1, (course.lastS() - at) / 2));
            }
            if (corner > most) {
                most = corner;
                knee = i;
            }
        }
        return knee;
    }

    private static boolean anyWithin(Course course, boolean[] straight, int at) {
        for (int i = at; i < course.size && course.timeS[i] < course.timeS[at] + SHORTEST_SPAN_S; i++) {
            if (straight[i]) {
                return true;
            }
        }
        return straight[at];
    }
}

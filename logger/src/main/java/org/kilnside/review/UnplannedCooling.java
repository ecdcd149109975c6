package org.kilnside.review;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A cooling held against itself. A kiln left alone falls towards the room with a time constant that only grows, and grows
 * smoothly, as heat comes back out of its wall. Where the constant leaps up, heat was put in, or a fan or an open lid ended;
 * where it leaps down, heat ended, or a fan or an open lid began.
 */
final class UnplannedCooling {
    private static final double ROOM_C = 20;

    /** So far below its top a kiln has turned, K. */
    private static final double TURNED_K = 30;

    /** Below this a lid may be propped. */
    private static final double LEAST_C = 400;

    /** What begins below this matters to no glaze. */
    private static final double GLAZE_C = 700;

    private static final double WINDOW_S = 480;
    private static final double WINDOW_K = 20;
    private static final double LONGEST_WINDOW_S = 1800;

    /** A kiln that hardly falls. */
    private static final double STANDING_S = 200_000;

    /** ln of the constant: no kiln by itself leaps down by so much, nor up by so much within three windows. */
    private static final double LEAP_DOWN = -0.4;

    private static final double LEAP_UP = 0.75;

    /** Held back by heat a kiln has a greater constant than any has alone, blown cold a smaller one, s (common practice). */
    private static final double HELD_S = 28_000;

    /** The least constant a small kiln of fibre has between 1000 and 700 °C, s (simulated kilns of five families). */
    private static final double FASTEST_KILN_S = 4800;

    /** And a small one of brick, s. */
    private static final double SMALL_KILN_S = 6700;

    /** A kiln that was held back and let go falls as before it was held, within this factor. */
    private static final double SAME_AGAIN = 2.5;

    /** Near its top a kiln has about this part of the constant it has later. */
    private static final double EARLIER = 0.6;

    private static final double LEAST_OUTPUT = 0.03;

    private static final double HEATED_AGAIN_K = 25;

    /** One stretch of the fall. */
    private record Window(double fromS, double fromC, double toS, double toC, double constantS, double output) {}

    private UnplannedCooling() {}

    static Optional<Cooling> of(Bins bins, TopPhase phase) {
        List<Window> windows = windows(bins, phase);
        int up = 0;
        int down = 0;
        double highest = LEAP_UP;
        double lowest = LEAP_DOWN;
        for (int i = 1; i + 1 < windows.size(); i++) {
            double leap = Math.log(windows.get(i + 1).constantS / windows.get(i - 1).constantS);
            if (leap > highest) {
                highest = leap;
                up = i;
            }
            if (leap < lowest) {
                lowest = leap;
                down = i;
            }
        }
        boolean swingsBack =
                up > 0 && down > up && windows.get(down + 1).constantS > SAME_AGAIN * windows.get(up - 1).constantS;
        if (swingsBack) {
            // Robbed of its heat a wall takes some back first: that is no second leap.
            down = 0;
        }
        if (up == 0 && down == 0) {
            return blownAllTheWay(windows);
        }
        return isHeld(windows, up, down) ? held(windows, up, down) : blown(windows, up, down);
    }

    /** Whether the slow part of the fall is the odd one; else the fast part is. */
    private static boolean isHeld(List<Window> windows, int up, int down) {
        boolean heated = windows.stream().anyMatch(window -> window.output() > LEAST_OUTPUT);
        if (heated) {
            return true;
        }
        if (up > 0 && down > 0) {
            return up < down;
        }
        return up > 0
                ? settled(windows, up) > HELD_S
                : windows.get(down - 1).constantS > HELD_S || windows.get(down + 1).constantS > SMALL_KILN_S;
    }

    private static Optional<Cooling> held(List<Window> windows, int up, int down) {
        boolean released = down > up;
        int from = released && up == 0 ? 0 : up;
        int to = released ? down : windows.size() - 1;
        double alone = Math.min(
                up > 0 ? windows.get(up - 1).constantS : Double.MAX_VALUE,
                released && down + 1 < windows.size() ? windows.get(down + 1).constantS : Double.MAX_VALUE);
        return between(windows, from, to, alone);
    }

    private static Optional<Cooling> blown(List<Window> windows, int up, int down) {
        boolean ended = up > down;
        int from = ended && down == 0 ? 0 : down;
        int to = ended ? up : windows.size() - 1;
        // By itself it would have fallen no faster than before the leap; where only the end was seen, than later on.
        double alone = down > 0 ? windows.get(down - 1).constantS : EARLIER * settled(windows, up);
        return between(windows, from, to, alone);
    }

    /** The constant some windows after a leap: just after it the wall gives back what it was robbed of. */
    private static double settled(List<Window> windows, int leap) {
        return windows.get(Math.min(leap + 3, windows.size() - 1)).constantS;
    }

    /** A fall without a leap, faster throughout than the smallest of kilns falls by itself. */
    private static Optional<Cooling> blownAllTheWay(List<Window> windows) {
        int last = -1;
        double fastest = 0;
        for (int i = 0; i < windows.size() && windows.get(i).toC() > GLAZE_C; i++) {
            last = i;
            fastest = Math.max(fastest, windows.get(i).constantS());
        }
        return last < 0 || fastest > FASTEST_KILN_S / 1.6
                ? Optional.empty()
                : between(windows, 0, last, FASTEST_KILN_S);
    }

    private static Optional<Cooling> between(List<Window> windows, int from, int to, double aloneS) {
        Window first = windows.get(from);
        Window last = windows.get(to);
        if (first.fromC() < GLAZE_C || first.fromC() - last.toC() < WINDOW_K) {
            return Optional.empty();
        }
        double goal = aloneS * Math.log((first.fromC() - ROOM_C) / Math.max(1, last.toC() - ROOM_C));
        return Optional.of(
                new Cooling(first.fromC(), last.toC(), last.toS() - first.fromS(), goal, Cooling.Against.ITSELF));
    }

    private static List<Window> windows(Bins bins, TopPhase phase) {
        List<Window> windows = new ArrayList<>();
        int i = bins.at(phase.leftS());
        while (i < bins.last() && bins.celsius[i] > phase.levelC() - TURNED_K) {
            i++;
        }
        double lowest = bins.celsius[i];
        while (i < bins.last() && bins.celsius[i] > LEAST_C) {
            int j = i;
            while (j < bins.last()
                    && (bins.timeS[j] - bins.timeS[i] < WINDOW_S
                            || bins.celsius[j] > bins.celsius[i] - WINDOW_K
                                    && bins.timeS[j] - bins.timeS[i] < LONGEST_WINDOW_S)) {
                j++;
                lowest = Math.min(lowest, bins.celsius[j]);
                if (bins.celsius[j] > lowest + HEATED_AGAIN_K) {
                    return List.of();
                }
            }
            double slope = -bins.slopeKPerH(bins.timeS[i], bins.timeS[j]) / 3600;
            double celsius = bins.meanC(bins.timeS[i], bins.timeS[j]);
            double constant = slope <= 0 ? STANDING_S : Math.min(STANDING_S, (celsius - ROOM_C) / slope);
            if (j < bins.last()) {
                windows.add(new Window(
                        bins.timeS[i],
                        bins.celsius[i],
                        bins.timeS[j],
                        bins.celsius[j],
                        constant,
                        bins.meanOutput(bins.timeS[i], bins.timeS[j])));
            }
            i = j;
        }
        return windows;
    }
}

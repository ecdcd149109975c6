package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Map;

/**
 * What the measured curve makes of the wall of a possible kiln, with its load. Leak and power do nothing to a driven wall, and a
 * fit comes back to the points it has just asked: the newest runs are kept, which saves a third of a fit's time. Scratch
 * for one thread.
 */
final class DrivenWalls {
    /** One point of a fit and its difference quotients. */
    static final int KEPT = 16;

    private final FiringData data;
    private final WallShape shape;
    private final int cells;
    private final WallSlab slab;
    private final BitSet weighed = new BitSet();
    private final int[] stops;
    private final Map<Question, Run> runs = new Newest<>(KEPT);

    /**
     * Runs over one firing.
     *
     * @param longestStepS points of the drive that nothing is held against are left out between steps no longer than
     *     this, s; 0 = all are taken
     */
    DrivenWalls(FiringData data, WallShape shape, int cells, double longestStepS) {
        this.data = data;
        this.shape = shape;
        this.cells = cells;
        slab = new WallSlab(shape, cells);
        data.powered.forEach(stretch -> {
            weighed.set(stretch.from());
            weighed.set(stretch.to());
        });
        stops = stops(longestStepS);
    }

    private int[] stops(double longestStepS) {
        BitSet stops = (BitSet) weighed.clone();
        data.free.forEach(span -> stops.set(span.beginsAt()));
        double since = data.driveS[0];
        for (int i = 1; i < data.lastUsed(); i++) {
            if (stops.get(i) || data.driveS[i + 1] - since > longestStepS) {
                stops.set(i);
                since = data.driveS[i];
            }
        }
        stops.set(0);
        stops.set(data.lastUsed());
        return stops.stream().toArray();
    }

    /** What is run: a kiln as far as its driven wall goes, and how soaked it began. */
    private record Question(KilnParameters kiln, double soaked) {}

    /** One kiln's course, up to the last point of the drive that is held against anything. */
    record Run(double[] heat, List<WallSlab> spans) {
        /** Heat that wall and load have taken up to where a stretch of heating begins or ends. */
        double taken(int point) {
            return heat[point];
        }

        /** How a span without power found the wall; to be copied, not to be run. */
        WallSlab begins(int span) {
            return spans.get(span);
        }
    }

    /** The course of one kiln; its leak and power do not matter. */
    Run run(KilnParameters kiln, double soaked) {
        return runs.computeIfAbsent(new Question(kiln.asDriven(), soaked), this::runAnew);
    }

    private Run runAnew(Question question) {
        data.start(slab, question.kiln(), question.soaked());
        double[] heat = new double[data.lastUsed() + 1];
        List<WallSlab> spans = new ArrayList<>();
        int before = 0;
        for (int i : stops) {
            if (i > 0) {
                slab.drive(data.driveS[i] - data.driveS[before], data.driveC[i]);
            }
            before = i;
            if (weighed.get(i)) {
                heat[i] = slab.intoWall() + slab.loadHolds(0);
            }
            while (spans.size() < data.free.size()
                    && data.free.get(spans.size()).beginsAt() == i) {
                WallSlab begins = new WallSlab(shape, cells);
                begins.startLike(slab);
                spans.add(begins);
            }
        }
        return new Run(heat, spans);
    }
}

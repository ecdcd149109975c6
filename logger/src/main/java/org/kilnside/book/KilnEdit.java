package org.kilnside.book;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * One change to what is known of a kiln's sensors: what stood there, and what is to stand there. Done by
 * {@link KilnHistory#apply}, undone by applying its {@link #inverse()}.
 */
public sealed interface KilnEdit {
    /** The change back. */
    KilnEdit inverse();

    /** A sensor fitted, taken out or described otherwise; after is empty where it was noted by mistake. */
    record Sensor(Optional<FittedSensor> before, Optional<FittedSensor> after) implements KilnEdit {
        public Sensor {
            somethingChanges(before, after);
        }

        @Override
        public Sensor inverse() {
            return new Sensor(after, before);
        }
    }

    /** A comparison noted, mended or struck out. */
    record Compared(Optional<ComparedPoint> before, Optional<ComparedPoint> after) implements KilnEdit {
        public Compared {
            somethingChanges(before, after);
        }

        @Override
        public Compared inverse() {
            return new Compared(after, before);
        }
    }

    /** Several, in this order, all or none: another sensor in the place of one. */
    record Together(List<KilnEdit> edits) implements KilnEdit {
        public Together {
            edits = List.copyOf(edits);
        }

        @Override
        public Together inverse() {
            List<KilnEdit> back = new ArrayList<>();
            for (int i = edits.size() - 1; i >= 0; i--) {
                back.add(edits.get(i).inverse());
            }
            return new Together(back);
        }
    }

    private static void somethingChanges(Optional<?> before, Optional<?> after) {
        if (before.isEmpty() && after.isEmpty()) {
            throw new IllegalArgumentException("a change needs something before it or after it");
        }
    }
}

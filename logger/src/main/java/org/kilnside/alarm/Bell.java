package org.kilnside.alarm;

import java.time.LocalTime;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * What is to be sounded now, of the alarms as they stand. <i>Come now</i> repeats and gets louder until acknowledged, at
 * any hour; <i>look soon</i> is sounded once, at any hour; <i>good to know</i> once, and not in quiet hours. Each copy of
 * the program has a bell of its own, so that one in the bedroom rings by itself. Counts on the host's monotonic clock.
 * Confined to one thread.
 */
public final class Bell {
    /** Between two rings of the same alarm: often enough that the second is taken for no accident. */
    private static final long REPEAT_MS = 20_000;

    /** Each minute a step louder; full after three. */
    private static final long LOUDER_EVERY_MS = 60_000;

    private static final double[] LOUDNESS = {0.4, 0.6, 0.8, 1};
    private static final double ONCE = 0.4;
    private static final double SOFT = 0.25;

    private final QuietHours quiet;
    private final Map<String, Heard> heard = new HashMap<>();
    private boolean first = true;

    public Bell(QuietHours quiet) {
        this.quiet = quiet;
    }

    /**
     * One sound to make.
     *
     * @param alarm for this alarm
     * @param loudness of the loudest, 0 … 1
     * @param count how often this alarm has been sounded since it was raised, this time included
     */
    public record Ring(Alarm alarm, double loudness, int count) {}

    private record Heard(int times, long firstMs, long lastMs, int count) {}

    /**
     * What to sound now. Good news that stood there when the bell was hung up is old and not sounded.
     *
     * @param alarms as they stand
     * @param hostMs the host's monotonic clock
     * @param time of day here
     */
    public List<Ring> due(List<Alarm> alarms, long hostMs, LocalTime time) {
        List<Ring> rings = new ArrayList<>();
        Set<String> there = new HashSet<>();
        for (Alarm alarm : alarms) {
            there.add(alarm.id());
            if (!alarm.rings()) {
                continue;
            }
            Heard before = heard.get(alarm.id());
            boolean anew = before == null || before.times() != alarm.times();
            boolean repeats = alarm.grade() == Grade.COME_NOW && !anew && hostMs - before.lastMs() >= REPEAT_MS;
            if (!anew && !repeats) {
                continue;
            }
            Heard now = anew
                    ? new Heard(alarm.times(), hostMs, hostMs, 1)
                    : new Heard(before.times(), before.firstMs(), hostMs, before.count() + 1);
            heard.put(alarm.id(), now);
            boolean silent = alarm.grade() == Grade.GOOD_TO_KNOW && (first || quiet.contains(time));
            if (!silent) {
                rings.add(new Ring(alarm, loudness(alarm, hostMs - now.firstMs()), now.count()));
            }
        }
        heard.keySet().retainAll(there);
        first = false;
        return rings;
    }

    private static double loudness(Alarm alarm, long ringingMs) {
        return switch (alarm.grade()) {
            case COME_NOW -> LOUDNESS[(int) Math.min(LOUDNESS.length - 1, ringingMs / LOUDER_EVERY_MS)];
            case LOOK_SOON -> ONCE;
            case GOOD_TO_KNOW -> SOFT;
        };
    }
}

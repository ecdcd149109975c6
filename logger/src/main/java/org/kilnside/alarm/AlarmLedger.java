package org.kilnside.alarm;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kilnside.alarm.AlarmChange.What;

/**
 * The alarms of one firing, one of a kind at a time, and what happens to them: raised, acknowledged, raised again when
 * worse or still true ten minutes later, cleared. Confined to the session's thread.
 */
final class AlarmLedger {
    /** Good news stands this long. */
    private static final long NEWS_LASTS_MS = 600_000;

    private final long stillTrueAfterMs;
    private final Map<AlarmKind, Entry> entries = new EnumMap<>(AlarmKind.class);
    private final Map<AlarmKind, Integer> counts = new EnumMap<>(AlarmKind.class);
    private final List<AlarmChange> changes = new ArrayList<>();
    private List<Alarm> seen = List.of();
    private boolean stale;

    AlarmLedger(long stillTrueAfterMs) {
        this.stillTrueAfterMs = stillTrueAfterMs;
    }

    private static final class Entry {
        private Alarm alarm;
        private double badness;
        private long foundMs;

        Entry(Alarm alarm, double badness) {
            this.alarm = alarm;
            this.badness = badness;
        }
    }

    /** A detector sees it, now. */
    void raise(AlarmKind kind, Finding found, long nowMs) {
        raise(kind, kind.grade(), found, nowMs);
    }

    void raise(AlarmKind kind, Grade grade, Finding found, long nowMs) {
        Entry entry = entries.get(kind);
        if (entry == null || entry.alarm.isOver()) {
            int count = counts.merge(kind, 1, Integer::sum);
            Alarm alarm = Alarm.raised(
                    kind.code() + "-" + count, kind, grade, found.sinceMs(), nowMs, found.seen(), found.expected());
            entry = new Entry(alarm, found.badness());
            entry.foundMs = nowMs;
            entries.put(kind, entry);
            changed(What.RAISED, alarm, nowMs);
            return;
        }
        entry.foundMs = nowMs;
        Alarm alarm = entry.alarm;
        boolean graver = grade.compareTo(alarm.grade()) < 0;
        if (graver || alarm.state() == Alarm.State.ACKNOWLEDGED && wantsAgain(entry, grade, found, nowMs)) {
            entry.alarm = alarm.again(nowMs, worse(grade, alarm.grade()), found.seen(), found.expected());
            entry.badness = found.badness();
            changed(What.RAISED_AGAIN, entry.alarm, nowMs);
        } else if (!alarm.seen().equals(found.seen()) || !alarm.expected().equals(found.expected())) {
            entry.alarm = alarm.showing(found.seen(), found.expected());
            stale = true;
        }
    }

    private boolean wantsAgain(Entry entry, Grade grade, Finding found, long nowMs) {
        boolean worse = found.badness() >= entry.badness + 1;
        boolean still =
                grade == Grade.COME_NOW && nowMs - entry.alarm.acknowledgedMs().orElse(nowMs) >= stillTrueAfterMs;
        return worse || still;
    }

    private static Grade worse(Grade one, Grade other) {
        return one.compareTo(other) <= 0 ? one : other;
    }

    /** Good news: said, and gone after a while. */
    void tell(AlarmKind kind, Finding news, long nowMs) {
        entries.remove(kind);
        raise(kind, news, nowMs);
    }

    /** No detector sees it any more. */
    void clear(AlarmKind kind, long nowMs) {
        Entry entry = entries.get(kind);
        if (entry == null || entry.alarm.isOver()) {
            return;
        }
        boolean known = entry.alarm.state() == Alarm.State.ACKNOWLEDGED;
        entry.alarm = entry.alarm.cleared(nowMs);
        changed(What.CLEARED, entry.alarm, nowMs);
        if (known) {
            entries.remove(kind);
        }
    }

    /** Raises what is found, clears what is not. */
    void assess(AlarmKind kind, Optional<Finding> found, long nowMs) {
        assess(kind, found, nowMs, 0);
    }

    /**
     * Raises what is found, clears what has not been found for a while: what comes and goes with each swing of a
     * thermostat is one alarm.
     */
    void assess(AlarmKind kind, Optional<Finding> found, long nowMs, long calmMs) {
        if (found.isPresent()) {
            raise(kind, found.get(), nowMs);
            return;
        }
        Entry entry = entries.get(kind);
        if (entry != null && nowMs - entry.foundMs >= calmMs) {
            clear(kind, nowMs);
        }
    }

    /** Takes old good news away. */
    void tidy(long nowMs) {
        stale |= entries.values()
                .removeIf(entry ->
                        entry.alarm.grade() == Grade.GOOD_TO_KNOW && nowMs - entry.alarm.raisedMs() >= NEWS_LASTS_MS);
    }

    /** A person knows. Unknown ids and what is acknowledged already change nothing. */
    void acknowledge(String id, long nowMs) {
        for (Entry entry : List.copyOf(entries.values())) {
            Alarm alarm = entry.alarm;
            if (!alarm.id().equals(id) || alarm.state() == Alarm.State.ACKNOWLEDGED) {
                continue;
            }
            entry.alarm = alarm.acknowledged(nowMs);
            if (alarm.isOver()
                    || alarm.grade() == Grade.GOOD_TO_KNOW
                    || alarm.kind().isDoneOnceKnown()) {
                entries.remove(alarm.kind());
            }
            changed(What.ACKNOWLEDGED, entry.alarm, nowMs);
        }
    }

    boolean isActive(AlarmKind kind) {
        Entry entry = entries.get(kind);
        return entry != null && !entry.alarm.isOver();
    }

    /** Whether it stands and is no older than a moment. */
    boolean isActiveSince(AlarmKind kind, long sinceMs) {
        return isActive(kind) && entries.get(kind).alarm.sinceMs() >= sinceMs;
    }

    private void changed(What what, Alarm alarm, long nowMs) {
        changes.add(new AlarmChange(what, alarm, nowMs));
        stale = true;
    }

    /** What happened since last asked, in order. */
    List<AlarmChange> takeChanges() {
        if (changes.isEmpty()) {
            return List.of();
        }
        List<AlarmChange> taken = List.copyOf(changes);
        changes.clear();
        return taken;
    }

    /** All that are to be shown, the worst first. */
    List<Alarm> current() {
        if (stale) {
            stale = false;
            seen = entries.values().stream()
                    .map(entry -> entry.alarm)
                    .sorted(Alarm.WORST_FIRST)
                    .toList();
        }
        return seen;
    }
}

package org.kilnside.desktop.plan;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.kilnside.schedule.Schedule;

/**
 * One plan being edited: what it is now, what it was before each change, and what is on disk. Always holds a valid plan;
 * a text that is none never comes here. Confined to one thread.
 */
final class PlanEditor {
    /** More steps back than anybody remembers. */
    private static final int MOST_STEPS = 500;

    /**
     * Where the plan came from.
     *
     * @param shortName its name in the library; empty for a plan that was never saved
     * @param own whether it may be written there
     * @param text its file's text when it was last read or written; empty for a plan that was never saved
     */
    record Source(Optional<String> shortName, boolean own, String text) {
        static final Source NEW = new Source(Optional.empty(), true, "");
    }

    /** The steps of a plan that was left, and its file's text then. */
    private record Past(String text, List<Schedule> undo, List<Schedule> redo) {}

    private final Map<String, Past> pasts = new HashMap<>();
    private final Deque<Schedule> undo = new ArrayDeque<>();
    private final Deque<Schedule> redo = new ArrayDeque<>();
    private Schedule now;
    private Schedule saved;
    private Source source;
    private Object merging;

    PlanEditor(Schedule plan) {
        begin(plan, Source.NEW);
    }

    /** Begins with another plan; one that was here before and is as it was then has its way back again. */
    final void begin(Schedule plan, Source from) {
        if (source != null) {
            source.shortName()
                    .ifPresent(name -> pasts.put(name, new Past(source.text(), List.copyOf(undo), List.copyOf(redo))));
        }
        undo.clear();
        redo.clear();
        from.shortName()
                .map(pasts::get)
                .filter(past -> past.text.equals(from.text()))
                .ifPresent(past -> {
                    undo.addAll(past.undo);
                    redo.addAll(past.redo);
                });
        now = plan;
        saved = plan;
        source = from;
        merging = null;
    }

    Schedule plan() {
        return now;
    }

    Source source() {
        return source;
    }

    /** Whether there is anything a save would keep. */
    boolean isChanged() {
        return !now.equals(saved);
    }

    /**
     * Changes the plan.
     *
     * @param what what is being changed; changes of the same thing one after the other are one step back
     * @return whether anything is different now
     */
    boolean change(Schedule next, Object what) {
        if (next.equals(now)) {
            return false;
        }
        if (merging == null || !Objects.equals(merging, what)) {
            undo.push(now);
            if (undo.size() > MOST_STEPS) {
                undo.removeLast();
            }
        }
        redo.clear();
        now = next;
        merging = what;
        return true;
    }

    /** The next change is a step of its own, whatever it changes. */
    void settle() {
        merging = null;
    }

    boolean canUndo() {
        return !undo.isEmpty();
    }

    boolean canRedo() {
        return !redo.isEmpty();
    }

    /** One step back; nothing where there is none. */
    boolean undo() {
        return step(undo, redo);
    }

    /** One step forward again; nothing where there is none. */
    boolean redo() {
        return step(redo, undo);
    }

    private boolean step(Deque<Schedule> from, Deque<Schedule> to) {
        merging = null;
        if (from.isEmpty()) {
            return false;
        }
        to.push(now);
        now = from.pop();
        return true;
    }

    /** The plan as it was when the save began is on disk now; the way back stays. */
    void saved(Schedule plan, Source at) {
        saved = plan;
        source = at;
        merging = null;
    }

    /** Back to what was last saved, as a step that can be undone. */
    void discard() {
        settle();
        change(saved, null);
    }

    /** Takes what is on disk, as a step that can be undone. */
    void takeFromDisk(Schedule plan, String text) {
        settle();
        change(plan, null);
        settle();
        saved = plan;
        source = new Source(source.shortName(), source.own(), text);
    }
}

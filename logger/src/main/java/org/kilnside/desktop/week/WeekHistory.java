package org.kilnside.desktop.week;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Objects;
import java.util.Optional;
import org.kilnside.week.Week;

/** The week as it is and as it was before each change; none before there is one. Confined to one thread. */
final class WeekHistory {
    /** More steps back than anybody remembers. */
    private static final int MOST_STEPS = 500;

    private final Deque<Week> undo = new ArrayDeque<>();
    private final Deque<Week> redo = new ArrayDeque<>();
    private Optional<Week> now = Optional.empty();
    private Object merging;

    Optional<Week> now() {
        return now;
    }

    /**
     * Another week.
     *
     * @param what is being changed; changes of the same thing one after the other are one step back
     * @return whether anything is different now
     */
    boolean change(Week next, Object what) {
        if (now.equals(Optional.of(next))) {
            return false;
        }
        if (now.isPresent() && (merging == null || !Objects.equals(merging, what))) {
            undo.push(now.get());
            if (undo.size() > MOST_STEPS) {
                undo.removeLast();
            }
        }
        redo.clear();
        now = Optional.of(next);
        merging = what;
        return true;
    }

    /** The next change is a step of its own, whatever it changes. */
    void settle() {
        merging = null;
    }

    /** There is no week any more; the way back stays. */
    void gone() {
        now.ifPresent(undo::push);
        now = Optional.empty();
        settle();
    }

    boolean undo() {
        return step(undo, redo);
    }

    boolean redo() {
        return step(redo, undo);
    }

    boolean canUndo() {
        return !undo.isEmpty();
    }

    boolean canRedo() {
        return !redo.isEmpty();
    }

    private boolean step(Deque<Week> from, Deque<Week> to) {
        settle();
        if (from.isEmpty()) {
            return false;
        }
        now.ifPresent(to::push);
        now = Optional.of(from.pop());
        return true;
    }
}

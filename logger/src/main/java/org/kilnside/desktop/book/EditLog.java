package org.kilnside.desktop.book;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import org.kilnside.book.BookEdit;

/**
 * What a person has changed in the book since the window opened, to be undone step by step and done again. A step may be
 * several changes made by one deed. Plain Java, confined to one thread.
 */
public final class EditLog {
    /** Nobody goes back further than this. */
    private static final int MOST_STEPS = 500;

    private final Deque<List<BookEdit>> done = new ArrayDeque<>();
    private final Deque<List<BookEdit>> undone = new ArrayDeque<>();

    /** Something new was done: what had been undone before can no longer be done again. */
    public void did(List<? extends BookEdit> step) {
        if (!step.isEmpty()) {
            done.push(List.copyOf(step));
            undone.clear();
            if (done.size() > MOST_STEPS) {
                done.removeLast();
            }
        }
    }

    /** The changes that undo the newest step, in the order to apply them; empty when there is none. */
    public Optional<List<BookEdit>> toUndo() {
        return Optional.ofNullable(done.peek()).map(EditLog::backwards);
    }

    /** The changes that do again what was undone last; empty when there is nothing. */
    public Optional<List<BookEdit>> toRedo() {
        return Optional.ofNullable(undone.peek());
    }

    /** The newest step has been undone. */
    public void undid() {
        undone.push(done.pop());
    }

    /** What was undone last has been done again. */
    public void redid() {
        done.push(undone.pop());
    }

    /** The newest step cannot be undone any more, as somebody else was there: it is let go. */
    public void letGo() {
        done.pollFirst();
    }

    /** What was undone cannot be done again any more: it is let go. */
    public void letGoOfUndone() {
        undone.clear();
    }

    private static List<BookEdit> backwards(List<BookEdit> step) {
        List<BookEdit> back = new ArrayList<>();
        for (int i = step.size() - 1; i >= 0; i--) {
            back.add(step.get(i).inverse());
        }
        return List.copyOf(back);
    }
}

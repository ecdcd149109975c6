package org.kilnside.desktop.book;

import java.util.List;
import java.util.Optional;
import java.util.function.BiConsumer;
import java.util.function.Consumer;
import org.kilnside.book.BookEdit;
import org.kilnside.book.BookException;
import org.kilnside.book.NotedCone;
import org.kilnside.book.WrittenRecord;
import org.kilnside.desktop.screen.Errands;
import org.kilnside.firing.LoadedBatch;

/**
 * Saves at once what a person changes in a firing's record, undoes it and does it again. Each change is an errand; what
 * the record then says comes back with it.
 */
final class RecordKeeper {
    private final BookAccess book;
    private final Errands errands;
    private final BiConsumer<Long, WrittenRecord> recordIsNow;
    private final Consumer<Exception> failed;
    private final EditLog log = new EditLog();

    /** How many changes are under way: a record read before the last of them is old already. */
    private int pending;

    /** What waits for the changes under way, and what went wrong with them since it waits. */
    private Optional<Consumer<Optional<Exception>>> waiting = Optional.empty();

    private Optional<Exception> wrong = Optional.empty();

    /** A deed in the book: what it changed. */
    @FunctionalInterface
    private interface Deed {
        List<? extends BookEdit> done();
    }

    /**
     * A keeper of one book's records.
     *
     * @param recordIsNow called on the Swing thread with the firing's number and its record after a change
     * @param failed called on the Swing thread with what went wrong
     */
    RecordKeeper(
            BookAccess book, Errands errands, BiConsumer<Long, WrittenRecord> recordIsNow, Consumer<Exception> failed) {
        this.book = book;
        this.errands = errands;
        this.recordIsNow = recordIsNow;
        this.failed = failed;
    }

    void change(BookEdit edit) {
        change(edit, () -> {}, () -> {});
    }

    /**
     * Makes a change.
     *
     * @param overtaken called where it was not made, as another program was there meanwhile
     * @param refused called where it was not made, as the book could not be written
     */
    void change(BookEdit edit, Runnable overtaken, Runnable refused) {
        Deed deed = () -> {
            book.apply(edit);
            return List.of(edit);
        };
        run(edit.firing(), deed, edits -> {}, failure -> {
            if (failure instanceof BookException told && told.reason() == BookException.Reason.CHANGED) {
                overtaken.run();
            } else {
                refused.run();
            }
            failed.accept(failure);
        });
    }

    void addBatch(long firing, String name, Consumer<LoadedBatch> added) {
        run(firing, () -> List.of(book.addBatch(firing, name)), edits -> tell(edits, added), failed);
    }

    void addAgain(long firing, LoadedBatch earlier, Consumer<LoadedBatch> added) {
        run(firing, () -> List.of(book.addAgain(firing, earlier)), edits -> tell(edits, added), failed);
    }

    private static void tell(List<? extends BookEdit> edits, Consumer<LoadedBatch> added) {
        if (edits.get(0) instanceof BookEdit.Loaded loaded) {
            loaded.after().ifPresent(added);
        }
    }

    void addPhoto(long firing, String file) {
        run(firing, () -> List.of(book.addPhoto(firing, file)));
    }

    void addCones(long firing, List<NotedCone> cones) {
        run(firing, () -> book.addWitnessCones(firing, cones));
    }

    private void run(long firing, Deed deed) {
        run(firing, deed, edits -> {}, failed);
    }

    private void run(long firing, Deed deed, Consumer<List<? extends BookEdit>> then, Consumer<Exception> otherwise) {
        pending++;
        errands.run(
                () -> {
                    List<? extends BookEdit> edits = deed.done();
                    return new Changed(edits, book.record(firing));
                },
                changed -> {
                    pending--;
                    log.did(changed.edits());
                    tell(firing, changed.record());
                    then.accept(changed.edits());
                    rest();
                },
                failure -> {
                    pending--;
                    wrong = Optional.of(failure);
                    otherwise.accept(failure);
                    rest();
                });
    }

    private record Changed(List<? extends BookEdit> edits, WrittenRecord record) {}

    /** Undoes the newest change; does nothing when there is none. */
    void undo() {
        log.toUndo().ifPresent(edits -> repeat(edits, log::undid, log::letGoOfUndone));
    }

    /** Does again what was undone last; does nothing when there is nothing. */
    void redo() {
        log.toRedo().ifPresent(edits -> repeat(edits, log::redid, log::letGo));
    }

    private void repeat(List<BookEdit> edits, Runnable well, Runnable overtaken) {
        long firing = edits.get(0).firing();
        // Moved in the log at once, so that a key held down undoes one step after the other.
        well.run();
        pending++;
        errands.run(
                () -> {
                    for (BookEdit edit : edits) {
                        book.apply(edit);
                    }
                    return book.record(firing);
                },
                record -> {
                    pending--;
                    tell(firing, record);
                    rest();
                },
                failure -> {
                    pending--;
                    wrong = Optional.of(failure);
                    if (failure instanceof BookException) {
                        overtaken.run();
                    }
                    failed.accept(failure);
                    rest();
                });
    }

    /**
     * Waits for the changes under way.
     *
     * @param then told, once all of them are in the book, what went wrong with the last that did not get there
     */
    void onceIdle(Consumer<Optional<Exception>> then) {
        wrong = Optional.empty();
        waiting = Optional.of(then);
        rest();
    }

    private void rest() {
        if (pending == 0 && waiting.isPresent()) {
            Consumer<Optional<Exception>> its = waiting.get();
            waiting = Optional.empty();
            its.accept(wrong);
        }
    }

    private void tell(long firing, WrittenRecord record) {
        if (pending == 0) {
            recordIsNow.accept(firing, record);
        }
    }

    /** Whether changes are under way, so that what was read of the book meanwhile is old. */
    boolean isBusy() {
        return pending > 0;
    }

    boolean canUndo() {
        return log.toUndo().isPresent();
    }

    boolean canRedo() {
        return log.toRedo().isPresent();
    }
}

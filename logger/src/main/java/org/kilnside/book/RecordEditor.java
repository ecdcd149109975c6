package org.kilnside.book;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.kilnside.book.BookException.Reason;
import org.kilnside.firing.GlazeMix;
import org.kilnside.firing.LoadedBatch;

/**
 * Writes into a firing's record what a person changes. Each change is one short transaction that looks first whether the
 * record still is as the person saw it, so that it gets on with a recorder and with other windows.
 */
final class RecordEditor {
    /** What was taken out of the record can be put back this long. */
    private static final Duration TAKEN_OUT_STAYS = Duration.ofDays(7);

    private final Path book;
    private final Connection connection;
    private final PersonsChange change;

    RecordEditor(Path book, Connection connection) {
        this.book = book;
        this.connection = connection;
        this.change = new PersonsChange(connection);
    }

    void apply(BookEdit edit) throws SQLException {
        inOneTransaction(edit.firing(), () -> {
            if (edit instanceof BookEdit.Notes notes) {
                notes(notes);
            } else if (edit instanceof BookEdit.Loaded loaded) {
                loaded(loaded);
            } else if (edit instanceof BookEdit.Witness cone) {
                witness(cone);
            } else if (edit instanceof BookEdit.PhotoInRecord photo) {
                photo(photo);
            }
            return edit;
        });
    }

    BookEdit.Loaded addBatch(long firing, String name) throws SQLException {
        return inOneTransaction(firing, () -> {
            long batch = change.next("batch");
            change.update("INSERT INTO batch (number, name) VALUES (?, ?)", batch, name);
            LoadedBatch added = LoadedBatch.named(change.next("loaded_batch"), batch, name);
            insert(firing, added);
            return new BookEdit.Loaded(firing, Optional.empty(), Optional.of(added));
        });
    }

    BookEdit.Loaded addAgain(long firing, LoadedBatch earlier) throws SQLException {
        return inOneTransaction(firing, () -> {
            LoadedBatch added = earlier.again(change.next("loaded_batch"));
            insert(firing, added);
            return new BookEdit.Loaded(firing, Optional.empty(), Optional.of(added));
        });
    }

    BookEdit.PhotoInRecord addPhoto(long firing, String name, byte[] picture, byte[] thumbnail) throws SQLException {
        return inOneTransaction(firing, () -> {
            change.update(
                    "DELETE FROM photo WHERE taken_out_at < ?",
                    Instant.now().minus(TAKEN_OUT_STAYS).toString());
            long number = change.next("photo");
            change.update(
                    "INSERT INTO photo (number, firing, name, picture, thumbnail) VALUES (?, ?, ?, ?, ?)",
                    number,
                    firing,
                    name,
                    picture,
                    thumbnail);
            return new BookEdit.PhotoInRecord(firing, number, true);
        });
    }

    /** Notes the cones of one pack, one change each. */
    List<BookEdit.Witness> addCones(long firing, List<NotedCone> cones) throws SQLException {
        return inOneTransaction(firing, () -> {
            List<BookEdit.Witness> edits = new ArrayList<>();
            long number = change.next("witness_cone");
            for (NotedCone cone : cones) {
                NotedCone numbered = new NotedCone(
                        number++, cone.shelf(), cone.series(), cone.cone(), cone.degrees(), cone.seenDownMs());
                edits.add(new BookEdit.Witness(firing, Optional.empty(), Optional.of(numbered)));
                witness(edits.get(edits.size() - 1));
            }
            return edits;
        });
    }

    private void witness(BookEdit.Witness edit) throws SQLException {
        long number = edit.after().or(edit::before).orElseThrow().number();
        if (!WitnessRows.cone(connection, number).equals(edit.before())) {
            throw changedElsewhere(
                    edit.before().or(edit::after).orElseThrow().cone().toString());
        }
        WitnessRows.delete(connection, number);
        if (edit.after().isPresent()) {
            WitnessRows.insert(connection, edit.firing(), edit.after().get());
        }
        WitnessRows.forgetOffset(connection, edit.firing());
        SketchRows.outdate(connection, edit.firing());
    }

    private void notes(BookEdit.Notes edit) throws SQLException {
        int changed = change.update(
                "UPDATE firing SET notes = ? WHERE number = ? AND notes IS ?",
                edit.after().orElse(null),
                edit.firing(),
                edit.before().orElse(null));
        if (changed == 0) {
            throw changedElsewhere("the notes");
        }
    }

    private void loaded(BookEdit.Loaded edit) throws SQLException {
        long number = edit.after().or(edit::before).orElseThrow().number();
        if (!RecordRows.loaded(connection, number).equals(edit.before())) {
            throw changedElsewhere(
                    "the batch \"" + edit.before().or(edit::after).orElseThrow().name() + "\"");
        }
        if (edit.before().isPresent()) {
            change.update("DELETE FROM loaded_batch WHERE number = ?", number);
        }
        if (edit.after().isPresent()) {
            insert(edit.firing(), edit.after().get());
        }
    }

    private void insert(long firing, LoadedBatch batch) throws SQLException {
        change.update(
                "UPDATE batch SET name = ?, clay = ?, thickness_mm = ? WHERE number = ?",
                batch.name(),
                batch.clay().orElse(null),
                batch.thicknessMm().isPresent() ? batch.thicknessMm().getAsDouble() : null,
                batch.batch());
        change.update(
                "UPDATE firing SET edits = edits + 1 WHERE number <> ?"
                        + " AND number IN (SELECT firing FROM loaded_batch WHERE batch = ?)",
                firing,
                batch.batch());
        change.update(
                "INSERT INTO loaded_batch (number, firing, batch, pieces, glaze, coats, shelf, outcome, remark)"
                        + " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
                batch.number(),
                firing,
                batch.batch(),
                whole(batch.pieces()),
                batch.glaze().orElse(null),
                whole(batch.coats()),
                batch.shelf().orElse(null),
                batch.outcome().name(),
                batch.remark().orElse(null));
        int position = 0;
        for (GlazeMix.Part part : batch.mix().parts()) {
            change.update(
                    "INSERT INTO glaze_part (loaded_batch, position, name, parts) VALUES (?, ?, ?, ?)",
                    batch.number(),
                    ++position,
                    part.name(),
                    part.parts());
        }
    }

    private static Object whole(OptionalInt value) {
        return value.isPresent() ? (Object) value.getAsInt() : null;
    }

    private void photo(BookEdit.PhotoInRecord edit) throws SQLException {
        int changed = edit.after()
                ? change.update(
                        "UPDATE photo SET taken_out_at = NULL WHERE number = ? AND taken_out_at IS NOT NULL",
                        edit.photo())
                : change.update(
                        "UPDATE photo SET taken_out_at = ? WHERE number = ? AND taken_out_at IS NULL",
                        Instant.now().toString(),
                        edit.photo());
        if (changed == 0) {
            throw changedElsewhere("the photo");
        }
    }

    private BookException changedElsewhere(String what) {
        return new BookException(
                Reason.CHANGED,
                "Another window has changed " + what + " meanwhile, and its change is left as it is: look at it, and"
                        + " write yours again where you still want it.");
    }

    /** The firing's count of edits goes up with it. */
    private <T> T inOneTransaction(long firing, PersonsChange.Work<T> work) throws SQLException {
        return change.inOneTransaction(() -> {
            if (change.update("UPDATE firing SET edits = edits + 1 WHERE number = ?", firing) == 0) {
                throw new BookException(
                        Reason.NO_SUCH_FIRING,
                        "Firing " + firing + " is no longer in the firing book " + book
                                + ": nothing was changed; go back to the list.");
            }
            return work.run();
        });
    }
}

package org.kilnside.desktop.book;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.Supplier;
import org.kilnside.book.KnownBatch;
import org.kilnside.book.WrittenRecord;
import org.kilnside.desktop.screen.Errands;

/**
 * Looks again and again whether the book has changed, here or by another process, and reads anew what has. On the Swing
 * thread; each look is an errand.
 */
final class BookWatch {
    /** How often the book is asked whether somebody else changed it, ms. */
    private static final long LOOK_EVERY_MS = 2_000;

    private final BookAccess book;
    private final Errands errands;
    private final Supplier<Optional<Long>> open;
    private final Seen seen;
    private boolean asking;
    private OptionalLong changes = OptionalLong.empty();
    private long lookedAtMs = Long.MIN_VALUE / 2;

    /** What was seen, on the Swing thread. */
    interface Seen {
        /** The book can be read; told first. */
        void well();

        /** Something in the book is other than before. */
        void listChanged();

        void batches(List<KnownBatch> all);

        /** The record of the firing that is open, as it is now. */
        void record(long number, WrittenRecord record);

        /** The book cannot be read. */
        void unreadable(Exception failure);
    }

    private record Look(long changes, Optional<WrittenRecord> record, Optional<List<KnownBatch>> batches) {}

    /** @param open the number of the firing that is open */
    BookWatch(BookAccess book, Errands errands, Supplier<Optional<Long>> open, Seen seen) {
        this.book = book;
        this.errands = errands;
        this.open = open;
        this.seen = seen;
    }

    /** Looks when it is time to. */
    void tick(long nowMs) {
        if (!asking && nowMs - lookedAtMs > LOOK_EVERY_MS) {
            lookedAtMs = nowMs;
            look();
        }
    }

    /** Looks as soon as it can. */
    void lookSoon() {
        lookedAtMs = Long.MIN_VALUE / 2;
    }

    /** Asks whether the list or the open record has changed, and reads anew what has. */
    void look() {
        asking = true;
        Optional<Long> number = open.get();
        OptionalLong before = changes;
        errands.run(
                () -> {
                    long now = book.changes();
                    boolean different = before.isEmpty() || before.getAsLong() != now;
                    return new Look(
                            now,
                            number.isEmpty() ? Optional.empty() : Optional.of(book.record(number.get())),
                            different ? Optional.of(book.batches()) : Optional.empty());
                },
                found -> {
                    asking = false;
                    seen.well();
                    if (before.isEmpty() || before.getAsLong() != found.changes()) {
                        changes = OptionalLong.of(found.changes());
                        seen.listChanged();
                    }
                    found.batches().ifPresent(seen::batches);
                    found.record().ifPresent(record -> seen.record(number.orElseThrow(), record));
                },
                failure -> {
                    asking = false;
                    seen.unreadable(failure);
                });
    }
}

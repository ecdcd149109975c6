package org.kilnside.book;

import java.util.Optional;
import org.kilnside.firing.LoadedBatch;

/**
 * One change a person makes to a firing's record: what stood there, and what is to stand there. Done by
 * {@link Book#apply}, undone by applying its {@link #inverse()}; both find out when another program was there meanwhile.
 */
public sealed interface BookEdit {
    /** The firing whose record is changed. */
    long firing();

    /** The change back. */
    BookEdit inverse();

    /** The potter's notes on the firing as a whole. */
    record Notes(long firing, Optional<String> before, Optional<String> after) implements BookEdit {
        @Override
        public Notes inverse() {
            return new Notes(firing, after, before);
        }
    }

    /** A batch put in, taken out (after is empty) or described otherwise. */
    record Loaded(long firing, Optional<LoadedBatch> before, Optional<LoadedBatch> after) implements BookEdit {
        public Loaded {
            if (before.isEmpty() && after.isEmpty()) {
                throw new IllegalArgumentException("a change needs something before it or after it");
            }
        }

        @Override
        public Loaded inverse() {
            return new Loaded(firing, after, before);
        }
    }

    /** A witness cone noted, mended or struck out (after is empty). */
    record Witness(long firing, Optional<NotedCone> before, Optional<NotedCone> after) implements BookEdit {
        public Witness {
            if (before.isEmpty() && after.isEmpty()) {
                throw new IllegalArgumentException("a change needs something before it or after it");
            }
        }

        @Override
        public Witness inverse() {
            return new Witness(firing, after, before);
        }
    }

    /** A photo put into the record or taken out of it; its picture stays in the book for a while. */
    record PhotoInRecord(long firing, long photo, boolean after) implements BookEdit {
        @Override
        public PhotoInRecord inverse() {
            return new PhotoInRecord(firing, photo, !after);
        }
    }
}

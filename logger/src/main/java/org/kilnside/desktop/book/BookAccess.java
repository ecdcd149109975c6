package org.kilnside.desktop.book;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.kilnside.book.BookEdit;
import org.kilnside.book.BookException;
import org.kilnside.book.CurveSketch;
import org.kilnside.book.KnownBatch;
import org.kilnside.book.ListedFiring;
import org.kilnside.book.NotedCone;
import org.kilnside.book.WrittenRecord;
import org.kilnside.firing.LoadedBatch;
import org.kilnside.review.Review;

/**
 * The firing book as this screen needs it. Every call may wait for the disk and is made on the errands' thread, never on
 * the Swing thread. What cannot be done is said by a {@link BookException} in one sentence.
 */
public interface BookAccess {
    /**
     * What the list shows.
     *
     * @param firings newest first
     * @param caution why the book can only be read, in one sentence; empty when it can be written
     */
    record Listing(List<ListedFiring> firings, Optional<String> caution) {
        public Listing {
            firings = List.copyOf(firings);
        }
    }

    /** The time of day. Never waits. */
    Instant now();

    /** All firings; none while there is no book yet. */
    Listing list();

    /** A number that is another one whenever the list has changed. */
    long changes();

    /** Works out a firing's curve in small and keeps it. */
    CurveSketch sketch(long number);

    /** A firing with its curve, ready to be drawn. */
    OpenedFiring open(long number);

    /** What follows from all readings of a firing: the plan laid over it, and the cone. Takes longer than opening it. */
    FiringStudy study(OpenedFiring firing);

    /** What people have written into a firing's record. */
    WrittenRecord record(long number);

    /** Every batch that has been in a firing, the one last put in first. */
    List<KnownBatch> batches();

    /** Changes a firing's record. */
    void apply(BookEdit edit);

    /** Puts a new batch into a firing. */
    BookEdit.Loaded addBatch(long number, String name);

    /** Puts a batch of an earlier firing into this one. */
    BookEdit.Loaded addAgain(long number, LoadedBatch earlier);

    /** Notes witness cones of a firing. */
    List<BookEdit.Witness> addWitnessCones(long number, List<NotedCone> cones);

    /**
     * Makes a photo smaller and puts it into a firing's record.
     *
     * @param file where it is, as the person chose or wrote it
     */
    BookEdit.PhotoInRecord addPhoto(long number, String file);

    /**
     * Why a firing came out as it did: its curve against its plan, its witness cones, and the kiln's earlier firings.
     *
     * @return empty for a firing without a plan, or with too few readings to say anything
     */
    Optional<Review> review(OpenedFiring firing);

    /** A photo as a JPEG; empty when it has been taken out. */
    Optional<byte[]> picture(long photo);
}

package org.kilnside.desktop.book;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import org.kilnside.book.BookEdit;
import org.kilnside.book.CurveSketch;
import org.kilnside.book.KnownBatch;
import org.kilnside.book.NotedCone;
import org.kilnside.book.WrittenRecord;
import org.kilnside.firing.LoadedBatch;
import org.kilnside.review.Review;

/** A book that opens nothing before its disk lets it, and then complains; it is asked for nothing else. */
final class SlowBook implements BookAccess {
    private final CountDownLatch reads;
    private final CountDownLatch disk;

    SlowBook(CountDownLatch reads, CountDownLatch disk) {
        this.reads = reads;
        this.disk = disk;
    }

    @Override
    public OpenedFiring open(long number) {
        reads.countDown();
        try {
            disk.await();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        throw new IllegalStateException("the disk is gone");
    }

    @Override
    public Instant now() {
        throw new UnsupportedOperationException();
    }

    @Override
    public Listing list() {
        throw new UnsupportedOperationException();
    }

    @Override
    public long changes() {
        throw new UnsupportedOperationException();
    }

    @Override
    public CurveSketch sketch(long number) {
        throw new UnsupportedOperationException();
    }

    @Override
    public FiringStudy study(OpenedFiring firing) {
        throw new UnsupportedOperationException();
    }

    @Override
    public WrittenRecord record(long number) {
        throw new UnsupportedOperationException();
    }

    @Override
    public List<KnownBatch> batches() {
        throw new UnsupportedOperationException();
    }

    @Override
    public void apply(BookEdit edit) {
        throw new UnsupportedOperationException();
    }

    @Override
    public BookEdit.Loaded addBatch(long number, String name) {
        throw new UnsupportedOperationException();
    }

    @Override
    public BookEdit.Loaded addAgain(long number, LoadedBatch earlier) {
        throw new UnsupportedOperationException();
    }

    @Override
    public List<BookEdit.Witness> addWitnessCones(long number, List<NotedCone> cones) {
        throw new UnsupportedOperationException();
    }

    @Override
    public BookEdit.PhotoInRecord addPhoto(long number, String file) {
        throw new UnsupportedOperationException();
    }

    @Override
    public Optional<Review> review(OpenedFiring firing) {
        throw new UnsupportedOperationException();
    }

    @Override
    public Optional<byte[]> picture(long photo) {
        throw new UnsupportedOperationException();
    }
}

package org.kilnside.app;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.kilnside.book.Book;
import org.kilnside.book.BookEdit;
import org.kilnside.book.BookException;
import org.kilnside.book.BookedReview;
import org.kilnside.book.CurveSketch;
import org.kilnside.book.KilnHistory;
import org.kilnside.book.KnownBatch;
import org.kilnside.book.NotedCone;
import org.kilnside.book.RecordedFiring;
import org.kilnside.book.WrittenRecord;
import org.kilnside.chart.CurveLevels;
import org.kilnside.desktop.book.BookAccess;
import org.kilnside.desktop.book.FiringStudy;
import org.kilnside.desktop.book.OpenedFiring;
import org.kilnside.desktop.screen.SwingThread;
import org.kilnside.firing.GoodReadings;
import org.kilnside.firing.Kiln;
import org.kilnside.firing.LoadedBatch;
import org.kilnside.firing.Reading;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.host.PhotoFile;
import org.kilnside.host.PhotoRefusedException;
import org.kilnside.host.SystemClock;
import org.kilnside.link.LinkNotation;
import org.kilnside.review.Review;
import org.kilnside.review.Reviewer;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.CalibratedThermometer;
import org.kilnside.session.FiringBook;
import org.kilnside.session.FollowedFiring;
import org.kilnside.tracking.PlanPosition;

/**
 * The firing book for the window. It is opened for each question and closed again: so another program may put another book
 * in its place, a recorder anywhere may have it, and nothing is held while nobody asks.
 */
final class DeskBook implements BookAccess {
    private final Path path;
    private final Function<String, Optional<Kiln>> kilns;

    /** @param kilns the kiln of a name, where somebody described it */
    DeskBook(Path path, Function<String, Optional<Kiln>> kilns) {
        this.path = path;
        this.kilns = kilns;
    }

    @Override
    public Instant now() {
        return new SystemClock().wallClock();
    }

    private <T> T asked(Function<Book, T> question) {
        SwingThread.isNotHere();
        try (Book book = Book.open(path)) {
            return question.apply(book);
        }
    }

    @Override
    public Listing list() {
        return Files.exists(path)
                ? asked(book -> new Listing(book.list(), book.caution()))
                : new Listing(List.of(), Optional.empty());
    }

    @Override
    public long changes() {
        return Files.exists(path) ? asked(Book::changes) : 0;
    }

    @Override
    public CurveSketch sketch(long number) {
        return asked(book -> book.sketch(number));
    }

    @Override
    public OpenedFiring open(long number) {
        return asked(book -> {
            RecordedFiring firing = book.firing(number);
            double speed = LinkNotation.speedOf(firing.start().link());
            return new OpenedFiring(
                    firing,
                    CurveLevels.of(truth(book, firing)),
                    book.record(number),
                    Math.abs(speed - 1) < 1e-9
                            ? Optional.of(FiringBook.wallClock(firing.start().startedAt(), firing.clockTies()))
                            : Optional.empty(),
                    speed,
                    kilns.apply(firing.start().kiln().orElse(""))
                            .map(Kiln::thresholds)
                            .orElse(Kiln.Thresholds.COMMON_PRACTICE));
        });
    }

    /** The true readings, corrected by all that is known of the sensor by now; read anew only where there is such. */
    private static Trace truth(Book book, RecordedFiring firing) {
        KilnHistory history = book.history(firing.start().kiln().orElse(""));
        return CalibratedThermometer.of(history.sensorOf(firing.number())).corrects()
                ? history.curve(firing.number())
                : GoodReadings.of(firing.curve()).curve();
    }

    @Override
    public FiringStudy study(OpenedFiring firing) {
        List<Reading> readings = new ArrayList<>();
        Optional<ConeReached> cone = asked(book -> {
            book.readings(firing.number(), readings::add);
            return book.history(firing.firing().start().kiln().orElse(""))
                    .coneOf(firing.number(), firing.levels().curve());
        });
        List<PlanPosition.PlanPoint> aligned = FollowedFiring.of(
                        firing.firing().start().plan(), readings)
                .position()
                .map(PlanPosition::aligned)
                .orElse(List.of());
        return new FiringStudy(firing.number(), aligned, cone);
    }

    @Override
    public WrittenRecord record(long number) {
        return asked(book -> book.record(number));
    }

    @Override
    public List<KnownBatch> batches() {
        return asked(Book::batches);
    }

    @Override
    public void apply(BookEdit edit) {
        asked(book -> {
            book.apply(edit);
            return edit;
        });
    }

    @Override
    public BookEdit.Loaded addBatch(long number, String name) {
        return asked(book -> book.addBatch(number, name));
    }

    @Override
    public BookEdit.Loaded addAgain(long number, LoadedBatch earlier) {
        return asked(book -> book.addAgain(number, earlier));
    }

    @Override
    public List<BookEdit.Witness> addWitnessCones(long number, List<NotedCone> cones) {
        return asked(book -> book.addWitnessCones(number, cones));
    }

    @Override
    public BookEdit.PhotoInRecord addPhoto(long number, String file) {
        try {
            PhotoFile photo = PhotoFile.read(file);
            return asked(book -> book.addPhoto(number, photo.name(), photo.picture(), photo.thumbnail()));
        } catch (PhotoRefusedException e) {
            throw new BookException(BookException.Reason.UNUSABLE, e.getMessage(), e);
        }
    }

    @Override
    public Optional<Review> review(OpenedFiring opened) {
        RecordedFiring firing = opened.firing();
        Optional<Schedule> plan = firing.start().plan();
        if (plan.isEmpty() || opened.levels().curve().size() < 2) {
            return Optional.empty();
        }
        return asked(book -> {
            BookedReview known = BookedReview.of(book, firing);
            return Optional.of(Reviewer.review(known.against(plan.get(), known.series())
                    .withLimit(kilns.apply(firing.start().kiln().orElse(""))
                            .flatMap(kiln -> kiln.limits().temperature()))));
        });
    }

    @Override
    public Optional<byte[]> picture(long photo) {
        return asked(book -> book.picture(photo));
    }
}

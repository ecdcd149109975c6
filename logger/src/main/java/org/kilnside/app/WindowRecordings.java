package org.kilnside.app;

import java.time.Instant;
import java.util.Optional;
import java.util.function.Supplier;
import org.kilnside.book.Book;
import org.kilnside.book.BookException;
import org.kilnside.book.KilnHistory;
import org.kilnside.command.Complaint;
import org.kilnside.command.RecorderRole;
import org.kilnside.command.Surroundings;
import org.kilnside.desktop.kiln.Recordings;
import org.kilnside.desktop.kiln.RefusedException;
import org.kilnside.files.FileRefusedException;
import org.kilnside.files.LastRecording.Remembered;
import org.kilnside.link.BadLinkException;
import org.kilnside.sensor.SensorInPlace;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The recorder's role, for the window. */
final class WindowRecordings implements Recordings {
    private static final Logger LOG = LoggerFactory.getLogger(WindowRecordings.class);

    /** Tall Drum's bisque and its cooling in about half an hour: slow enough to look round in the window. */
    private static final Wish VIRTUAL =
            new Wish("virtual:tall-drum?speed=60&plan=bisque", Optional.of("Tall Drum"), Optional.of("bisque"));

    private final Surroundings.Desk desk;

    WindowRecordings(Surroundings.Desk desk) {
        this.desk = desk;
    }

    @Override
    public Role role() {
        return desk.role()
                .map(role -> switch (role.holder()) {
                    case HERE -> Role.HERE;
                    case ELSEWHERE -> Role.ELSEWHERE;
                    case NOBODY -> Role.NOBODY;
                })
                .orElse(Role.ONLY_LOOKING);
    }

    @Override
    public Optional<Wish> here() {
        return desk.role().flatMap(RecorderRole::recording).map(WindowRecordings::wish);
    }

    @Override
    public Choices choices() {
        return plainly(() ->
                new Choices(last(), desk.library().kilnNames(), desk.library().planNames(), VIRTUAL));
    }

    /** A memory that cannot be read must not stand between a person and a recording. */
    private Optional<Wish> last() {
        try {
            return desk.role().flatMap(RecorderRole::last).map(WindowRecordings::wish);
        } catch (FileRefusedException e) {
            LOG.warn("the last recording is not offered: {}", e.getMessage());
            return Optional.empty();
        }
    }

    /** The kiln that was recorded last; waits for the disk. */
    Optional<String> lastKiln() {
        return last().flatMap(Wish::kiln);
    }

    @Override
    public void begin(Wish wish) {
        plainly(() -> {
            wish.told().ifPresent(sensor -> remember(wish.kiln().orElse(""), sensor));
            desk.role().orElseThrow().take(new Remembered(wish.from(), wish.kiln(), wish.plan()));
            return wish;
        });
    }

    /** The book is told of the sensor, so that readings, card and outlook go by it from now on. */
    private void remember(String kiln, SensorInPlace sensor) {
        try (Book book = Book.open(desk.book())) {
            KilnHistory history = book.history(kiln);
            Instant now = desk.clock().wallClock();
            boolean known = history.guide(now)
                    .filter(guide ->
                            guide.fits(sensor.probe()) && guide.uncorrected().equals(sensor.uncorrected()))
                    .isPresent();
            if (!known) {
                history.fit(1, sensor, now);
            }
        }
    }

    @Override
    public void end() {
        desk.role().ifPresent(RecorderRole::end);
    }

    private static Wish wish(Remembered remembered) {
        return new Wish(remembered.from(), remembered.kiln(), remembered.plan());
    }

    /** What the world says in one sentence is passed on; anything else is a fault of this program. */
    static <T> T plainly(Supplier<T> work) {
        try {
            return work.get();
        } catch (Complaint | BadLinkException | FileRefusedException | BookException e) {
            throw new RefusedException(e.getMessage(), e);
        }
    }
}

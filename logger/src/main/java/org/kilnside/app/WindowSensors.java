package org.kilnside.app;

import static org.kilnside.app.WindowRecordings.plainly;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.kilnside.book.Book;
import org.kilnside.book.BookException;
import org.kilnside.book.FittedSensor;
import org.kilnside.book.KilnEdit;
import org.kilnside.book.KilnHistory;
import org.kilnside.book.NewBook;
import org.kilnside.desktop.kiln.SensorShelf;
import org.kilnside.desktop.screen.SwingThread;
import org.kilnside.heatwork.WitnessOffset;
import org.kilnside.sensor.Calibration;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.session.HostClock;

/** The book's sensors, for the window; the book is open only as long as a question takes. */
final class WindowSensors implements SensorShelf {
    private final Path book;
    private final HostClock clock;

    WindowSensors(Path book, HostClock clock) {
        this.book = book;
        this.clock = clock;
    }

    @Override
    public Instant now() {
        return clock.wallClock();
    }

    @Override
    public List<Known> sensors(String kiln) {
        return Files.exists(book) ? asked(kiln, WindowSensors::all) : List.of();
    }

    private static List<Known> all(KilnHistory history) {
        List<Known> all = new ArrayList<>();
        for (FittedSensor each : history.sensors()) {
            List<KilnHistory.OffsetOfFiring> offsets = history.offsets(each);
            SensorInPlace known = history.known(each);
            all.add(new Known(
                    each,
                    history.isUnasked(each) ? known.shownBy(Optional.empty()) : known,
                    history.points(each.number()),
                    offsets,
                    WitnessOffset.driftKPerFiring(offsets.stream()
                            .map(KilnHistory.OffsetOfFiring::offset)
                            .toList())));
        }
        return all;
    }

    @Override
    public KilnEdit fit(String kiln, int channel, SensorInPlace sensor, Instant at) {
        return asked(kiln, history -> history.fit(channel, sensor, at));
    }

    @Override
    public KilnEdit compare(String kiln, long sensor, Calibration.Point point, boolean everywhere) {
        return asked(kiln, history -> history.compare(sensor, point, everywhere, now()));
    }

    @Override
    public void apply(String kiln, KilnEdit edit) {
        SwingThread.isNotHere();
        asked(kiln, history -> {
            history.apply(edit);
            return edit;
        });
    }

    private <T> T asked(String kiln, Function<KilnHistory, T> question) {
        SwingThread.isNotHere();
        return plainly(() -> {
            try (Book open = NewBook.openOrMake(book)) {
                return question.apply(open.history(kiln));
            } catch (BookException e) {
                if (e.reason() == BookException.Reason.CHANGED) {
                    throw new ChangedElsewhereException(e);
                }
                throw e;
            }
        });
    }
}

package org.kilnside.book;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.kilnside.firing.Trace;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.session.HostClock;
import org.kilnside.session.KilnPast;

/** What a book knows of one kiln, for the firing that is being recorded into it. Opens the book anew for each question. */
public final class PastOfKiln implements KilnPast {
    /** A kiln changes with its elements and its furniture: older firings are of another kiln. */
    private static final int MOST_FIRINGS = 6;

    private final Path book;
    private final String kiln;
    private final HostClock clock;

    /** @param kiln its name, as in its firings */
    public PastOfKiln(Path book, String kiln, HostClock clock) {
        this.book = book;
        this.kiln = kiln;
        this.clock = clock;
    }

    @Override
    public Optional<SensorInPlace> guide() {
        try (Book open = Book.open(book)) {
            return open.history(kiln).guide(clock.wallClock());
        }
    }

    @Override
    public List<Trace> earlier(long firing) {
        try (Book open = Book.open(book)) {
            return open.history(kiln).earlier(firing, MOST_FIRINGS);
        }
    }
}

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
    private Optional<SensorInPlace> known = Optional.empty();
    private String knownAt = "";

    /** @param kiln its name, as in its firings */
    public PastOfKiln(Path book, String kiln, HostClock clock) {
        this.book = book;
        this.kiln = kiln;
        this.clock = clock;
    }

    @Override
    public synchronized Optional<SensorInPlace> guide() {
        try (Book open = Book.open(book)) {
            KilnHistory history = open.history(kiln);
            String changes = history.changes();
            // Asked each minute: curves are read again only when something they are compared with has changed.
            if (!changes.equals(knownAt)) {
                known = history.guide(clock.wallClock());
                knownAt = changes;
            }
            return known;
        }
    }

    @Override
    public List<Trace> earlier(long firing) {
        try (Book open = Book.open(book)) {
            return open.history(kiln).earlier(firing, MOST_FIRINGS);
        }
    }
}

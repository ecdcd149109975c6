package org.kilnside.desktop.book;

import java.util.List;
import java.util.function.BiConsumer;
import java.util.function.Consumer;
import org.kilnside.book.CurveSketch;
import org.kilnside.desktop.screen.Errands;

/**
 * Works out the small curves that are not there yet, one errand each, so that whatever else a person wishes comes in
 * between. Can be stopped. Confined to the Swing thread, but for the work itself.
 */
final class SketchRun {
    private final BookAccess book;
    private final Errands errands;
    private final BiConsumer<Long, CurveSketch> sketched;
    private final Consumer<Exception> failed;
    private List<Long> numbers = List.of();
    private int done;
    private boolean running;

    SketchRun(BookAccess book, Errands errands, BiConsumer<Long, CurveSketch> sketched, Consumer<Exception> failed) {
        this.book = book;
        this.errands = errands;
        this.sketched = sketched;
        this.failed = failed;
    }

    /** Begins with these firings, unless a run is under way. */
    void begin(List<Long> wanted) {
        if (!running) {
            numbers = wanted;
            done = 0;
            running = !wanted.isEmpty();
            next();
        }
    }

    private void next() {
        if (!running || done >= numbers.size()) {
            running = false;
            return;
        }
        long number = numbers.get(done);
        errands.run(
                () -> book.sketch(number),
                sketch -> {
                    done++;
                    running = running && done < numbers.size();
                    sketched.accept(number, sketch);
                    next();
                },
                failure -> {
                    // One firing that cannot be read does not keep the others from being drawn.
                    done++;
                    failed.accept(failure);
                    next();
                });
    }

    void stop() {
        running = false;
    }

    /** Whether there is more to do than can be seen coming. */
    boolean isLong() {
        return running && numbers.size() > 1;
    }

    int done() {
        return done;
    }

    int all() {
        return numbers.size();
    }
}

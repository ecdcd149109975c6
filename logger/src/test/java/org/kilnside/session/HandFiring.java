package org.kilnside.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;

/** A live firing of Tall Drum moved by hand: the controller's uptime goes on with the computer's clocks. */
final class HandFiring {
    static final FiringSettings TALL_DRUM =
            FiringSettings.of(Optional.of("Tall Drum"), Optional.empty(), Optional.empty());
    static final Schedule BISQUE = new Schedule(
            "Bisque",
            List.of(
                    new Segment.Ramp(
                            HeatingRate.ofKelvinPerHour(100), Temperature.ofCelsius(600), Duration.ofMinutes(15)),
                    new Segment.FreeCooling()));
    static final FiringSettings WITH_BISQUE =
            FiringSettings.of(Optional.of("Tall Drum"), Optional.of(BISQUE), Optional.of("name = \"Bisque\""));
    private static final String LINK = "serial:/dev/ttyUSB0";

    final HandClock clock;
    final BookInMemory book = new BookInMemory();
    private final FiringSettings settings;
    FiringWatch watch;
    long uptimeMs = 500_000;

    HandFiring() {
        this(TALL_DRUM);
    }

    HandFiring(FiringSettings settings) {
        this(settings, new HandClock());
    }

    HandFiring(FiringSettings settings, HandClock clock) {
        this.settings = settings;
        this.clock = clock;
        this.watch = run(book);
    }

    /** Another run of the program, at the same controller. */
    FiringWatch run(BookInMemory its) {
        return run(its, settings);
    }

    FiringWatch run(BookInMemory its, FiringSettings with) {
        return new FiringWatch(its, clock, with, LINK, 1, Host.UNKNOWN);
    }

    /** The book as a run of the program finds it that begins now. */
    BookInMemory leftBehind() {
        BookInMemory left = new BookInMemory();
        left.beginEarlier(book.starts.get(0), new ArrayList<>(book.readings.get(0)), List.copyOf(book.ties));
        return left;
    }

    void step(long ms) {
        clock.forwardMs(ms);
        uptimeMs += ms;
    }

    /** A reading at this moment. */
    void reads(double celsius) {
        watch.reading(Arrivals.measured(uptimeMs, clock.monotonicMs(), celsius));
    }

    /** A reading so long after this moment. */
    void readsAfter(long ms, double celsius) {
        step(ms);
        reads(celsius);
    }

    /** Reading after reading along a straight line, a second apart. */
    void ramp(double fromC, double toC, int seconds) {
        for (int s = 1; s <= seconds; s++) {
            readsAfter(1_000, fromC + (toC - fromC) * s / seconds);
        }
    }
}

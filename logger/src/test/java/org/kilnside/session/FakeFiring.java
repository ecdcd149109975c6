package org.kilnside.session;

import java.util.Optional;

/** A live firing whose readings are given by hand. */
public final class FakeFiring {
    private final LiveFiring firing;
    private final HostClock clock;
    private ReadingSource.Listener listener;
    private long uptimeMs;

    public FakeFiring(FiringBook book, HostClock clock) {
        this.clock = clock;
        this.firing = new LiveFiring(
                book,
                clock,
                FiringSettings.of(Optional.of("Tall Drum"), Optional.empty(), Optional.empty()),
                new Source(),
                noForecast());
    }

    /** A forecaster that has no answer, for tests of something else. */
    public static FiringForecaster noForecast() {
        return request -> LiveForecast.failed(request, "none in this test");
    }

    public LiveFiring firing() {
        return firing;
    }

    /** So many readings, a second of the controller's apart, as fast as they are taken. */
    public void gives(int readings) {
        for (int i = 0; i < readings; i++) {
            uptimeMs += 1_000;
            listener.readingArrived(Arrivals.measured(uptimeMs, clock.monotonicMs(), 500 + uptimeMs % 7_000 / 1e4));
        }
    }

    private final class Source implements ReadingSource {
        @Override
        public String notation() {
            return "serial:/dev/ttyUSB0";
        }

        @Override
        public double speed() {
            return 1;
        }

        @Override
        public void start(Listener its) {
            listener = its;
        }

        @Override
        public LineView lines() {
            return LineView.NONE;
        }

        @Override
        public void askForKept(long sinceUptimeMs) {
            // Nothing was kept.
        }

        @Override
        public void close() {
            // Nothing is open.
        }
    }
}

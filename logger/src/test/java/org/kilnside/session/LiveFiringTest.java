package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.kilnside.alarm.Alarm;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Reading;
import org.kilnside.firing.Trace;
import org.kilnside.sensor.SensorInPlace;

class LiveFiringTest {
    private static final FiringForecaster NO_FORECASTS = request -> LiveForecast.failed(request, "none in this test");

    private final HandClock clock = new HandClock();
    private final HandSource source = new HandSource();
    private final FiringSettings settings =
            FiringSettings.of(Optional.of("Tall Drum"), Optional.empty(), Optional.empty());

    @Test
    void aReadingIsHandedToTheBookBeforeAnySnapshotShowsIt() {
        List<String> order = Collections.synchronizedList(new ArrayList<>());
        BookInMemory book = new BookInMemory() {
            @Override
            public void append(long firing, Reading reading) {
                order.add("book " + reading.elapsedMs());
                super.append(firing, reading);
            }
        };
        LiveFiring firing = new LiveFiring(book, clock, settings, source, NO_FORECASTS);
        firing.subscribe(snapshot -> snapshot.latest().ifPresent(latest -> {
            String seen = "seen " + latest.elapsedMs();
            if (!order.contains(seen)) {
                order.add(seen);
            }
        }));
        firing.start();
        for (int s = 0; s < 50; s++) {
            source.gives(Arrivals.measured(s * 1_000L, s * 1_000L, 20));
        }
        firing.close();
        for (int s = 0; s < 50; s++) {
            assertThat(order.indexOf("book " + s * 1_000)).isGreaterThanOrEqualTo(0);
            assertThat(order.indexOf("seen " + s * 1_000)).isGreaterThan(order.indexOf("book " + s * 1_000));
        }
    }

    @Test
    void closingWorksOffEverythingThatHasArrived() {
        BookInMemory book = new BookInMemory();
        LiveFiring firing = new LiveFiring(book, clock, settings, source, NO_FORECASTS);
        firing.start();
        for (int s = 0; s < 20_000; s++) {
            source.gives(Arrivals.measured(s * 1_000L, s * 1_000L, 20));
        }
        firing.close();
        assertThat(source.closed).isTrue();
        assertThat(book.readings.get(0)).hasSize(20_000);
    }

    @Test
    void theForecastComesFromAThreadOfItsOwnIntoTheNextSnapshot() throws InterruptedException {
        FiringForecaster forecaster =
                request -> LiveForecast.failed(request, Thread.currentThread().getName());
        LiveFiring firing = new LiveFiring(new BookInMemory(), clock, settings, source, forecaster);
        BlockingQueue<LiveForecast> answers = new LinkedBlockingQueue<>();
        firing.subscribe(snapshot -> snapshot.findings().forecast().ifPresent(answers::add));
        firing.start();
        for (int s = 0; s < 7_200; s++) {
            source.gives(Arrivals.measured(s * 1_000L, s * 1_000L, 20 + s / 30.0));
        }
        LiveForecast answer = answers.poll(20, TimeUnit.SECONDS);
        assertThat(answer).as("an answer").isNotNull();
        assertThat(answer.failure()).hasValue("forecast");
        firing.close();
    }

    @Test
    void aListenerThatFailsIsLeftOutAndTheOthersGoOn() {
        BookInMemory book = new BookInMemory();
        LiveFiring firing = new LiveFiring(book, clock, settings, source, NO_FORECASTS);
        List<Long> seen = Collections.synchronizedList(new ArrayList<>());
        firing.subscribe(snapshot -> {
            throw new IllegalStateException("a broken face, on purpose");
        });
        firing.subscribe(snapshot -> seen.add(snapshot.sequence()));
        firing.start();
        for (int s = 0; s < 10; s++) {
            source.gives(Arrivals.measured(s * 1_000L, s * 1_000L, 20));
        }
        firing.close();
        assertThat(book.readings.get(0)).hasSize(10);
        assertThat(seen).hasSizeGreaterThanOrEqualTo(10).isSorted().doesNotHaveDuplicates();
    }

    @Test
    void aClosedSubscriptionHearsNothingMore() {
        LiveFiring firing = new LiveFiring(new BookInMemory(), clock, settings, source, NO_FORECASTS);
        List<Long> seen = Collections.synchronizedList(new ArrayList<>());
        firing.subscribe(snapshot -> seen.add(snapshot.sequence())).close();
        firing.start();
        source.gives(Arrivals.measured(0, 0, 20));
        firing.close();
        assertThat(seen).isEmpty();
    }

    @Test
    void whatAPersonSaysIsInTheRecord() {
        BookInMemory book = new BookInMemory();
        LiveFiring firing = new LiveFiring(book, clock, settings, source, NO_FORECASTS);
        firing.start();
        source.gives(Arrivals.measured(0, clock.monotonicMs(), 20));
        firing.note("Vent on");
        firing.firingBegins();
        source.gives(Arrivals.measured(1_000, clock.monotonicMs(), 20));
        firing.firingEnds();
        firing.close();
        assertThat(book.events.get(0).stream().map(FiringEvent::kind))
                .contains(FiringEvent.Kind.NOTE, FiringEvent.Kind.FIRING_ENDED);
        assertThat(firing.latest().stage()).isEqualTo(Snapshot.Stage.ENDED);
    }

    @Test
    void theControllerIsAskedOnceForWhatWasMissed() {
        LiveFiring firing = new LiveFiring(new BookInMemory(), clock, settings, source, NO_FORECASTS);
        firing.start();
        source.gives(Arrivals.measured(60_000, 0, 20));
        source.gives(Arrivals.measured(900_000, 840_000, 30));
        source.gives(Arrivals.measured(901_000, 841_000, 30));
        firing.close();
        assertThat(source.asked).containsExactly(60_000L);
    }

    @Test
    void aGapIsFilledAlsoWhileLinesComeWithoutAPause() throws InterruptedException {
        HandClock moving = new HandClock();
        BookInMemory book = new BookInMemory();
        LiveFiring firing = new LiveFiring(book, moving, settings, source, NO_FORECASTS);
        firing.start();
        source.gives(Arrivals.measured(60_000, 0, 20));
        source.gives(Arrivals.measured(900_000, 840_000, 30));
        source.gives(Arrivals.kept(480_000, 840_000, 25));
        long uptime = 900_000;
        for (int i = 0; i < 500 && !filled(firing); i++) {
            moving.forwardMs(20);
            uptime += 20;
            source.gives(Arrivals.measured(uptime, uptime - 60_000, 30));
            Thread.sleep(5);
        }
        assertThat(filled(firing)).isTrue();
        firing.close();
    }

    /** Share of full power at a temperature of a ramp of 100 K/h, of dry ware or of wet. */
    private static double share(double celsius, boolean wet) {
        double dry = 0.0015 * (100 + 0.45 * (celsius - 15));
        return wet && celsius > 100 ? 1.4 * dry : dry;
    }

    @Test
    void whatEarlierFiringsTookIsReadOnceAFiringAndWaterIsSeenAgainstIt() throws InterruptedException {
        Trace.Builder dry = new Trace.Builder();
        for (int i = 0; i < 720; i++) {
            double celsius = 20 + i / 3.6;
            dry.add(i * 10_000L, celsius, OptionalDouble.of(share(celsius, false)), OptionalDouble.empty());
        }
        CountDownLatch asked = new CountDownLatch(1);
        KilnPast past = new KilnPast() {
            @Override
            public Optional<SensorInPlace> guide() {
                return Optional.empty();
            }

            @Override
            public List<Trace> earlier(long firing) {
                assertThat(asked.getCount()).as("read once").isEqualTo(1);
                asked.countDown();
                return List.of(dry.view(), dry.view(), dry.view());
            }
        };
        LiveFiring firing =
                new LiveFiring(new BookInMemory(), clock, settings, source, NO_FORECASTS, Host.UNKNOWN, past);
        firing.start();
        int i = 0;
        for (; 20 + i / 3.6 < 60; i++) {
            givesOfARamp(i);
        }
        assertThat(asked.await(20, TimeUnit.SECONDS)).isTrue();
        for (Thread thread : Thread.getAllStackTraces().keySet()) {
            if (thread.getName().equals("earlier firings")) {
                thread.join(20_000);
            }
        }
        for (; 20 + i / 3.6 < 170; i++) {
            givesOfARamp(i);
        }
        firing.close();
        assertThat(firing.latest().alarms())
                .extracting(Alarm::kind)
                .contains(AlarmKind.WATER_LEAVING)
                .doesNotContain(AlarmKind.SENSOR_LYING);
    }

    private void givesOfARamp(int i) {
        double celsius = 20 + i / 3.6;
        source.gives(Arrivals.measured(i * 10_000L, i * 10_000L, celsius, share(celsius, true), celsius + 3));
    }

    private static boolean filled(LiveFiring firing) {
        return firing.latest().events().stream().anyMatch(event -> event.kind() == FiringEvent.Kind.GAP_FILLED);
    }

    /** A source moved by hand. */
    private static final class HandSource implements ReadingSource {
        private final List<Long> asked = Collections.synchronizedList(new ArrayList<>());
        private Listener listener;
        private boolean closed;

        void gives(Arrival arrival) {
            listener.readingArrived(arrival);
        }

        @Override
        public String notation() {
            return "serial:/dev/ttyUSB0?baud=115200";
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
        public void askForKept(long sinceUptimeMs) {
            asked.add(sinceUptimeMs);
        }

        @Override
        public LineView lines() {
            return LineView.NONE;
        }

        @Override
        public void close() {
            closed = true;
        }
    }
}

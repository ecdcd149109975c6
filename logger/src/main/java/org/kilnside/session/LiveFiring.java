package org.kilnside.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import org.kilnside.alarm.DryingTake;
import org.kilnside.firing.Lighting;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The live firing with its thread: what arrives from the link is queued, and one thread hands it to the book, tracks
 * it and publishes a snapshot. The queue is bounded, so that a replay at full speed waits for the session and never
 * fills the memory; a real wire never fills it.
 */
public final class LiveFiring implements LiveFeed, ReadingSource.Listener, AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(LiveFiring.class);
    private static final int QUEUE = 4096;
    private static final long LOOK_ROUND_MS = 200;

    private final FiringWatch watch;
    private final ForecastThread forecasts;
    private final ReadingSource source;
    private final BlockingQueue<Runnable> queue = new ArrayBlockingQueue<>(QUEUE);
    private final Listeners listeners = new Listeners();
    private final Thread thread = new Thread(this::work, "session");
    private long lookedAtEarlierOf = Long.MIN_VALUE;
    private volatile Snapshot latest;
    private volatile boolean closing;

    /** A live firing on a host of which nothing is known. */
    public LiveFiring(
            FiringBook book,
            HostClock clock,
            FiringSettings settings,
            ReadingSource source,
            FiringForecaster forecaster) {
        this(book, clock, settings, source, forecaster, Host.UNKNOWN, KilnPast.NONE);
    }

    /**
     * @param forecaster asked once a minute of the kiln's time, on a thread of its own
     * @param host asked each second what it says of itself
     * @param past asked before each forecast what is known of the sensor, on the forecast's thread
     */
    public LiveFiring(
            FiringBook book,
            HostClock clock,
            FiringSettings settings,
            ReadingSource source,
            FiringForecaster forecaster,
            Host host,
            KilnPast past) {
        this.source = source;
        this.forecasts = new ForecastThread(
                request -> {
                    lookAtSensor(past);
                    lookAtEarlier(past, request.firing());
                    return forecaster.forecast(request);
                },
                (request, answer) -> submit(() -> watch().forecast(request, answer)));
        this.watch = new FiringWatch(book, clock, settings, source.notation(), source.speed(), host);
        this.latest = watch.snapshot();
    }

    /** A person may have noted a calibration in mid-firing, in whatever window. */
    private void lookAtSensor(KilnPast past) {
        try {
            past.guide().ifPresent(sensor -> submit(() -> watch().sensor(sensor)));
        } catch (RuntimeException e) {
            LOG.warn("what is known of the sensor could not be read; the firing goes on with what was known", e);
        }
    }

    /** Read once a firing, on a thread of its own: it takes seconds. */
    private void lookAtEarlier(KilnPast past, long firing) {
        if (firing == lookedAtEarlierOf) {
            return;
        }
        lookedAtEarlierOf = firing;
        Thread reading = new Thread(
                () -> {
                    try {
                        List<DryingTake> takes = past.earlier(firing).stream()
                                .map(DryingTake::of)
                                .flatMap(Optional::stream)
                                .toList();
                        submit(() -> watch().earlier(takes));
                    } catch (RuntimeException e) {
                        LOG.warn("earlier firings could not be read; water is looked for without them", e);
                    }
                },
                "earlier firings");
        reading.setDaemon(true);
        reading.setPriority(Thread.MIN_PRIORITY);
        reading.start();
    }

    /** Goes on with the firing of the program's last run where there is one to go on with, and opens the link. */
    public void start() {
        thread.start();
        forecasts.start();
        submit(watch::resume);
        source.start(this);
    }

    @Override
    public Snapshot latest() {
        return latest;
    }

    @Override
    public Subscription subscribe(Consumer<Snapshot> listener) {
        return listeners.add(listener);
    }

    @Override
    public LineView lines() {
        return source.lines();
    }

    /** Something stands in the way of making an alarm heard, in one part of a sentence: it belongs in the record. */
    public void alarmUnheard(String why) {
        submit(() -> watch.alarmUnheard(why));
    }

    /** The kiln's owner has set something in mid-firing. */
    public void kilnIs(FiringSettings now) {
        submit(() -> watch.kilnIs(now));
    }

    /** Somebody counts on readings from now on: it is an alarm when none ever comes. */
    public void awaitFirstReading() {
        submit(watch::awaitFirstReading);
    }

    @Override
    public void lighting(Lighting list) {
        submit(() -> watch.lighting(list));
    }

    @Override
    public void note(String text) {
        submit(() -> watch.note(text, Duration.ZERO));
    }

    @Override
    public void note(String text, Duration ago) {
        submit(() -> watch.note(text, ago));
    }

    @Override
    public void acknowledge(String alarmId) {
        submit(() -> watch.acknowledge(alarmId));
    }

    @Override
    public void firingBegins() {
        submit(watch::firingBegins);
    }

    @Override
    public void firingEnds() {
        submit(watch::firingEnds);
    }

    @Override
    public void controllerSaidHello(ReadingSource.ControllerHello hello) {
        submit(() -> watch.hello(hello));
    }

    @Override
    public void readingArrived(ReadingSource.Arrival arrival) {
        submit(() -> watch.reading(arrival));
    }

    @Override
    public void connectionChanged(Connection connection) {
        submit(() -> watch.connection(connection));
    }

    /** Closes the link, works off what has arrived, and stops. What was handed to the book is the book's to finish. */
    @Override
    public void close() {
        source.close();
        forecasts.close();
        closing = true;
        boolean interrupted = false;
        while (thread.isAlive()) {
            try {
                thread.join();
            } catch (InterruptedException e) {
                interrupted = true;
            }
        }
        if (interrupted) {
            Thread.currentThread().interrupt();
        }
    }

    private FiringWatch watch() {
        return watch;
    }

    private void submit(Runnable work) {
        try {
            queue.put(work);
        } catch (InterruptedException e) {
            // The link's thread is being stopped: keep the reading all the same if there is room for it.
            Thread.currentThread().interrupt();
            if (!queue.offer(work)) {
                LOG.warn("a reading that arrived while the link closed found no room");
            }
        }
    }

    private void work() {
        List<Runnable> batch = new ArrayList<>();
        long lookedRoundNanos = System.nanoTime();
        while (true) {
            try {
                Runnable first = queue.poll(LOOK_ROUND_MS, TimeUnit.MILLISECONDS);
                if (first != null) {
                    batch.add(first);
                    queue.drainTo(batch, 255);
                } else if (closing) {
                    return;
                }
            } catch (InterruptedException e) {
                // Nobody interrupts this thread to stop it; closing does. Go on recording.
                LOG.warn("the session's thread was interrupted and goes on", e);
                continue;
            }
            for (Runnable work : batch) {
                perform(work);
            }
            // Also where lines come without a pause.
            if (batch.isEmpty() || System.nanoTime() - lookedRoundNanos > LOOK_ROUND_MS * 1_000_000) {
                lookedRoundNanos = System.nanoTime();
                perform(watch::lookRound);
            }
            batch.clear();
        }
    }

    private void perform(Runnable work) {
        try {
            work.run();
            watch.takeForecastRequest().ifPresent(forecasts::ask);
        } catch (RuntimeException e) {
            // The reading is in the book by now; a fault in what follows must not end the recording.
            LOG.error("a fault while following the firing; recording goes on", e);
        }
        watch.takeMissingSince().ifPresent(source::askForKept);
        publish(watch.snapshot());
    }

    private void publish(Snapshot snapshot) {
        if (snapshot == latest) {
            return;
        }
        latest = snapshot;
        listeners.tell(snapshot);
    }
}

package org.kilnside.session;

import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.Executor;
import org.kilnside.firing.Kiln;
import org.kilnside.thermal.KilnMemory;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Forecasts with what earlier firings of this kiln taught. They are read and learned from once a firing, on a thread of
 * its own, since that takes seconds; until it is done, and where it fails, the model answers as if this were the kiln's
 * first firing. Asked on the forecast's thread alone.
 */
public final class LearnedForecaster implements FiringForecaster {
    private static final Logger LOG = LoggerFactory.getLogger(LearnedForecaster.class);

    private final KilnPast past;
    private final Executor learning;
    private Optional<Lesson> lesson = Optional.empty();

    /** What is being learned, or has been, and for which firing and wall. */
    private record Lesson(long firing, Optional<Kiln.Wall> wall, CompletableFuture<KilnMemory> memory) {}

    public LearnedForecaster(KilnPast past) {
        this(past, LearnedForecaster::onAThreadOfItsOwn);
    }

    /** @param learning runs what takes seconds */
    LearnedForecaster(KilnPast past, Executor learning) {
        this.past = past;
        this.learning = learning;
    }

    private static void onAThreadOfItsOwn(Runnable work) {
        Thread thread = new Thread(work, "kiln memory");
        thread.setDaemon(true);
        thread.setPriority(Thread.MIN_PRIORITY);
        thread.start();
    }

    @Override
    public LiveForecast forecast(ForecastRequest request) {
        return ModelForecaster.forecast(request, memory(request));
    }

    private KilnMemory memory(ForecastRequest request) {
        if (lesson.isEmpty()
                || lesson.get().firing() != request.firing()
                || !lesson.get().wall().equals(request.wall())) {
            lesson = Optional.of(new Lesson(request.firing(), request.wall(), learn(request)));
        }
        KilnMemory none = ModelForecaster.noMemory(request);
        try {
            return lesson.get().memory().getNow(none);
        } catch (CompletionException e) {
            // Said once in the log, when it happened.
            return none;
        }
    }

    private CompletableFuture<KilnMemory> learn(ForecastRequest request) {
        return CompletableFuture.supplyAsync(
                        () -> ModelForecaster.learn(past.earlier(request.firing()), request), learning)
                .whenComplete((memory, failure) -> {
                    if (failure != null) {
                        LOG.warn("earlier firings could not be learned from; forecasts go on without", failure);
                    } else {
                        LOG.info("the forecast knows {} earlier firings of this kiln", memory.firings());
                    }
                });
    }
}

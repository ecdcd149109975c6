package org.kilnside.session;

import java.util.function.BiConsumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The one thread forecasts are worked out on. The newest question wins: one that has not been begun when the next comes
 * is dropped, since its answer would be out of date. A failing forecast is an answer that says so.
 */
final class ForecastThread implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(ForecastThread.class);

    private final FiringForecaster forecaster;
    private final BiConsumer<ForecastRequest, LiveForecast> answers;
    private final Thread thread = new Thread(this::work, "forecast");
    private ForecastRequest waiting;
    private boolean closed;

    /** @param answers takes each answer, on the forecast's thread */
    ForecastThread(FiringForecaster forecaster, BiConsumer<ForecastRequest, LiveForecast> answers) {
        this.forecaster = forecaster;
        this.answers = answers;
        thread.setDaemon(true);
    }

    void start() {
        thread.start();
    }

    /** Asks; returns at once. */
    synchronized void ask(ForecastRequest request) {
        waiting = request;
        notifyAll();
    }

    private synchronized ForecastRequest next() throws InterruptedException {
        while (waiting == null && !closed) {
            wait();
        }
        ForecastRequest next = waiting;
        waiting = null;
        return closed ? null : next;
    }

    private void work() {
        try {
            for (ForecastRequest request = next(); request != null; request = next()) {
                answers.accept(request, answer(request));
            }
        } catch (InterruptedException e) {
            // Nobody interrupts this thread but a machine that shuts down.
            Thread.currentThread().interrupt();
        }
    }

    private LiveForecast answer(ForecastRequest request) {
        try {
            return forecaster.forecast(request);
        } catch (RuntimeException e) {
            LOG.warn("no forecast at {} ms: the model failed", request.askedMs(), e);
            return LiveForecast.failed(request, String.valueOf(e.getMessage()));
        }
    }

    /** Begins no further forecast. One being worked out is left to finish; nobody waits for it. */
    @Override
    public synchronized void close() {
        closed = true;
        notifyAll();
    }
}

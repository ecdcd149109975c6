package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Kiln;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.sensor.SensorUncertainty;

class ForecastThreadTest {
    private final BlockingQueue<LiveForecast> answers = new LinkedBlockingQueue<>();

    private static ForecastRequest request(long atMs) {
        return new ForecastRequest(
                0,
                new Trace.Builder().add(atMs, 500).view(),
                Optional.empty(),
                Optional.of(List.of()),
                new HeatWork(ConeTable.of(ConeSeries.SELF_SUPPORTING)),
                SensorUncertainty.UNKNOWN,
                Optional.empty(),
                Kiln.Thresholds.COMMON_PRACTICE,
                Optional.empty(),
                OptionalDouble.empty());
    }

    private LiveForecast answer() throws InterruptedException {
        LiveForecast answer = answers.poll(20, TimeUnit.SECONDS);
        assertThat(answer).as("an answer came").isNotNull();
        return answer;
    }

    @Test
    void theNewestQuestionWinsAndThoseBetweenAreDropped() throws InterruptedException {
        CountDownLatch begun = new CountDownLatch(1);
        CountDownLatch goOn = new CountDownLatch(1);
        FiringForecaster slow = request -> {
            begun.countDown();
            try {
                goOn.await();
            } catch (InterruptedException e) {
                throw new IllegalStateException(e);
            }
            return LiveForecast.failed(request, "slow");
        };
        try (ForecastThread thread = new ForecastThread(slow, (request, answer) -> answers.add(answer))) {
            thread.start();
            thread.ask(request(1));
            begun.await();
            thread.ask(request(2));
            thread.ask(request(3));
            goOn.countDown();
            assertThat(answer().askedMs()).isEqualTo(1);
            assertThat(answer().askedMs()).isEqualTo(3);
        }
        assertThat(answers).isEmpty();
    }

    @Test
    void aModelThatFailsIsAnAnswerThatSaysSoAndTheNextIsAskedAllTheSame() throws InterruptedException {
        FiringForecaster failing = request -> {
            if (request.askedMs() == 1) {
                throw new IllegalStateException("the fit did not converge, on purpose");
            }
            return LiveForecast.failed(request, "another");
        };
        try (ForecastThread thread = new ForecastThread(failing, (request, answer) -> answers.add(answer))) {
            thread.start();
            thread.ask(request(1));
            LiveForecast first = answer();
            assertThat(first.forecast()).isEmpty();
            assertThat(first.failure()).hasValue("the fit did not converge, on purpose");
            thread.ask(request(2));
            assertThat(answer().failure()).hasValue("another");
        }
    }
}

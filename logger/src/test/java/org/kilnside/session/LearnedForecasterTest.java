package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Queue;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Kiln;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.sensor.SensorUncertainty;
import org.kilnside.thermal.Forecast;
import org.kilnside.virtualkiln.VirtualFiring;
import org.kilnside.virtualkiln.VirtualKilns;

class LearnedForecasterTest {
    /** A whole firing of the demo's kiln, whose physics are not the model's: 30 h, a reading in ten seconds. */
    private static final Trace FIRING = firing();

    private final List<Long> asked = new ArrayList<>();
    private final Queue<Runnable> waiting = new ArrayDeque<>();
    private Optional<RuntimeException> trouble = Optional.empty();
    private final LearnedForecaster forecaster = new LearnedForecaster(
            new KilnPast() {
                @Override
                public Optional<SensorInPlace> guide() {
                    return Optional.empty();
                }

                @Override
                public List<Trace> earlier(long firing) {
                    asked.add(firing);
                    trouble.ifPresent(failure -> {
                        throw failure;
                    });
                    return List.of(FIRING, FIRING);
                }
            },
            waiting::add);

    private static Trace firing() {
        VirtualFiring firing = VirtualFiring.of(VirtualKilns.named("tall-drum").orElseThrow(), VirtualKilns.bisque())
                .load(VirtualKilns.bisqueLoad())
                .interval(10)
                .start();
        Trace.Builder curve = new Trace.Builder();
        for (int i = 0; i < 48 * 360; i++) {
            VirtualFiring.Moment moment = firing.next();
            curve.add(
                    moment.elapsedMs(),
                    moment.truth().tipC(),
                    OptionalDouble.of(moment.controller().output().orElseThrow().fraction()),
                    OptionalDouble.empty());
        }
        return curve.view();
    }

    private static ForecastRequest at600Falling(long number) {
        Trace.Builder known = new Trace.Builder();
        boolean top = false;
        for (int i = 0; i < FIRING.size(); i++) {
            double celsius = FIRING.temperatureC(i);
            known.add(FIRING.elapsedMs(i), celsius, FIRING.output(i), OptionalDouble.empty());
            top |= celsius > 950;
            if (top && celsius < 600) {
                break;
            }
        }
        Trace curve = known.view();
        return new ForecastRequest(
                0,
                curve,
                Optional.of(VirtualKilns.bisque()),
                Optional.of(List.of()),
                HeatWork.of(ConeTable.of(ConeSeries.SELF_SUPPORTING), curve),
                SensorUncertainty.UNKNOWN,
                Optional.empty(),
                Kiln.Thresholds.COMMON_PRACTICE,
                Optional.of(Kiln.Wall.BRICK),
                OptionalDouble.empty(),
                number,
                List.of(),
                Optional.empty());
    }

    private static double trueBelowS(double celsius) {
        for (int i = FIRING.size() - 1; i > 0; i--) {
            if (FIRING.temperatureC(i) >= celsius) {
                return FIRING.elapsedMs(i) / 1000.0;
            }
        }
        throw new IllegalStateException("it was never that hot");
    }

    private static Forecast.When below120(LiveForecast live) {
        return live.below(Temperature.ofCelsius(120)).orElseThrow().when().orElseThrow();
    }

    @Test
    void earlierFiringsOfThisKilnAreLearnedFromOnceAndMakeTheForecastSurer() {
        LiveForecast first = forecaster.forecast(at600Falling(3));
        assertThat(first.failure()).isEmpty();
        assertThat(asked).as("nobody waits for the disk").isEmpty();
        waiting.remove().run();
        LiveForecast learned = forecaster.forecast(at600Falling(3));
        forecaster.forecast(at600Falling(3));
        assertThat(asked).containsExactly(3L);

        double truth = trueBelowS(120);
        assertThat(Math.abs(below120(learned).atS() - truth))
                .as("no further off than before, or by no more than a minute")
                .isLessThan(Math.max(60, Math.abs(below120(first).atS() - truth)));
        assertThat(below120(learned).toS() - below120(learned).fromS())
                .as("and surer of itself")
                .isLessThan(below120(first).toS() - below120(first).fromS());
    }

    @Test
    void theNextFiringIsLearnedForAnew() {
        forecaster.forecast(at600Falling(3));
        forecaster.forecast(at600Falling(4));
        waiting.forEach(Runnable::run);
        assertThat(asked).containsExactly(3L, 4L);
    }

    @Test
    void aBookThatCannotBeReadCostsTheMemoryAndNotTheForecast() {
        trouble = Optional.of(new IllegalStateException("the disk is gone"));
        forecaster.forecast(at600Falling(3));
        waiting.remove().run();
        assertThat(forecaster.forecast(at600Falling(3)).failure()).isEmpty();
    }
}

package org.kilnside.thermal;

import java.util.OptionalDouble;
import java.util.concurrent.TimeUnit;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** Fit, forecast and interval of a 24 h firing at 1 Hz: at most 50 ms on one core. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 3, time = 2)
@Fork(1)
public class ForecastBenchmark {
    private final Trace day = day();
    private final Trace climb = climb();

    static Trace day() {
        Trace.Builder builder = new Trace.Builder();
        for (int s = 0; s < 86_400; s++) {
            double hours = s / 3600.0;
            double celsius = hours < 10
                    ? 15 + 122 * hours
                    : 15 + 1220 * (0.25 * Math.exp(-(hours - 10) / 0.8) + 0.75 * Math.exp(-(hours - 10) / 6.5));
            builder.add(s * 1000L, Math.round(celsius * 4) / 4.0);
        }
        return builder.view();
    }

    /** Steered at 150 °C/h to 800 °C, then at full output towards 1198 °C, where it has stood for hours. */
    static Trace climb() {
        Trace.Builder builder = new Trace.Builder();
        double fullFromS = 780 / 150.0 * 3600;
        for (int s = 0; s < 86_400; s++) {
            boolean full = s >= fullFromS;
            double celsius = full ? 1198 - 398 * Math.exp(-(s - fullFromS) / 10_800) : 20 + 150 * s / 3600.0;
            double output = full ? 1 : 0.1 + 0.85 * s / fullFromS;
            builder.add(s * 1000L, Math.round(celsius * 4) / 4.0, OptionalDouble.of(output), OptionalDouble.empty());
        }
        return builder.view();
    }

    /** Temperature alone, every kind of wall weighed. */
    @Benchmark
    public Forecast fitForecastAndInterval() {
        return Forecaster.forecast(ForecastQuestion.about(day).withAmbient(Temperature.ofCelsius(15)));
    }

    /** Output told, on its way up: fitted for all of it, for its top, for its cooling and for what it took before. */
    @Benchmark
    public Forecast fitsForecastAndIntervalOfAStalledClimb() {
        return Forecaster.forecast(ForecastQuestion.about(climb).withTarget(Temperature.ofCelsius(1222)));
    }
}

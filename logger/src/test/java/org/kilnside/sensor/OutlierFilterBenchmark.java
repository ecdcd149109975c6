package org.kilnside.sensor;

import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** The filter's share of the live chain, which carries a million lines a second. */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 2, time = 1)
@Measurement(iterations = 3, time = 1)
@Fork(1)
public class OutlierFilterBenchmark {
    private static final int MANY = 1 << 16;

    private final double[] celsius = new double[MANY];
    private OutlierFilter<Object> filter;
    private long next;
    private double sum;

    /** A hold at 1000 °C with ±1 °C of noise and one false reading in fifty. */
    @Setup
    public void prepare() {
        Random random = new Random(2);
        for (int i = 0; i < MANY; i++) {
            celsius[i] = random.nextInt(50) == 0 ? 1372 : 999 + 2 * random.nextDouble();
        }
        filter = new OutlierFilter<>(new OutlierFilter.Listener<Object>() {
            @Override
            public void accepted(long elapsedMs, double value, Object reading) {
                sum += value;
            }

            @Override
            public void rejected(long elapsedMs, double value, Object reading) {
                sum -= 1;
            }
        });
    }

    @Benchmark
    public double offer() {
        filter.offer(next * 100, celsius[(int) (next & (MANY - 1))], this);
        next++;
        return sum;
    }
}

package org.kilnside.sensor;

import java.util.Optional;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.kilnside.quantity.Temperature;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** The bar: an inverse in at most 150 ns, a conversion of the live chain in at most 200 ns. */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 3, time = 1)
@Fork(1)
public class SensorBenchmark {
    private static final int MANY = 4096;

    @Param({"K", "N", "S", "R", "B", "J", "T", "E"})
    public ThermocoupleType type;

    private ReferenceFunction function;
    private Thermometer thermometer;
    private final double[] emfMv = new double[MANY];
    private final RawSignal[] signals = new RawSignal[MANY];
    private int at;

    @Setup
    public void prepare() {
        function = ReferenceFunction.of(type);
        thermometer = Thermometer.of(new Probe(ThermocoupleType.K, Amplifier.MAX31855));
        double fromC = Math.max(0, function.lowestInvertible().celsius());
        double spanC = function.highest().celsius() - fromC;
        Random random = new Random(1);
        for (int i = 0; i < MANY; i++) {
            emfMv[i] = function.emfMv(fromC + spanC * random.nextDouble());
            signals[i] = RawSignal.of(random.nextInt(5200), 400 + random.nextInt(100));
        }
    }

    @Benchmark
    public double inverse() {
        at = (at + 1) & (MANY - 1);
        return function.temperatureC(emfMv[at]);
    }

    @Benchmark
    public Optional<Temperature> conversion() {
        at = (at + 1) & (MANY - 1);
        return thermometer.temperature(signals[at]);
    }
}

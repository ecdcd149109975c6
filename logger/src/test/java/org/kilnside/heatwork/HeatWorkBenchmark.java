package org.kilnside.heatwork;

import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Trace;
import org.kilnside.sensor.SensorUncertainty;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** The bar: a 12 h firing at 1 Hz over all cones in 50 ms from a cold start, 20 µs a reading live. */
@State(Scope.Thread)
public class HeatWorkBenchmark {
    private static final ConeTable TABLE = ConeTable.of(ConeSeries.SELF_SUPPORTING);

    private Trace firing;
    private HeatWork live;
    private int next;

    /** 12 h at 1 Hz: 150 °C/h to 1120, 80 °C/h to 1222, a quarter hour, then cooling; ±0.5 °C of noise. */
    @Setup(Level.Trial)
    public void prepare() {
        Random random = new Random(12);
        firing = Curves.from(20)
                .ramp(150, 1120)
                .ramp(80, 1222)
                .hold(15)
                .ramp(160, 700)
                .every(1000, at -> random.nextDouble() - 0.5);
        live = new HeatWork(TABLE);
    }

    /** The first pass in a fresh virtual machine, nothing compiled yet. */
    @Benchmark
    @BenchmarkMode(Mode.SingleShotTime)
    @OutputTimeUnit(TimeUnit.MILLISECONDS)
    @Warmup(iterations = 0)
    @Measurement(iterations = 1)
    @Fork(5)
    public ConeReached wholeFiringCold() {
        return HeatWork.of(TABLE, firing).reached(SensorUncertainty.UNKNOWN);
    }

    @Benchmark
    @BenchmarkMode(Mode.AverageTime)
    @OutputTimeUnit(TimeUnit.MILLISECONDS)
    @Warmup(iterations = 2, time = 1)
    @Measurement(iterations = 3, time = 1)
    @Fork(1)
    public ConeReached wholeFiringWarm() {
        return HeatWork.of(TABLE, firing).reached(SensorUncertainty.UNKNOWN);
    }

    /** One reading added and the answer taken, as the session does. */
    @Benchmark
    @BenchmarkMode(Mode.AverageTime)
    @OutputTimeUnit(TimeUnit.MICROSECONDS)
    @Warmup(iterations = 2, time = 1)
    @Measurement(iterations = 3, time = 1)
    @Fork(1)
    public ConeReached oneReadingLive() {
        if (next == firing.size()) {
            next = 0;
            live = new HeatWork(TABLE);
        }
        live.add(firing.elapsedMs(next), firing.temperatureC(next));
        next++;
        return live.reached(SensorUncertainty.UNKNOWN);
    }
}

package org.kilnside.virtualkiln;

import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** The bar: a whole firing of 30 h at 1 Hz in well under a second of one core. */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class VirtualKilnBenchmark {
    private static final int SECONDS = 30 * 3600;

    /** Physics alone. */
    @Benchmark
    public EnergyBalance kilnOfThirtyHours() {
        VirtualKiln kiln = VirtualKiln.cold(VirtualKilns.TALL_DRUM, Load.biscuit(20, 14), Ambient.steady(12));
        for (int i = 0; i < SECONDS; i++) {
            kiln.step(1, i < SECONDS / 3 ? 0.6 : 0);
        }
        return kiln.energy();
    }

    /** With sensor, amplifier and controller, each second. */
    @Benchmark
    public EnergyBalance firingOfThirtyHours() {
        return fire(1);
    }

    /** The same in steps of ten seconds, for populations. */
    @Benchmark
    public EnergyBalance firingOfThirtyHoursInTenSeconds() {
        return fire(10);
    }

    private static EnergyBalance fire(int stepS) {
        VirtualFiring firing = VirtualFiring.of(VirtualKilns.TALL_DRUM, VirtualKilns.bisque())
                .load(VirtualKilns.bisqueLoad())
                .interval(stepS)
                .start();
        for (int i = 0; i < SECONDS / stepS; i++) {
            firing.next();
        }
        return firing.kiln().energy();
    }
}

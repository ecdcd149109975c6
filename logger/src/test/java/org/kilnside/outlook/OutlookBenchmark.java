package org.kilnside.outlook;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.kilnside.firing.Kiln;
import org.kilnside.heatwork.Cone;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Power;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.Volume;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.thermal.LikelyKilns;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** An answer about a plan while it is edited, its wanted cone included: at most 50 ms on one core. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 3, time = 2)
@Fork(1)
public class OutlookBenchmark {
    private final OutlookQuestion question =
            OutlookQuestion.about(plan(), kiln()).withWanted(Optional.of(Cone.parse("6")));

    private final LikelyKilns kilns = question.kilns();

    private static Schedule plan() {
        return new Schedule(
                "Slow-cool glaze",
                List.of(
                        ramp(100, 120, 30),
                        ramp(150, 1100, 0),
                        ramp(60, 1205, 15),
                        ramp(150, 1040, 30),
                        ramp(60, 800, 0),
                        new Segment.FreeCooling()));
    }

    private static Segment ramp(double rate, double to, long minutes) {
        return new Segment.Ramp(
                HeatingRate.ofKelvinPerHour(rate), Temperature.ofCelsius(to), Duration.ofMinutes(minutes));
    }

    private static Kiln kiln() {
        Kiln named = Kiln.named("Tall Drum");
        return new Kiln(
                named.name(),
                Optional.of(Volume.ofLitres(68)),
                Optional.of(Power.ofKilowatts(5.6)),
                Optional.of(Kiln.Wall.BRICK),
                named.opening(),
                named.isolator(),
                named.tariff(),
                named.limits(),
                named.thresholds(),
                named.sensors());
    }

    /** The kilns made before, as when a plan is edited. */
    @Benchmark
    public Outlook whileEditing() {
        return Outlook.of(question, kilns);
    }

    /** The kilns made too, as on the command line or when the kiln or its load changes. */
    @Benchmark
    public Outlook fromTheBeginning() {
        return Outlook.of(question);
    }
}

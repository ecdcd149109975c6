package org.kilnside.review;

import java.time.Duration;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.kilnside.firing.GoodReadings;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.WitnessCone;
import org.kilnside.heatwork.WitnessPack;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
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

/** The bar: the review of a 14 h firing at 1 Hz in 200 ms. */
@State(Scope.Thread)
public class ReviewBenchmark {
    private ReviewQuestion question;

    /** 14 h at 1 Hz of a kiln that stalls at 1200 °C at full output, with a pack of witness cones. */
    @Setup(Level.Trial)
    public void prepare() {
        Random random = new Random(14);
        Trace.Builder log = new Trace.Builder();
        for (int at = 0; at < 14 * 3600; at++) {
            double asked = at < 26_400 ? 20 + at / 24.0 : Math.min(1222, 1120 + (at - 26_400) / 60.0);
            double celsius = at < 26_400
                    ? asked
                    : at < 37_000
                            ? 1200 - 80 * Math.exp(-(at - 26_400) / 3600.0)
                            : 20 + 1176 * Math.exp(-(at - 37_000) / 21_600.0);
            boolean heating = at < 37_000;
            log.add(
                    at * 1000L,
                    celsius + 0.5 * random.nextGaussian(),
                    OptionalDouble.of(heating ? Math.min(1, 0.3 + at / 35_000.0) : 0),
                    heating ? OptionalDouble.of(asked) : OptionalDouble.empty());
        }
        Schedule plan =
                new Schedule("Glaze", List.of(ramp(150, 1120, 0), ramp(60, 1222, 15), new Segment.FreeCooling()));
        WitnessPack pack = new WitnessPack("middle", List.of(seen("5", 90), seen("6", 40), seen("7", 5)));
        question = ReviewQuestion.about(GoodReadings.of(log.view()), plan).withWitness(List.of(pack));
    }

    private static WitnessCone seen(String cone, double degrees) {
        return new WitnessCone(Cone.parse(cone), OptionalDouble.of(degrees), OptionalLong.empty());
    }

    private static Segment ramp(double rate, double toC, long minutes) {
        return new Segment.Ramp(
                HeatingRate.ofKelvinPerHour(rate), Temperature.ofCelsius(toC), Duration.ofMinutes(minutes));
    }

    /** The first review in a fresh virtual machine, nothing compiled yet. */
    @Benchmark
    @BenchmarkMode(Mode.SingleShotTime)
    @OutputTimeUnit(TimeUnit.MILLISECONDS)
    @Warmup(iterations = 0)
    @Measurement(iterations = 1)
    @Fork(3)
    public Review cold() {
        return Reviewer.review(question);
    }

    @Benchmark
    @BenchmarkMode(Mode.AverageTime)
    @OutputTimeUnit(TimeUnit.MILLISECONDS)
    @Warmup(iterations = 2, time = 1)
    @Measurement(iterations = 3, time = 1)
    @Fork(1)
    public Review warm() {
        return Reviewer.review(question);
    }
}

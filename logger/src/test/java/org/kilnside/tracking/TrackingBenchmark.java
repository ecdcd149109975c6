package org.kilnside.tracking;

import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.schedule.Schedule;
import org.kilnside.tracking.SimulatedFiring.Habit;
import org.kilnside.tracking.SimulatedFiring.Line;
import org.kilnside.tracking.SimulatedFiring.Prints;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * A whole cone 6 firing with its cooling followed, in ns a reading: with the tracker alone, with the position asked for
 * at each reading, and, as a plain baseline, with no more than a running maximum. Aim: 200 ns, five million a second.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class TrackingBenchmark {
    private static final int READINGS = 80_000;

    @Param({"TEMPERATURE_ALONE", "EVERYTHING"})
    public String prints;

    private Schedule plan;
    private Line[] lines;

    @Setup
    public void fire() {
        plan = ProfileLibrary.starters().plan("mid-range-glaze").schedule();
        SimulatedFiring firing = new SimulatedFiring();
        firing.habit = Habit.WAITS;
        firing.prints = Prints.valueOf(prints);
        firing.delayS = 3600;
        firing.runForS = READINGS;
        firing.stopBelowC = -100;
        List<Line> run = firing.run(plan);
        lines = run.toArray(new Line[0]);
    }

    @Benchmark
    @OperationsPerInvocation(READINGS)
    public FiringStage track() {
        FiringTracker tracker = new FiringTracker(Optional.of(plan));
        for (Line line : lines) {
            tracker.take(line.elapsedMs(), line.temperatureC(), line.report());
        }
        return tracker.stage();
    }

    @Benchmark
    @OperationsPerInvocation(READINGS)
    public long trackAndAskEachTime() {
        FiringTracker tracker = new FiringTracker(Optional.of(plan));
        long points = 0;
        for (Line line : lines) {
            tracker.take(line.elapsedMs(), line.temperatureC(), line.report());
            points += tracker.position().get().aligned().size();
        }
        return points;
    }

    @Benchmark
    @OperationsPerInvocation(READINGS)
    public double baselineRunningMaximum() {
        double highest = 0;
        for (Line line : lines) {
            highest = Math.max(highest, line.temperatureC());
        }
        return highest;
    }
}

package org.kilnside.thermal;

import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.sensor.Thermometer;
import org.kilnside.virtualkiln.Disturbance;
import org.kilnside.virtualkiln.Happenings;
import org.kilnside.virtualkiln.Population;
import org.kilnside.virtualkiln.Programs;
import org.kilnside.virtualkiln.SensorSpec;
import org.kilnside.virtualkiln.Specimen;
import org.kilnside.virtualkiln.VirtualFiring;
import org.kilnside.virtualkiln.VirtualFiring.Moment;

/** A firing of the virtual kiln, in ten-second steps, every third one logged. */
final class VirtualTrial implements Tried {
    private static final double STEP_S = 10;
    private static final int LOGGED_EVERY = 3;

    private final double[] tipC;
    private final double[] hottestWareC;
    private final double[] output;
    private final double roomC;
    private final Trace log;
    private final Schedule plan;

    private VirtualTrial(
            double[] tipC, double[] hottestWareC, double[] output, double roomC, Trace log, Schedule plan) {
        this.tipC = tipC;
        this.hottestWareC = hottestWareC;
        this.output = output;
        this.roomC = roomC;
        this.log = log;
        this.plan = plan;
    }

    /** What a kiln of a population is fired with: glaze, bisque, glaze … each with a top of its own. */
    static VirtualTrial of(Population.Family family, long seed, int kiln, int firing, boolean slowCooling) {
        Specimen specimen = new Population(family, seed).specimen(kiln);
        int mixed = Math.floorMod(kiln * 7 + firing * 3, 5);
        Schedule program = slowCooling
                ? Programs.slowCoolGlaze(1180 + 14 * mixed, 70)
                : (kiln + firing) % 2 == 0
                        ? Programs.glaze(1150 + 22 * mixed, 60 + 10 * mixed)
                        : Programs.bisque(960 + 22 * mixed);
        VirtualFiring.Builder builder = (kiln + firing) % 2 == 0 || slowCooling
                ? specimen.glazeFiring(program, firing)
                : specimen.bisqueFiring(program, firing);
        return run(builder.interval(STEP_S).start(), program, 45, Double.POSITIVE_INFINITY)
                .asReadBy(specimen.sensor());
    }

    /** The same, its truth what the sensor in it would read without noise: forecasts are asked for that number. */
    VirtualTrial asReadBy(SensorSpec sensor) {
        double[] read = Arrays.stream(tipC)
                .map(tip -> tip * (1 + sensor.gain()) + sensor.offsetC())
                .toArray();
        return new VirtualTrial(read, hottestWareC, output, roomC, log, plan);
    }

    /** A kiln's first firing of a program, for a time, with what happens in it. */
    static VirtualTrial run(
            Population.Family family,
            long seed,
            int kiln,
            Schedule program,
            double mostS,
            Disturbance... disturbances) {
        Specimen specimen = new Population(family, seed).specimen(kiln);
        VirtualFiring.Builder builder =
                program.top().celsius() < 1100 ? specimen.bisqueFiring(program, 0) : specimen.glazeFiring(program, 0);
        return run(builder.interval(STEP_S).disturbances(disturbances).start(), program, 45, mostS);
    }

    /** A kiln's first glaze, to the end or for a time, with what happens in it. */
    static VirtualTrial glaze(
            Population.Family family, int kiln, Schedule program, double mostS, Disturbance... disturbances) {
        return run(family, 5, kiln, program, mostS, disturbances);
    }

    /** The same, left to cool with nothing done to it. */
    static VirtualTrial glaze(Population.Family family, int kiln, Schedule program) {
        return glaze(family, kiln, program, Double.POSITIVE_INFINITY);
    }

    /** Runs until the kiln is cool, or for a time. */
    static VirtualTrial run(VirtualFiring firing, Schedule program, double untilC, double mostS) {
        Thermometer thermometer = Thermometer.of(firing.probes().get(0));
        double[] tip = new double[40_000];
        double[] ware = new double[40_000];
        double[] output = new double[40_000];
        Trace.Builder log = new Trace.Builder();
        double room = 0;
        double highest = 0;
        int n = 0;
        while (n < tip.length && n * STEP_S < mostS) {
            Moment now = firing.next();
            tip[n] = now.truth().tipC();
            ware[n] = now.truth().hottestWareC();
            output[n] = now.truth().powerW() > 0 ? 1 : 0;
            if (n == 0) {
                room = now.truth().roomC();
            }
            highest = Math.max(highest, tip[n]);
            if (n % LOGGED_EVERY == 0 && now.controllerOn()) {
                long at = now.elapsedMs();
                OptionalDouble share = now.controller().output().isPresent()
                        ? OptionalDouble.of(now.controller().output().get().fraction())
                        : OptionalDouble.empty();
                OptionalDouble setpoint = now.controller().setpoint().isPresent()
                        ? OptionalDouble.of(now.controller().setpoint().get().celsius())
                        : OptionalDouble.empty();
                thermometer
                        .temperature(now.signals().get(0))
                        .ifPresent(read -> log.add(at, read.celsius(), share, setpoint));
            }
            n++;
            if (Double.isInfinite(mostS) && highest > 500 && tip[n - 1] < Math.max(untilC, room + 12)) {
                break;
            }
        }
        return new VirtualTrial(
                Arrays.copyOf(tip, n), Arrays.copyOf(ware, n), Arrays.copyOf(output, n), room, log.view(), program);
    }

    /** A kiln with worn elements let go at full output from some temperature on, and the highest it got to within twelve hours. */
    record TopOut(Trace log, double topC, double roomC) {}

    static TopOut topsOut(Population.Family family, long seed, int kiln, double askedAtC) {
        Schedule beyond = new Schedule(
                "full output",
                List.of(new Segment.Ramp(
                        HeatingRate.ofKelvinPerHour(3000), Temperature.ofCelsius(1600), Duration.ofHours(20))));
        Schedule program = Programs.glaze(1300, 80);
        Specimen specimen = new Population(family, seed).specimen(kiln);
        VirtualTrial trial = run(
                        specimen.glazeFiring(program, 0)
                                .interval(STEP_S)
                                .elementResistance(1.5 + 0.2 * (kiln % 5))
                                .disturbances(Disturbance.rising(askedAtC, Happenings.otherProgram(beyond)))
                                .start(),
                        program,
                        45,
                        36 * 3600)
                .asReadBy(specimen.sensor());
        double asked = trial.aboveS(askedAtC);
        double top = 0;
        for (int i = (int) (asked / STEP_S); i < trial.tipC.length && i * STEP_S < asked + 12 * 3600; i++) {
            top = Math.max(top, trial.tipC[i]);
        }
        return new TopOut(trial.until(asked, true), top, trial.roomC);
    }

    Schedule plan() {
        return plan;
    }

    @Override
    public Trace until(double seconds, boolean withOutput) {
        Trace.Builder builder = new Trace.Builder();
        int last = log.indexAt(Math.round(Math.min(seconds, 1e9) * 1000));
        for (int i = 0; i <= last; i++) {
            builder.add(
                    log.elapsedMs(i),
                    log.temperatureC(i),
                    withOutput ? log.output(i) : OptionalDouble.empty(),
                    withOutput ? log.setpointC(i) : OptionalDouble.empty());
        }
        return builder.view();
    }

    @Override
    public double offS() {
        for (int i = tipC.length - 1; i >= 0; i--) {
            if (output[i] > 0) {
                return (i + 1) * STEP_S;
            }
        }
        return 0;
    }

    @Override
    public double belowS(double celsius) {
        return belowS(tipC, celsius);
    }

    /** When all ware, cores included, is below a temperature; NaN when it never is. */
    double wareBelowS(double celsius) {
        return belowS(hottestWareC, celsius);
    }

    private double belowS(double[] ofC, double celsius) {
        for (int i = (int) (offS() / STEP_S); i < ofC.length; i++) {
            if (ofC[i] < celsius) {
                return i * STEP_S;
            }
        }
        return Double.NaN;
    }

    @Override
    public double aboveS(double celsius) {
        for (int i = 0; i < tipC.length; i++) {
            if (tipC[i] > celsius) {
                return i * STEP_S;
            }
        }
        return Double.NaN;
    }

    @Override
    public double roomC() {
        return roomC;
    }

    @Override
    public double peakC() {
        return Arrays.stream(tipC).max().orElseThrow();
    }

    static List<Population.Family> families() {
        return List.of(Population.Family.values());
    }
}

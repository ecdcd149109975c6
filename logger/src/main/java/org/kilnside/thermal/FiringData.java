package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlannedCurve;
import org.kilnside.schedule.Schedule;

/** One course made ready for fitting: the drive, the free spans, the stretches of known power. */
final class FiringData {
    /** Points a fit holds the cooling against, at most: more would only repeat the model's own error. */
    private static final int MOST_POINTS = 60;

    private static final double CLOSEST_POINTS_S = 120;

    /** After the elements go off the sensor, the elements and the hot face settle: what it says then is not used. */
    private static final double SETTLING_S = 900;

    /** Weight of one point: the model's error along a cooling, not the sensor's noise, K. */
    private static final double POINT_SIGMA_K = 1;

    /** What lies further up counts less: by this many kelvin of cooling its weight has halved. */
    private static final double HALVES_IN_K = 100;

    /** As many independent things a course says of the kind of wall, at most. */
    static final int INDEPENDENT = 20;

    private static final int POWERED_STEPS = 5;
    private static final double POWERED_ABOVE_C = 150;
    private static final double OUTPUT_SIGMA = 0.03;

    /** A kiln this far under its set-point, or under its plan, is taken to be at full output, K. */
    private static final double SETPOINT_LAG_K = 8;

    private static final double PLAN_LAG_K = 15;

    /** A kiln that keeps up with its plan: an output as good as any guess. */
    private static final double SOME_OUTPUT = 0.7;

    /** A first reading this warm above ambient is a wall that has been heated before, K. */
    private static final double COLD_START_K = 25;

    /**
     * A span without power.
     *
     * @param beginsAt index into the drive
     * @param opened whether the leak is another one than before
     */
    record FreeSpan(int beginsAt, double[] timeS, double[] temperatureC, double[] sigmaK, boolean opened) {}

    /** A stretch of heating with its mean output; from and to are indices into the drive. */
    record Powered(int from, int to, double output, double sigma) {}

    final Course course;
    final Phases phases;
    final Prior.Ambient ambient;
    final boolean ambientGiven;
    final double[] driveS;
    final double[] driveC;
    final List<FreeSpan> free;
    final List<Powered> powered;
    final boolean startsWarm;
    final double nowS;
    final double nowC;
    private final Optional<Prior.Soak> soak;
    private final boolean opened;
    final boolean fullOutputGuessed;

    private FiringData(
            Course course,
            Phases phases,
            Prior.Ambient ambient,
            boolean ambientGiven,
            double[] driveS,
            double[] driveC,
            List<FreeSpan> free,
            List<Powered> powered,
            Optional<Prior.Soak> soak,
            boolean opened,
            boolean fullOutputGuessed,
            double nowC) {
        this.fullOutputGuessed = fullOutputGuessed;
        this.course = course;
        this.phases = phases;
        this.ambient = ambient;
        this.ambientGiven = ambientGiven;
        this.driveS = driveS;
        this.driveC = driveC;
        this.free = List.copyOf(free);
        this.powered = List.copyOf(powered);
        this.soak = soak;
        this.startsWarm = soak.isPresent();
        this.opened = opened;
        this.nowS = course.lastS();
        this.nowC = nowC;
    }

    static FiringData of(Course course, OptionalDouble givenAmbientC) {
        Phases phases = Phases.of(course);
        double first = course.temperatureC[0];
        Prior.Ambient ambient = ambient(first, givenAmbientC);
        boolean warm = first > ambient.celsius() + COLD_START_K;
        Optional<Prior.Soak> soak = Optional.empty();
        if (warm) {
            boolean falling =
                    course.line(course.timeS[0], course.timeS[0] + 1800).slopeKS() < 0;
            soak = Optional.of(falling ? new Prior.Soak(1.0, 0.35) : new Prior.Soak(0.6, 0.3));
        }
        double now = course.lastS();
        List<Phases.Span> spans = phases.free();
        double lastBend = phases.bends().isEmpty()
                ? Double.NaN
                : course.timeS[phases.bends().get(phases.bends().size() - 1).at()];
        double freeFrom = spans.isEmpty() || !phases.coolingNow() || phases.drivenNow()
                ? course.timeS[0]
                : course.timeS[spans.get(spans.size() - 1).from()];
        double nowC = course.smoothAt(now, freeFrom, now);

        List<Double> driveTimes = new ArrayList<>();
        List<Double> driveTemperatures = new ArrayList<>();
        List<FreeSpan> free = new ArrayList<>();
        double time = course.timeS[0];
        add(driveTimes, driveTemperatures, time, first);
        double total = 0;
        for (Phases.Span span : spans) {
            total += course.timeS[span.to()] - course.timeS[span.from()];
        }
        for (Phases.Span span : spans) {
            double begin = course.timeS[span.from()];
            double end = course.timeS[span.to()];
            time = driveTo(
                    course, driveTimes, driveTemperatures, time, begin, Math.max(course.timeS[0], begin - 600), begin);
            boolean last = span == spans.get(spans.size() - 1);
            if (last && !Double.isNaN(lastBend)) {
                int most = (int) Math.max(4, MOST_POINTS * (lastBend - begin) / total);
                addFree(course, free, driveTimes.size() - 1, begin, lastBend, most, false, begin, nowC);
                time = driveTo(course, driveTimes, driveTemperatures, time, lastBend, begin, lastBend);
                int rest = (int) Math.max(4, MOST_POINTS * (end - lastBend) / total);
                addFree(course, free, driveTimes.size() - 1, lastBend, end, rest, true, lastBend, nowC);
            } else {
                int most = (int) Math.max(4, MOST_POINTS * (end - begin) / total);
                addFree(course, free, driveTimes.size() - 1, begin, end, most, false, begin, nowC);
            }
            if (!last) {
                time = driveTo(course, driveTimes, driveTemperatures, time, end, begin, end);
            }
        }
        driveTo(course, driveTimes, driveTemperatures, time, now, freeFrom, now);
        driveTemperatures.set(driveTemperatures.size() - 1, nowC);
        double[] driveS = driveTimes.stream().mapToDouble(Double::doubleValue).toArray();
        double[] driveC =
                driveTemperatures.stream().mapToDouble(Double::doubleValue).toArray();
        return new FiringData(
                course,
                phases,
                ambient,
                givenAmbientC.isPresent(),
                driveS,
                driveC,
                free,
                powered(course.output, course, driveS, driveC, OUTPUT_SIGMA),
                soak,
                !Double.isNaN(lastBend),
                false,
                nowC);
    }

    /** A cold kiln is as warm as its room, or a little warmer. */
    private static Prior.Ambient ambient(double firstC, OptionalDouble given) {
        if (given.isPresent()) {
            return new Prior.Ambient(given.getAsDouble(), Prior.GIVEN_AMBIENT_K);
        }
        if (firstC < 32) {
            return new Prior.Ambient(firstC - 1.5, 4);
        }
        return new Prior.Ambient(15, 8);
    }

    private static void add(List<Double> times, List<Double> temperatures, double time, double celsius) {
        times.add(time);
        temperatures.add(celsius);
    }

    /** Adds the drive from one time up to another in equal steps, no longer than a driven step may be. */
    private static double driveTo(
            Course course,
            List<Double> times,
            List<Double> temperatures,
            double from,
            double to,
            double smoothFrom,
            double smoothTo) {
        if (to <= from) {
            return from;
        }
        int steps = (int) Math.max(1, Math.ceil((to - from) / WallSlab.DRIVEN_STEP_S));
        for (int i = 1; i <= steps; i++) {
            double at = from + (to - from) * i / steps;
            double celsius = i == steps
                    ? course.smoothAt(at, Math.max(smoothFrom, at - 300), smoothTo)
                    : course.smoothAt(at, at - 120, at + 120);
            add(times, temperatures, at, celsius);
        }
        return to;
    }

    private static void addFree(
            Course course,
            List<FreeSpan> free,
            int beginsAt,
            double begin,
            double end,
            int most,
            boolean opened,
            double notBefore,
            double nowC) {
        double from = Math.min(begin + SETTLING_S, begin + (end - begin) / 2);
        int count = (int) Math.min(most, Math.max(4, (end - from) / CLOSEST_POINTS_S));
        if (end - begin < 240) {
            return;
        }
        double[] time = new double[count];
        double[] temperature = new double[count];
        double[] sigma = new double[count];
        for (int i = 0; i < count; i++) {
            time[i] = from + (end - from) * (i + 1) / count;
            temperature[i] = course.smoothAt(time[i], notBefore, end);
            sigma[i] = POINT_SIGMA_K * (1 + Math.max(0, temperature[i] - nowC) / HALVES_IN_K);
        }
        free.add(new FreeSpan(beginsAt, time, temperature, sigma, opened));
    }

    private static List<Powered> powered(
            double[] outputs, Course course, double[] driveS, double[] driveC, double relative) {
        List<Powered> powered = new ArrayList<>();
        for (int i = 0; i + POWERED_STEPS < driveS.length; i += POWERED_STEPS) {
            int to = i + POWERED_STEPS;
            if (driveC[i] < POWERED_ABOVE_C || driveS[to] - driveS[i] < 600) {
                continue;
            }
            double sum = 0;
            int known = 0;
            int all = 0;
            for (int k = Math.max(0, course.at(driveS[i]) + 1); k <= course.at(driveS[to]); k++) {
                all++;
                if (!Double.isNaN(outputs[k])) {
                    sum += outputs[k];
                    known++;
                }
            }
            if (known * 2 > all && sum > 0 && known >= 3) {
                double output = sum / known;
                powered.add(new Powered(i, to, output, OUTPUT_SIGMA + relative * output));
            }
        }
        return powered;
    }

    /**
     * The same with a guess of the output where the controller gives none: full while the kiln lags its set-point or
     * its plan, else something in between over the last hour.
     */
    FiringData withGuessedPower(Optional<Schedule> plan) {
        double[] guess = new double[course.size];
        boolean full = false;
        double began = PlanAlignment.beganS(course);
        Optional<PlannedCurve> curve = plan.map(each -> each.curveFrom(Temperature.ofCelsius(course.temperatureC[0])));
        for (int i = 0; i < course.size; i++) {
            double wanted = course.setpointC[i];
            double enough = SETPOINT_LAG_K;
            if (Double.isNaN(wanted) && curve.isPresent()) {
                wanted = curve.get()
                        .temperatureC(Math.round((course.timeS[i] - began) * 1000))
                        .orElse(Double.NaN);
                enough = PLAN_LAG_K;
            }
            boolean lags = wanted - course.temperatureC[i] > enough;
            guess[i] = lags ? 1 : Double.NaN;
            full |= lags && course.timeS[i] > nowS - 1800;
        }
        double relative = OUTPUT_SIGMA;
        if (!full) {
            relative = 0.3;
            for (int i = 0; i < course.size; i++) {
                guess[i] = course.timeS[i] > nowS - 3600 ? SOME_OUTPUT : Double.NaN;
            }
        }
        return new FiringData(
                course,
                phases,
                ambient,
                ambientGiven,
                driveS,
                driveC,
                free,
                powered(guess, course, driveS, driveC, relative),
                soak,
                opened,
                full,
                nowC);
    }

    /** Sets a slab to the log's beginning. */
    void start(WallSlab slab, KilnParameters kiln, double soaked) {
        slab.use(kiln);
        if (startsWarm) {
            slab.startSoaked(driveC[0], soaked);
        } else {
            slab.startUniform(driveC[0]);
        }
    }

    Prior prior(WallKind kind) {
        return Prior.of(kind, ambient, !powered.isEmpty(), soak, opened);
    }

    int observations() {
        int count = powered.size();
        for (FreeSpan span : free) {
            count += span.timeS().length;
        }
        return count;
    }

    /** The last point of the drive that any residual needs: what comes after it, free spans have in themselves. */
    int lastUsed() {
        int last = 0;
        for (FreeSpan span : free) {
            last = Math.max(last, span.beginsAt());
        }
        for (Powered stretch : powered) {
            last = Math.max(last, stretch.to());
        }
        return last;
    }

    boolean opened() {
        return opened;
    }
}

package org.kilnside.thermal;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Supplier;
import org.kilnside.firing.Trace;

/**
 * Holds the power a heating kiln takes against what it needs. A thermocouple that slipped out, is shorted or saturated
 * reads low with the output up, and the kiln runs away under a harmless number; a ring, relay or phase that is lost takes
 * a third of the power away at once; water that leaves takes power the curve does not show.
 *
 * <p>For a firing that goes on: make one for each, and ask it about once a minute of kiln time with the readings so far.
 * It keeps what it learned of the kiln between two questions and fits it anew every twenty minutes; a question costs
 * about a millisecond, one with a fit some ten. Confined to one thread. It finds nothing where the controller does not
 * tell its output.
 */
public final class PowerGuard {
    /** Between two fits of a firing that goes on, s. */
    private static final double LEARN_EVERY_S = 1200;

    /** What is newer than this is not learned from: it may be the very thing to be found, s. */
    private static final double NEWEST_LEARNED_S = 1800;

    private static final int FEWEST_STRETCHES = 3;
    private static final int FEWEST_POINTS = 10;

    /** Only a kiln that takes most of what it can is running away. */
    private static final double TAKES_MUCH = 0.8;

    /** It takes more than this many times what it needs. */
    private static final double RUNAWAY_TIMES = 1.7;

    private static final double RUNAWAY_LOOK_S = 900;

    /** Raw clay gives off its bound water between these and takes up to as much again as the kiln needs, °C. */
    private static final double BOUND_WATER_FROM_C = 380;

    private static final double BOUND_WATER_TO_C = 690;
    private static final double RUNAWAY_TIMES_WITH_BOUND_WATER = 2.6;

    /** A kiln that needs no more than this part of what it takes is coasting: the power is gone, not the sensor. */
    private static final double COASTS = 0.25;

    /** Lower down water takes power as well, °C. */
    private static final double RUNAWAY_ABOVE_C = 180;

    /** One of three rings lost makes it 1.5; wanted is more than what a model may be off by. */
    private static final double STEP_TIMES = 1.27;

    private static final double STEP_LOOK_S = 1200;
    private static final double STEP_ABOVE_C = 200;
    private static final double STEP_TAKES = 0.3;

    /** An output told as on or off is a coarse mean: the step must stand out from that. */
    private static final double STEP_SIGMAS = 4.5;

    /** How far the ratio may wander in the time before a step and still be called level. */
    private static final double LEVEL = 0.14;

    /** A whole fit leaves this much unevenness where there was a step. */
    private static final double UNEVEN = 1.05;

    private static final double[] LEARNED_BEFORE_S = {1800, 5400, 10_800};

    private static final double WATER_FROM_C = 92;
    private static final double WATER_TO_C = 130;

    /** A load a quarter heavier than the last one takes less more than this. */
    private static final double WATER_TIMES = 1.3;

    /** Without an earlier firing the kiln is known by its first hour only, when its ware lags behind. */
    private static final double WATER_TIMES_UNKNOWN = 1.8;

    private static final double WATER_MORE = 0.035;
    private static final double WATER_LOOK_S = 900;

    private final KilnMemory memory;
    private final OptionalDouble ambientC;
    private Optional<FittedKiln> learned = Optional.empty();
    private double learnedAtS = Double.NEGATIVE_INFINITY;
    private Optional<FittedKiln> cool = Optional.empty();
    private boolean suspicious;
    private double missingTimes = 1;

    private PowerGuard(KilnMemory memory, OptionalDouble ambientC) {
        this.memory = memory;
        this.ambientC = ambientC;
    }

    /**
     * A guard for one firing.
     *
     * @param memory what earlier firings of the kiln taught; with them it also guards before this firing has taught
     *     anything
     * @param ambientC the room, where known
     */
    public static PowerGuard of(KilnMemory memory, OptionalDouble ambientC) {
        return new PowerGuard(memory, ambientC);
    }

    /** What was found. */
    public enum Kind {
        /**
         * The reading fell faster than this kiln can, elements off or on: the sensor moved or failed, or the lid was
         * opened. Expected: the lowest it can have got to, °C; found: the reading, °C.
         */
        FELL_TOO_FAST,
        /**
         * The kiln takes far more than it needs at this temperature: the sensor reads low. Expected and found: output,
         * 0 … 1.
         */
        SENSOR_READS_LOW,
        /**
         * From one moment on it takes more output for the same heat: a ring, relay or phase is lost, or all power is.
         * Expected and found: output, 0 … 1; their ratio is the part of the power that is left.
         */
        POWER_MISSING,
        /** At 92 to 130 °C it takes more than it needs: water is still leaving. Expected and found: output, 0 … 1. */
        WATER_LEAVING
    }

    /**
     * One thing found.
     *
     * @param sinceS when it began, s on the recording's clock
     * @param expected what the model says, in the kind's unit
     * @param found what the readings say, in the kind's unit
     */
    public record Finding(Kind kind, double sinceS, double expected, double found) {
        /** Whether cone, arrival and top-out must not be told any more. */
        public boolean distrustsSensor() {
            return kind == Kind.FELL_TOO_FAST || kind == Kind.SENSOR_READS_LOW;
        }
    }

    /**
     * What the readings so far say.
     *
     * @param curve the firing from its beginning; "now" is its last reading
     * @return the gravest finding; empty when the kiln takes what it needs, or that cannot be known
     */
    public Optional<Finding> check(Trace curve) {
        return curve.isEmpty() ? Optional.empty() : check(Course.of(curve));
    }

    private Optional<Finding> check(Course course) {
        if (course.size < FEWEST_POINTS || course.lastS() - course.timeS[0] < 2 * RUNAWAY_LOOK_S) {
            return Optional.empty();
        }
        FiringData data = FiringData.of(course, ambientC);
        if (data.phases.coolingNow() && !data.phases.drivenNow()) {
            return Optional.empty();
        }
        if (!suspicious && data.nowS >= learnedAtS + LEARN_EVERY_S) {
            learnedAtS = data.nowS;
            learned = learn(course.until(data.nowS - NEWEST_LEARNED_S), ambientC, memory);
        }
        Optional<FittedKiln> known = learned.or(memory::lastWithPower);
        Optional<Finding> found = Falls.fellTooFast(data, () -> known);
        if (found.isEmpty() && known.isPresent()) {
            HeatBalance balance = HeatBalance.of(data, known.get());
            found = runaway(data, balance, missingTimes);
            if (found.isEmpty() && learned.isPresent()) {
                found = step(data, balance);
                missingTimes = found.map(step -> step.found() / step.expected()).orElse(missingTimes);
            }
        }
        // What is wrong must not be learned for right.
        suspicious = found.isPresent();
        return found.isPresent() ? found : water(data);
    }

    /** The same for one moment, with nothing kept; what is usual is fitted only where something is to be held against it. */
    static Optional<Finding> once(FiringData data, KilnMemory memory) {
        Usual usual = new Usual(data, memory);
        Optional<Finding> found = Falls.fellTooFast(data, usual);
        return found.isPresent() || !takesMuchLately(data)
                ? found
                : usual.get().flatMap(known -> runaway(data, HeatBalance.of(data, known), 1));
    }

    private static boolean takesMuchLately(FiringData data) {
        Course course = data.course;
        for (int i = course.last(); i >= 0 && course.timeS[i] > data.nowS - 2 * RUNAWAY_LOOK_S; i--) {
            if (course.output[i] >= TAKES_MUCH) {
                return true;
            }
        }
        return false;
    }

    /** The kiln as it was before the newest hours, fitted when it is first asked for. */
    private static final class Usual implements Supplier<Optional<FittedKiln>> {
        private final FiringData data;
        private final KilnMemory memory;
        private Optional<Optional<FittedKiln>> fitted = Optional.empty();

        Usual(FiringData data, KilnMemory memory) {
            this.data = data;
            this.memory = memory;
        }

        @Override
        public Optional<FittedKiln> get() {
            if (fitted.isEmpty()) {
                OptionalDouble ambient =
                        data.ambientGiven ? OptionalDouble.of(data.ambient.celsius()) : OptionalDouble.empty();
                double until = Math.min(data.nowS - NEWEST_LEARNED_S, fullSinceS(data.course));
                fitted = Optional.of(
                        learn(data.course.until(until), ambient, memory).or(memory::lastWithPower));
            }
            return fitted.get();
        }
    }

    /**
     * Since when a kiln on its way up has had less power than before, for one moment, with nothing kept.
     *
     * @param fit of the whole course: when even that shows no unevenness, nothing else is fitted
     */
    static Optional<Finding> stepOnce(FiringData data, FittedKiln fit, KilnMemory memory) {
        HeatBalance whole = HeatBalance.of(data, fit);
        double latest = whole.ratio(data.nowS - STEP_LOOK_S, data.nowS);
        double least = latest;
        for (double since = data.nowS - 3600; since > data.nowS - 4 * 3600; since -= 600) {
            double before = whole.ratio(since - 2400, since);
            least = data.course.temperatureAt(since - 2400) > STEP_ABOVE_C && before < least ? before : least;
        }
        if (!(latest > UNEVEN * least)) {
            return Optional.empty();
        }
        OptionalDouble ambient = data.ambientGiven ? OptionalDouble.of(data.ambient.celsius()) : OptionalDouble.empty();
        for (double back : LEARNED_BEFORE_S) {
            Optional<FittedKiln> known = learn(data.course.until(data.nowS - back), ambient, memory);
            Optional<Finding> found = known.flatMap(before -> step(data, HeatBalance.of(data, before)));
            if (found.isPresent()) {
                return found;
            }
        }
        return Optional.empty();
    }

    /** Since when it has taken nearly all it can: what made it do so may have begun there. */
    private static double fullSinceS(Course course) {
        int i = course.last();
        while (i > 0 && !(course.output[i - 1] < TAKES_MUCH)) {
            i--;
        }
        return course.timeS[i] - 300;
    }

    private static Optional<FittedKiln> learn(Course before, OptionalDouble ambientC, KilnMemory memory) {
        if (before.size < FEWEST_POINTS) {
            return Optional.empty();
        }
        FiringData data = FiringData.of(before, ambientC);
        return data.powered.size() < FEWEST_STRETCHES
                ? Optional.empty()
                : Optional.of(memory.fit(data).get(0).fit());
    }

    private static Optional<Finding> runaway(FiringData data, HeatBalance balance, double usualTimes) {
        double from = data.nowS - RUNAWAY_LOOK_S;
        double taken = balance.taken(from, data.nowS);
        double needed = balance.needed(from, data.nowS);
        double times = usualTimes * (boundWater(data.nowC) ? RUNAWAY_TIMES_WITH_BOUND_WATER : RUNAWAY_TIMES);
        if (!(taken > TAKES_MUCH) || data.nowC < RUNAWAY_ABOVE_C || !(taken > times * Math.max(0.02, needed))) {
            return Optional.empty();
        }
        double since = from;
        while (since - 600 > data.course.timeS[0] && balance.ratio(since - 600, since) > times) {
            since -= 300;
        }
        boolean coasts = balance.needed(data.nowS - RUNAWAY_LOOK_S / 2, data.nowS) < COASTS * taken;
        return Optional.of(
                new Finding(coasts ? Kind.POWER_MISSING : Kind.SENSOR_READS_LOW, since, Math.max(0, needed), taken));
    }

    private static boolean boundWater(double celsius) {
        return celsius > BOUND_WATER_FROM_C && celsius < BOUND_WATER_TO_C;
    }

    /** A step, not a slope: level before, level after, and the second a quarter higher. */
    private static Optional<Finding> step(FiringData data, HeatBalance balance) {
        double now = data.nowS;
        boolean goesOn = balance.ratio(now - STEP_LOOK_S, now - STEP_LOOK_S / 2) > STEP_TIMES * 0.9
                && balance.ratio(now - STEP_LOOK_S / 2, now) > STEP_TIMES * 0.9;
        // The stack lags behind the sensor: what it still takes for its water counts as long as it is looked at.
        boolean water = boundWater(data.nowC) || boundWater(data.course.temperatureAt(now - STEP_LOOK_S));
        if (!goesOn || data.nowC < STEP_ABOVE_C || water) {
            return Optional.empty();
        }
        for (double since = now - STEP_LOOK_S; since > now - 4 * 3600; since -= 300) {
            double before = balance.ratio(since - 2400, since - 300);
            double nearBefore = balance.ratio(since - 1200, since - 300);
            double after = balance.ratio(since + 300, now);
            if (Math.abs(before - 1) < LEVEL
                    && Math.abs(nearBefore - before) < LEVEL
                    && after > STEP_TIMES * before
                    && balance.ratio(now - 600, now) > STEP_TIMES * 0.95 * before
                    && balance.taken(since + 300, now) > STEP_TAKES
                    && after - before > STEP_SIGMAS * balance.ratioError(since, now)) {
                double taken = balance.taken(since + 300, now);
                return Optional.of(new Finding(Kind.POWER_MISSING, since, taken * before / after, taken));
            }
        }
        return Optional.empty();
    }

    private Optional<Finding> water(FiringData data) {
        double from = data.nowS - WATER_LOOK_S;
        double beganC = data.course.temperatureAt(from);
        if (data.nowC < WATER_FROM_C || data.nowC > WATER_TO_C || beganC < WATER_FROM_C - 6) {
            cool = data.nowC < WATER_FROM_C ? Optional.empty() : cool;
            return Optional.empty();
        }
        Optional<FittedKiln> known = memory.lastWithPower();
        double times = known.isPresent() ? WATER_TIMES : WATER_TIMES_UNKNOWN;
        if (known.isEmpty()) {
            if (cool.isEmpty()) {
                cool = learnBelow(data.course);
            }
            known = cool;
        }
        if (known.isEmpty()) {
            return Optional.empty();
        }
        HeatBalance balance = HeatBalance.of(data, known.get());
        double taken = balance.taken(from, data.nowS);
        double needed = Math.max(0, balance.needed(from, data.nowS));
        return taken > times * needed && taken > needed + WATER_MORE
                ? Optional.of(new Finding(Kind.WATER_LEAVING, from, needed, taken))
                : Optional.empty();
    }

    /** What the kiln took on its way up to where water boils. */
    private Optional<FittedKiln> learnBelow(Course course) {
        int last = 0;
        while (last < course.last() && course.temperatureC[last + 1] < WATER_FROM_C - 8) {
            last++;
        }
        FiringData below =
                FiringData.of(course.until(course.timeS[last]), ambientC, List.of(), course.temperatureC[0] + 12);
        return below.powered.isEmpty()
                ? Optional.empty()
                : Optional.of(memory.fit(below).get(0).fit());
    }
}

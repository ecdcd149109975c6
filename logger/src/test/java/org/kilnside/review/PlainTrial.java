package org.kilnside.review;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Random;
import java.util.Set;
import org.kilnside.firing.GoodReadings;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.heatwork.ConeSeries;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.heatwork.PlanHeat;
import org.kilnside.heatwork.WitnessCone;
import org.kilnside.heatwork.WitnessPack;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.sensor.SensorUncertainty;

/** A firing of a {@link PlainKiln} with one thing done to it: the review is judged on it and was not tuned on it. */
final class PlainTrial {
    private static final ConeTable TABLE = ConeTable.of(ConeSeries.SELF_SUPPORTING);

    private final long seed;
    private final Set<Injected> injected;
    private final Random random;
    private double topC;
    private double holdMinutes;
    private double lastRate;
    private boolean slowCool;
    private double offsetC;
    private Schedule plan;
    private Schedule program;

    private PlainTrial(long seed, Set<Injected> injected) {
        this.seed = seed;
        this.injected = injected;
        this.random = new Random(seed * 1_000_003L + 17);
    }

    /** A firing on which what was done told. */
    static ReviewTrial of(long seed, Set<Injected> injected) {
        for (long attempt = 0; attempt < 80; attempt++) {
            ReviewTrial trial = new PlainTrial(seed + 100_003 * attempt, injected).make();
            if (trial.tells()) {
                return trial;
            }
        }
        throw new IllegalStateException("no kiln in which it tells: " + injected);
    }

    private boolean has(Injected what) {
        return injected.contains(what);
    }

    private double uniform(double from, double to) {
        return from + (to - from) * random.nextDouble();
    }

    private ReviewTrial make() {
        boolean glaze = random.nextInt(3) > 0 || has(Injected.WEAK_ELEMENTS) || has(Injected.AMPLIFIER_UNCORRECTED);
        topC = Math.round(glaze ? uniform(1205, 1240) : uniform(1000, 1150));
        lastRate = has(Injected.RAMP_SLOW) ? uniform(80, 120) : uniform(50, 90);
        holdMinutes = has(Injected.HOLD_SHORT) ? uniform(20, 40) : uniform(8, 25);
        slowCool = has(Injected.COOLING_FAST);
        double programTop = topC
                + (has(Injected.TOP_LOW) ? -uniform(10, 25) : 0)
                + (has(Injected.OVER_FIRED_TOP) ? uniform(10, 25) : 0);
        double programHold = has(Injected.HOLD_SHORT)
                ? holdMinutes * uniform(0, 0.3)
                : holdMinutes + (has(Injected.OVER_FIRED_HOLD) ? uniform(20, 45) : 0);
        double programRate = lastRate
                * (has(Injected.RAMP_FAST) ? uniform(2, 2.6) : has(Injected.RAMP_SLOW) ? uniform(0.35, 0.5) : 1);
        plan = schedule(topC, lastRate, holdMinutes, slowCool);
        program = schedule(programTop, programRate, programHold, false);
        offsetC = has(Injected.SENSOR_READS_HIGH)
                ? uniform(10, 30)
                : has(Injected.SENSOR_READS_LOW) ? -uniform(10, 30) : random.nextGaussian();
        double power = enough() * (has(Injected.MAINS_SAG) ? uniform(1.02, 1.15) : uniform(1.1, 1.5));
        if (has(Injected.WEAK_ELEMENTS)) {
            power = weakened(power);
        }
        return fire(power);
    }

    private Schedule schedule(double top, double rate, double hold, boolean heldBack) {
        List<Segment> segments = new ArrayList<>();
        segments.add(ramp(100, 600, 0));
        segments.add(ramp(130, topC - 100, 0));
        segments.add(ramp(rate, top, hold));
        if (heldBack) {
            segments.add(ramp(60, topC - 330, 0));
        }
        segments.add(new Segment.FreeCooling());
        return new Schedule("Trial", segments);
    }

    private static Segment ramp(double rate, double to, double hold) {
        return new Segment.Ramp(
                HeatingRate.ofKelvinPerHour(rate),
                Temperature.ofCelsius(to),
                Duration.ofSeconds(Math.round(hold * 60)));
    }

    private PlainKiln kiln(double power) {
        PlainKiln kiln = new PlainKiln(new Random(seed));
        kiln.powerW = power;
        return kiln;
    }

    /** W this kiln takes at most to follow its plan. */
    private double enough() {
        PlainKiln kiln = kiln(60_000);
        double most = 0;
        for (int i = 0; i < 60 * 720 && !kiln.isOver(); i++) {
            kiln.step(plan, kiln.trueC(), 1);
            if (kiln.trueC() > 300) {
                most = Math.max(most, smooth(kiln.output() * 60_000));
            }
        }
        return most;
    }

    private double smoothed;

    private double smooth(double value) {
        smoothed += (value - smoothed) / 60;
        return smoothed;
    }

    private double weakened(double power) {
        double goal = Math.min(topC - 8, uniform(1190, 1215));
        double low = 0.4;
        double high = 1;
        for (int i = 0; i < 8; i++) {
            double share = (low + high) / 2;
            PlainKiln kiln = kiln(power * share);
            double highest = 0;
            for (int k = 0; k < 26 * 720 && !kiln.isOver(); k++) {
                kiln.step(plan, kiln.trueC(), 1);
                highest = Math.max(highest, kiln.trueC());
            }
            if (highest > goal) {
                high = share;
            } else {
                low = share;
            }
        }
        return power * low;
    }

    private ReviewTrial fire(double power) {
        PlainKiln kiln = kiln(power);
        boolean withOutput = random.nextInt(4) > 0;
        boolean withSetpoint = random.nextInt(4) > 0;
        int every = new int[] {1, 2, 6, 12}[random.nextInt(4)];
        double noiseC = uniform(0.1, 1);
        boolean quarters = has(Injected.AMPLIFIER_UNCORRECTED) || random.nextInt(3) == 0;
        double lostAtC = has(Injected.ONE_PHASE_LOST) ? uniform(450, 550) : 1e9;
        double cutAtC = has(Injected.POWER_CUT) ? topC - uniform(10, 60) : 1e9;
        double endAtC = has(Injected.ENDED_EARLY) ? topC - uniform(10, 50) : 1e9;
        double gapAtC = has(Injected.SENSOR_FAULT) ? topC - uniform(10, 50) : 1e9;
        double gapS = uniform(3000, 5400);
        double toTop = plan.curveFrom(Temperature.ofCelsius(15)).timeToTop().toSeconds();
        double sagFromS = toTop - uniform(3000, 7000);
        double sagForS = uniform(6000, 12000);
        double sag = has(Injected.MAINS_SAG) ? 1 - Math.pow(1 - uniform(0.07, 0.13), 2) : 0;
        double gaveUpS = uniform(1.5, 3) * 3600;
        Trace.Builder log = new Trace.Builder();
        Trace.Builder truth = new Trace.Builder();
        double highest = 0;
        double highestS = 0;
        boolean lost = false;
        boolean cut = false;
        double gapFromS = -1;
        for (int i = 0; i < 60 * 720; i++) {
            double at = i * PlainKiln.STEP_S;
            double tip = kiln.trueC();
            double shown = has(Injected.AMPLIFIER_UNCORRECTED) ? raw(tip) : tip + offsetC;
            shown += noiseC * random.nextGaussian();
            shown = quarters ? Math.rint(shown * 4) / 4 : shown;
            if (tip > highest + 0.5) {
                highest = tip;
                highestS = at;
            }
            lost |= tip > lostAtC;
            cut |= shown > cutAtC;
            if (shown > endAtC || at > highestS + gaveUpS && tip > 900) {
                kiln.end();
            }
            gapFromS = gapFromS < 0 && shown > gapAtC ? at : gapFromS;
            double share = cut ? 0 : (lost ? 0.667 : 1) * (at > sagFromS && at < sagFromS + sagForS ? 1 - sag : 1);
            boolean steering = kiln.isSteering(program);
            kiln.step(program, shown, share);
            long ms = Math.round(at * 1000);
            truth.add(ms, tip);
            if (i % every == 0 && !(gapFromS >= 0 && at < gapFromS + gapS)) {
                log.add(
                        ms,
                        shown,
                        withOutput ? OptionalDouble.of(kiln.output()) : OptionalDouble.empty(),
                        withSetpoint && steering ? OptionalDouble.of(kiln.setpointC()) : OptionalDouble.empty());
            }
            if (highest > 900 && tip < 750) {
                break;
            }
        }
        Trace curve = truth.view();
        return new ReviewTrial(
                injected,
                ReviewQuestion.about(GoodReadings.of(log.view()), plan).withWitness(packs(curve)),
                shortOf(curve),
                "plain/" + seed + " " + injected + " top " + topC + " rate " + Math.round(lastRate) + " hold "
                        + Math.round(holdMinutes) + " waits " + kiln.waits() + " output " + withOutput + " setpoint "
                        + withSetpoint + " offset " + Math.round(offsetC));
    }

    /** What an amplifier of one sensitivity shows: the program's own correction (checked against ITS-90 elsewhere) undone. */
    private static double raw(double celsius) {
        return celsius - AmplifierError.atShownK(celsius - 0.9 * AmplifierError.atShownK(celsius));
    }

    private List<WitnessPack> packs(Trace truth) {
        boolean needed = has(Injected.SENSOR_READS_HIGH)
                || has(Injected.SENSOR_READS_LOW)
                || has(Injected.AMPLIFIER_UNCORRECTED)
                || has(Injected.UNEVEN);
        if (!needed && random.nextInt(3) > 0) {
            return List.of();
        }
        List<WitnessPack> packs = new ArrayList<>();
        double apart = has(Injected.UNEVEN) ? uniform(10, 16) : uniform(0, 2);
        int middle = (int) Math.round(steps(truth));
        String[] shelves = {"top", "middle", "bottom"};
        for (int i = 0; i < 3; i++) {
            List<WitnessCone> seen = new ArrayList<>();
            Trace.Builder there = new Trace.Builder();
            for (int k = 0; k < truth.size(); k += 6) {
                there.add(truth.elapsedMs(k), truth.temperatureC(k) + apart * (1 - i));
            }
            for (int cone = middle - 1; cone <= middle + 1; cone++) {
                Cone each = Cone.whole().get(Math.max(0, Math.min(Cone.whole().size() - 1, cone)));
                double work = HeatWork.ofLine(TABLE, there.view()).share(each).orElse(0);
                double angle = Math.max(0, Math.min(90, 90 * work + 3 * random.nextGaussian()));
                seen.add(new WitnessCone(each, OptionalDouble.of(Math.rint(angle / 5) * 5), OptionalLong.empty()));
            }
            packs.add(new WitnessPack(shelves[i], seen));
        }
        return packs;
    }

    private static double steps(Trace curve) {
        ConeReached reached = HeatWork.ofLine(TABLE, curve).reached(SensorUncertainty.UNKNOWN);
        return reached.cone().steps().orElse(0) + reached.coolingAdded().orElse(0);
    }

    private double shortOf(Trace truth) {
        double highest = 0;
        for (int i = 0; i < truth.size(); i++) {
            highest = Math.max(highest, truth.temperatureC(i));
        }
        int last = truth.size() - 1;
        while (!slowCool && truth.temperatureC(last) < highest - 4) {
            last--;
        }
        Trace.Builder line = new Trace.Builder();
        for (int i = 0; i <= last; i++) {
            line.add(truth.elapsedMs(i), truth.temperatureC(i));
        }
        double from = truth.temperatureC(last);
        for (double after = 60; after < 3 * 3600; after += 60) {
            line.add(
                    truth.elapsedMs(last) + Math.round(after * 1000),
                    20 + (from - 20) * Math.exp(-after / PlanHeat.USUAL_COOLING.toSeconds()));
        }
        ConeReached planned = PlanHeat.of(
                        TABLE,
                        plan.curveFrom(Temperature.ofCelsius(15)),
                        PlanHeat.USUAL_COOLING,
                        SensorUncertainty.UNKNOWN)
                .whole();
        return planned.cone().steps().orElse(0) + planned.coolingAdded().orElse(0) - steps(line.view());
    }
}

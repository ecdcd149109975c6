package org.kilnside.review;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.Set;
import org.kilnside.firing.GoodReadings;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;

/** A firing of a {@link PlainKiln} with one thing done to it: the review is judged on it and was not tuned on it. */
final class PlainTrial {
    private final long seed;
    private final Set<Injected> injected;
    private final Random random;
    private TrialPlan trial;
    private double offsetC;

    private PlainTrial(long seed, Set<Injected> injected) {
        this.seed = seed;
        this.injected = injected;
        this.random = new Random(seed * 1_000_003L + 17);
    }

    /** A firing on which what was done told. */
    static ReviewTrial of(long seed, Set<Injected> injected) {
        for (long attempt = 0; attempt < 80; attempt++) {
            Optional<ReviewTrial> made = new PlainTrial(seed + 100_003 * attempt, injected).make();
            if (made.isPresent() && made.get().tells()) {
                return made.get();
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

    private Optional<ReviewTrial> make() {
        trial = TrialPlan.of(random, injected);
        offsetC = trial.sensorOffC() == 0 ? random.nextGaussian() : trial.sensorOffC();
        double power = enough() * (has(Injected.MAINS_SAG) ? uniform(1.02, 1.15) : uniform(1.1, 1.5));
        if (has(Injected.WEAK_ELEMENTS)) {
            power = weakened(power);
        }
        return fire(power);
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
            kiln.step(trial.plan(), kiln.trueC(), 1);
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
        double goal = Math.min(trial.topC() - 8, uniform(1190, 1215));
        double low = 0.4;
        double high = 1;
        for (int i = 0; i < 8; i++) {
            double share = (low + high) / 2;
            PlainKiln kiln = kiln(power * share);
            double highest = 0;
            for (int k = 0; k < 26 * 720 && !kiln.isOver(); k++) {
                kiln.step(trial.plan(), kiln.trueC(), 1);
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

    private Optional<ReviewTrial> fire(double power) {
        PlainKiln kiln = kiln(power);
        boolean withOutput = random.nextInt(4) > 0;
        boolean withSetpoint = random.nextInt(4) > 0;
        int every = new int[] {1, 2, 6, 12}[random.nextInt(4)];
        double noiseC = uniform(0.1, 1);
        boolean quarters = has(Injected.AMPLIFIER_UNCORRECTED) || random.nextInt(3) == 0;
        double lostAtC = has(Injected.ONE_PHASE_LOST) ? uniform(450, 550) : 1e9;
        double cutAtC = has(Injected.POWER_CUT) ? trial.topC() - uniform(10, 60) : 1e9;
        double endAtC = has(Injected.ENDED_EARLY) ? trial.topC() - uniform(10, 50) : 1e9;
        double gapAtC = has(Injected.SENSOR_FAULT) ? trial.topC() - uniform(10, 50) : 1e9;
        double gapS = uniform(3000, 5400);
        double toTop =
                trial.plan().curveFrom(Temperature.ofCelsius(15)).timeToTop().toSeconds();
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
            if (shown > endAtC || at > highestS + gaveUpS && tip > 900 && tip > highest - 10) {
                kiln.end();
            }
            gapFromS = gapFromS < 0 && shown > gapAtC ? at : gapFromS;
            double share = cut ? 0 : (lost ? 0.667 : 1) * (at > sagFromS && at < sagFromS + sagForS ? 1 - sag : 1);
            boolean steering = kiln.isSteering(trial.program());
            kiln.step(trial.program(), shown, share);
            long ms = Math.round(at * 1000);
            truth.add(ms, tip);
            if (i % every == 0 && !(gapFromS >= 0 && at < gapFromS + gapS)) {
                log.add(
                        ms,
                        shown,
                        withOutput ? OptionalDouble.of(kiln.output()) : OptionalDouble.empty(),
                        withSetpoint && steering ? OptionalDouble.of(kiln.setpointC()) : OptionalDouble.empty());
            }
            if (highest > 900 && tip < 650) {
                break;
            }
        }
        Trace curve = truth.view();
        List<Trace> earlier = trial.tellsEarlier(injected, random) ? earlier(power, withOutput, every) : List.of();
        if (!trial.coolingTells(curve, injected, earlier)) {
            return Optional.empty();
        }
        return Optional.of(new ReviewTrial(
                injected,
                ReviewQuestion.about(GoodReadings.of(log.view()), trial.plan())
                        .withWitness(TrialTruth.packs(curve, injected, random))
                        .withEarlier(earlier),
                TrialTruth.shortOf(trial, curve),
                "plain/" + seed + " " + injected + " top " + trial.topC() + " rate " + Math.round(trial.lastRate())
                        + " hold "
                        + Math.round(trial.holdMinutes()) + " waits " + kiln.waits() + " output " + withOutput
                        + " setpoint "
                        + withSetpoint + " offset " + Math.round(offsetC)));
    }

    /** What an amplifier of one sensitivity shows: the program's own correction (checked against ITS-90 elsewhere) undone. */
    private static double raw(double celsius) {
        return celsius - AmplifierError.atShownK(celsius - 0.9 * AmplifierError.atShownK(celsius));
    }

    /** The kiln's three firings before, with elements less worn the longer ago. */
    private List<Trace> earlier(double power, boolean withOutput, int every) {
        List<Trace> logs = new ArrayList<>();
        for (int ago = 3; ago >= 1; ago--) {
            PlainKiln kiln = kiln(power * (has(Injected.WEAK_ELEMENTS) ? Math.pow(1.05, ago) : 1));
            Trace.Builder log = new Trace.Builder();
            double highest = 0;
            for (int i = 0; i < 50 * 720; i++) {
                double shown = kiln.trueC() + offsetC + 0.3 * random.nextGaussian();
                highest = Math.max(highest, kiln.trueC());
                kiln.step(trial.plan(), shown, 1);
                if (i % every == 0) {
                    log.add(
                            Math.round(i * PlainKiln.STEP_S * 1000),
                            shown,
                            withOutput ? OptionalDouble.of(kiln.output()) : OptionalDouble.empty(),
                            OptionalDouble.empty());
                }
                if (highest > 900 && kiln.trueC() < 650) {
                    break;
                }
            }
            logs.add(log.view());
        }
        return logs;
    }
}

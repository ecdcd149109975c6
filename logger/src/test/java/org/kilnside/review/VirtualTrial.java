package org.kilnside.review;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.Set;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.GoodReadings;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.sensor.Thermometer;
import org.kilnside.virtualkiln.ControllerSpec;
import org.kilnside.virtualkiln.Disturbance;
import org.kilnside.virtualkiln.Happenings;
import org.kilnside.virtualkiln.Mains;
import org.kilnside.virtualkiln.Population;
import org.kilnside.virtualkiln.SensorSpec;
import org.kilnside.virtualkiln.Specimen;
import org.kilnside.virtualkiln.VirtualFiring;

/** A firing of a kiln of the program's virtual ones with something done to it. */
final class VirtualTrial {
    private final Random random;
    private final Set<Injected> injected;
    private final Specimen specimen;
    private final int number;
    private final StringBuilder label = new StringBuilder();
    private TrialPlan trial;
    private double resistance;
    private double stepS;

    private VirtualTrial(Population.Family family, long seed, int number, Set<Injected> injected) {
        this.random = new Random(seed * 7919 + number * 31L + family.ordinal());
        this.injected = injected;
        this.number = number;
        this.specimen = new Population(family, seed).specimen(number);
        this.resistance = 1;
        label.append(family)
                .append('/')
                .append(seed)
                .append('/')
                .append(number)
                .append(' ')
                .append(injected);
    }

    /** A firing on which what was done told: one without an effect on the ware is drawn again. */
    static ReviewTrial of(Population.Family family, long seed, int number, Set<Injected> injected) {
        for (int attempt = 0; attempt <= 80; attempt++) {
            VirtualTrial maker = new VirtualTrial(family, seed, number + 10_007 * attempt, injected);
            maker.choose();
            if (maker.isSound()) {
                ReviewTrial made = maker.make();
                if (made.tells() && !Double.isNaN(maker.stepS)) {
                    return made;
                }
            }
        }
        throw new IllegalStateException("no kiln in which it tells: " + family + " " + injected);
    }

    private boolean has(Injected what) {
        return injected.contains(what);
    }

    private double uniform(double from, double to) {
        return from + (to - from) * random.nextDouble();
    }

    private void choose() {
        stepS = new double[] {5, 10, 15, 20, 30}[random.nextInt(5)];
        trial = TrialPlan.of(random, injected);
    }

    /** Whether this kiln, left alone, does as it is told. */
    private boolean isSound() {
        VirtualFiring firing =
                specimen.glazeFiring(trial.plan(), number % 7).interval(60).start();
        Trace.Builder truth = new Trace.Builder();
        double highest = 0;
        for (int i = 0; i < 40 * 60; i++) {
            VirtualFiring.Moment now = firing.next();
            double tip = now.truth().tipC();
            highest = Math.max(highest, tip);
            truth.add(now.elapsedMs(), tip);
            if (highest > 700 && tip < 650) {
                break;
            }
        }
        return Math.abs(TrialTruth.shortOf(trial, truth.view())) < 0.25;
    }

    private ReviewTrial make() {
        List<Disturbance> disturbances = disturbances();
        if (has(Injected.WEAK_ELEMENTS)) {
            weaken();
        }
        return run(disturbances, stepS);
    }

    private List<Disturbance> disturbances() {
        List<Disturbance> all = new ArrayList<>();
        if (has(Injected.ONE_PHASE_LOST)) {
            all.add(Disturbance.rising(uniform(350, 700), Happenings.ringLost(random.nextInt(3))));
        }
        if (has(Injected.POWER_CUT)) {
            double at = trial.topC() - sensorless(uniform(5, 90));
            boolean both = random.nextBoolean();
            all.add(Disturbance.rising(at, both ? Happenings.powerCut() : Happenings.kilnPowerCut()));
            if (both) {
                all.add(Disturbance.falling(uniform(500, 900), Happenings.powerBack()));
            }
        }
        if (has(Injected.ENDED_EARLY)) {
            all.add(Disturbance.rising(trial.topC() - sensorless(uniform(8, 50)), Happenings.programEnds()));
        }
        return all;
    }

    /** Triggers look at the true temperature, the plan at the shown one. */
    private double sensorless(double below) {
        return below + trial.sensorOffC();
    }

    private VirtualFiring.Builder builder(double interval) {
        SensorSpec sensor = specimen.sensor();
        if (has(Injected.AMPLIFIER_UNCORRECTED)) {
            sensor = sensor.with(new Probe(ThermocoupleType.K, Amplifier.MAX31855));
        }
        sensor = sensor.withError(trial.sensorOffC() + (trial.sensorOffC() == 0 ? 0.7 * random.nextGaussian() : 0), 0);
        ControllerSpec controller = specimen.controller();
        if (has(Injected.AMPLIFIER_UNCORRECTED)) {
            controller = controller.correcting(false);
        }
        VirtualFiring.Builder builder = specimen.glazeFiring(trial.program(), number % 7)
                .interval(interval)
                .sensors(sensor)
                .controller(controller);
        return builder;
    }

    /** Elements worn until the kiln stalls at 1190 to 1215 °C. */
    private void weaken() {
        double goal = Math.min(trial.topC() - 6, uniform(1188, 1214));
        double low = 1;
        double high = 2.4;
        for (int i = 0; i < 7; i++) {
            resistance = (low + high) / 2;
            double stalls = stallsAt(resistance);
            if (stalls > goal) {
                low = resistance;
            } else {
                high = resistance;
            }
        }
    }

    private double stallsAt(double times) {
        VirtualFiring firing = specimen.glazeFiring(trial.program(), number % 7)
                .interval(60)
                .elementResistance(times)
                .start();
        double highest = 0;
        for (int i = 0; i < 30 * 60; i++) {
            double tip = firing.next().truth().tipC();
            if (tip < highest - 30) {
                break;
            }
            highest = Math.max(highest, tip);
        }
        return highest;
    }

    private ReviewTrial run(List<Disturbance> disturbances, double interval) {
        VirtualFiring.Builder builder = builder(interval);
        if (has(Injected.WEAK_ELEMENTS)) {
            builder.elementResistance(resistance);
        }
        if (has(Injected.MAINS_SAG)) {
            double toTop = trial.plan()
                    .curveFrom(Temperature.ofCelsius(15))
                    .timeToTop()
                    .toSeconds();
            builder.mains(Mains.sagging(uniform(0.06, 0.13), toTop - uniform(3600, 9000), uniform(7200, 14400)));
        }
        VirtualFiring firing = builder.disturbances(disturbances).start();
        Thermometer thermometer = Thermometer.of(firing.probes().get(0));
        Trace.Builder log = new Trace.Builder();
        Trace.Builder truth = new Trace.Builder();
        double highest = 0;
        double gaveUpS = uniform(1.5, 4) * 3600;
        double highestS = 0;
        double gapFromC = has(Injected.SENSOR_FAULT) ? trial.topC() - uniform(8, 60) : 1e9;
        double gapUntil = -1;
        double gapS = uniform(2400, 6000);
        Random noise = new Random(number);
        boolean ended = false;
        for (int i = 0; i < 60 * 3600 / interval; i++) {
            VirtualFiring.Moment now = firing.next();
            double at = now.elapsedMs() / 1000.0;
            double tip = now.truth().tipC();
            if (tip > highest + 0.5) {
                highest = Math.max(highest, tip);
                highestS = at;
            }
            // A person looks after a while whether it got stuck.
            if (!ended && at > highestS + gaveUpS && tip > highest - 10 && tip > 900) {
                firing.controller().end();
                ended = true;
            }
            truth.add(now.elapsedMs(), tip);
            if (tip > gapFromC && gapUntil < 0) {
                gapUntil = at + gapS;
            }
            boolean hidden = gapUntil > 0 && at < gapUntil;
            if (now.controllerOn() && !hidden) {
                Optional<Temperature> read = has(Injected.AMPLIFIER_UNCORRECTED)
                        ? thermometer.shown(now.signals().get(0))
                        : thermometer.temperature(now.signals().get(0));
                ControllerReport report = now.controller();
                read.ifPresent(celsius -> log.add(
                        now.elapsedMs(),
                        celsius.celsius(),
                        report.output()
                                .map(Share::fraction)
                                .map(OptionalDouble::of)
                                .orElse(OptionalDouble.empty()),
                        report.setpoint()
                                .map(Temperature::celsius)
                                .map(OptionalDouble::of)
                                .orElse(OptionalDouble.empty())));
            }
            if (highest > 700 && tip < 650) {
                break;
            }
        }
        GoodReadings good = GoodReadings.of(log.view());
        List<Trace> earlier = trial.tellsEarlier(injected, noise) ? earlier() : List.of();
        Trace true_ = truth.view();
        if (!trial.coolingTells(true_, injected, earlier)) {
            stepS = Double.NaN;
        }
        return new ReviewTrial(
                injected,
                ReviewQuestion.about(good, trial.plan())
                        .withWitness(TrialTruth.packs(true_, injected, noise))
                        .withEarlier(earlier),
                TrialTruth.shortOf(trial, true_),
                label.append(String.format(
                                " top %.0f hold %.0f rate %.0f R %.2f off %.0f step %.0f peak %.0f waits %s %s",
                                trial.topC(),
                                trial.holdMinutes(),
                                trial.lastRate(),
                                resistance,
                                trial.sensorOffC(),
                                stepS,
                                highest,
                                specimen.controller().waits(),
                                specimen.controller().reports()))
                        .toString());
    }

    /** The kiln's three firings before, as its controller gave them: other loads, elements less worn the longer ago. */
    private List<Trace> earlier() {
        List<Trace> logs = new ArrayList<>();
        for (int ago = 3; ago >= 1; ago--) {
            VirtualFiring firing = specimen.glazeFiring(trial.plan(), (number + ago) % 7)
                    .interval(Math.max(10, Double.isNaN(stepS) ? 10 : stepS))
                    .sensors(specimen.sensor())
                    .elementResistance(Math.max(1, resistance / Math.pow(1.05, ago)))
                    .start();
            Thermometer thermometer = Thermometer.of(firing.probes().get(0));
            Trace.Builder log = new Trace.Builder();
            double highest = 0;
            for (int i = 0; i < 50 * 360; i++) {
                VirtualFiring.Moment now = firing.next();
                double tip = now.truth().tipC();
                highest = Math.max(highest, tip);
                if (now.controllerOn()) {
                    thermometer
                            .temperature(now.signals().get(0))
                            .ifPresent(celsius -> log.add(now.elapsedMs(), celsius.celsius(), now.controller()));
                }
                if (highest > 700 && tip < 650) {
                    break;
                }
            }
            logs.add(log.view());
        }
        return logs;
    }
}

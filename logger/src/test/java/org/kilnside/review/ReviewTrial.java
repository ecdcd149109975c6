package org.kilnside.review;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Random;
import java.util.Set;
import org.kilnside.firing.ControllerReport;
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
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.SensorUncertainty;
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

/**
 * One simulated firing with what was done to it: other physics than any model of the program, a controller of its own,
 * noise, and a sampling of its own.
 *
 * @param injected what was done; empty = nothing
 * @param question what the review is asked
 * @param shortOfPlan the truth: heat work of the true temperature at the sensor against the plan's, cooling of a usual
 *     kiln in both
 * @param label what one needs to look at it again
 */
record ReviewTrial(Set<Injected> injected, ReviewQuestion question, double shortOfPlan, String label) {
    private static final ConeTable TABLE = ConeTable.of(ConeSeries.SELF_SUPPORTING);

    /** A firing on which what was done told: one without an effect on the ware is drawn again. */
    static ReviewTrial of(Population.Family family, long seed, int number, Set<Injected> injected) {
        for (int attempt = 0; ; attempt++) {
            Maker maker = new Maker(family, seed, number + 10_007 * attempt, injected);
            maker.choose();
            if (maker.isSound()) {
                ReviewTrial trial = maker.make();
                if (trial.tells() && !Double.isNaN(maker.stepS)) {
                    return trial;
                }
            }
            if (attempt > 60) {
                throw new IllegalStateException("no kiln in which it tells: " + family + " " + injected);
            }
        }
    }

    boolean tells() {
        if (injected.isEmpty()) {
            // A kiln that by itself cannot follow its plan is not a clean one.
            return Math.abs(shortOfPlan) < 0.2;
        }
        boolean unseenInHeat = injected.contains(Injected.COOLING_FAST)
                || injected.contains(Injected.UNEVEN)
                || injected.contains(Injected.SENSOR_FAULT);
        return unseenInHeat ? Math.abs(shortOfPlan) < 0.25 || injected.size() > 1 : Math.abs(shortOfPlan) > 0.4;
    }

    /** Makes one. */
    private static final class Maker {
        private final Random random;
        private final Set<Injected> injected;
        private final Specimen specimen;
        private final int number;
        private final StringBuilder label = new StringBuilder();
        private double topC;
        private double holdMinutes;
        private double lastRate;
        private boolean slowCool;
        private Schedule plan;
        private Schedule program;
        private double resistance;
        private double sensorOffset;
        private double stepS;

        Maker(Population.Family family, long seed, int number, Set<Injected> injected) {
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

        private boolean has(Injected what) {
            return injected.contains(what);
        }

        private double uniform(double from, double to) {
            return from + (to - from) * random.nextDouble();
        }

        private double programTop;
        private double programHold;
        private double programRate;

        void choose() {
            stepS = new double[] {5, 10, 15, 20, 30}[random.nextInt(5)];
            boolean glaze = random.nextInt(4) > 0 || has(Injected.WEAK_ELEMENTS) || has(Injected.AMPLIFIER_UNCORRECTED);
            topC = glaze ? uniform(1205, 1235) : uniform(1000, 1160);
            lastRate = has(Injected.RAMP_FAST)
                    ? uniform(45, 65)
                    : has(Injected.RAMP_SLOW) ? uniform(80, 130) : uniform(50, 110);
            holdMinutes = random.nextInt(5) == 0
                            && !has(Injected.HOLD_SHORT)
                            && !has(Injected.ENDED_EARLY)
                            && !has(Injected.TOP_LOW)
                    ? 0
                    : Math.round(uniform(8, 25));
            if (has(Injected.HOLD_SHORT)) {
                holdMinutes = Math.round(uniform(15, 40));
            }
            slowCool = has(Injected.COOLING_FAST) || random.nextInt(4) == 0;
            programTop = topC;
            programHold = holdMinutes;
            programRate = lastRate;
            if (has(Injected.TOP_LOW)) {
                programTop -= uniform(10, 25);
            }
            if (has(Injected.OVER_FIRED_TOP)) {
                programTop += uniform(10, 25);
            }
            if (has(Injected.HOLD_SHORT)) {
                programHold = Math.round(holdMinutes * uniform(0, 0.35));
            }
            if (has(Injected.OVER_FIRED_HOLD)) {
                programHold = holdMinutes + Math.round(uniform(15, 45));
            }
            if (has(Injected.RAMP_FAST)) {
                programRate *= uniform(2, 3);
            }
            if (has(Injected.RAMP_SLOW)) {
                programRate *= uniform(0.35, 0.5);
            }
            plan = schedule(topC, lastRate, holdMinutes, slowCool);
            program = schedule(programTop, programRate, programHold, slowCool && !has(Injected.COOLING_FAST));
            if (has(Injected.SENSOR_READS_HIGH)) {
                sensorOffset = uniform(10, 30);
            }
            if (has(Injected.SENSOR_READS_LOW)) {
                sensorOffset = -uniform(10, 30);
            }
        }

        /** Whether this kiln, left alone, does as it is told. */
        boolean isSound() {
            VirtualFiring firing =
                    specimen.glazeFiring(plan, number % 7).interval(60).start();
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
            return Math.abs(truth(truth.view())) < 0.25;
        }

        ReviewTrial make() {
            List<Disturbance> disturbances = disturbances();
            if (has(Injected.WEAK_ELEMENTS)) {
                weaken();
            }
            return run(disturbances, stepS);
        }

        private Schedule schedule(double top, double rate, double hold, boolean heldBack) {
            List<Segment> segments = new ArrayList<>();
            segments.add(ramp(100, 120, 0));
            segments.add(ramp(150, topC - 110, 0));
            segments.add(ramp(rate, top, hold));
            if (heldBack) {
                segments.add(ramp(140, topC - 180, 30));
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

        private List<Disturbance> disturbances() {
            List<Disturbance> all = new ArrayList<>();
            if (has(Injected.ONE_PHASE_LOST)) {
                all.add(Disturbance.rising(uniform(350, 700), Happenings.ringLost(random.nextInt(3))));
            }
            if (has(Injected.POWER_CUT)) {
                double at = topC - sensorless(uniform(5, 90));
                boolean both = random.nextBoolean();
                all.add(Disturbance.rising(at, both ? Happenings.powerCut() : Happenings.kilnPowerCut()));
                if (both) {
                    all.add(Disturbance.falling(uniform(500, 900), Happenings.powerBack()));
                }
            }
            if (has(Injected.ENDED_EARLY)) {
                all.add(Disturbance.rising(topC - sensorless(uniform(8, 50)), Happenings.programEnds()));
            }
            return all;
        }

        /** Triggers look at the true temperature, the plan at the shown one. */
        private double sensorless(double below) {
            return below + sensorOffset;
        }

        private VirtualFiring.Builder builder(double interval) {
            SensorSpec sensor = specimen.sensor();
            if (has(Injected.AMPLIFIER_UNCORRECTED)) {
                sensor = sensor.with(new Probe(ThermocoupleType.K, Amplifier.MAX31855));
            }
            sensor = sensor.withError(sensorOffset + (sensorOffset == 0 ? 0.7 * random.nextGaussian() : 0), 0);
            ControllerSpec controller = specimen.controller();
            if (has(Injected.AMPLIFIER_UNCORRECTED)) {
                controller = controller.correcting(false);
            }
            VirtualFiring.Builder builder = specimen.glazeFiring(program, number % 7)
                    .interval(interval)
                    .sensors(sensor)
                    .controller(controller);
            return builder;
        }

        /** Elements worn until the kiln stalls at 1190 to 1215 °C. */
        private void weaken() {
            double goal = Math.min(topC - 6, uniform(1188, 1214));
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
            VirtualFiring firing = specimen.glazeFiring(program, number % 7)
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
                double toTop =
                        plan.curveFrom(Temperature.ofCelsius(15)).timeToTop().toSeconds();
                builder.mains(Mains.sagging(uniform(0.06, 0.13), toTop - uniform(3600, 9000), uniform(7200, 14400)));
            }
            VirtualFiring firing = builder.disturbances(disturbances).start();
            Thermometer thermometer = Thermometer.of(firing.probes().get(0));
            Trace.Builder log = new Trace.Builder();
            Trace.Builder truth = new Trace.Builder();
            double highest = 0;
            double gaveUpS = uniform(1.5, 4) * 3600;
            double highestS = 0;
            double gapFromC = has(Injected.SENSOR_FAULT) ? topC - uniform(8, 60) : 1e9;
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
            Trace true_ = truth.view();
            if (has(Injected.COOLING_FAST) && !cameDownFast(true_)) {
                stepS = Double.NaN;
            }
            return new ReviewTrial(
                    injected,
                    ReviewQuestion.about(good, plan).withWitness(packs(true_, noise)),
                    truth(true_),
                    label.append(String.format(
                                    " top %.0f hold %.0f rate %.0f R %.2f off %.0f step %.0f peak %.0f waits %s %s",
                                    topC,
                                    holdMinutes,
                                    lastRate,
                                    resistance,
                                    sensorOffset,
                                    stepS,
                                    highest,
                                    specimen.controller().waits(),
                                    specimen.controller().reports()))
                            .toString());
        }

        /** A big kiln may take as long by itself as the plan has it. */
        private boolean cameDownFast(Trace truth) {
            int from = truth.size() - 1;
            while (from > 0 && truth.temperatureC(from) < topC - 45) {
                from--;
            }
            int to = from;
            while (to < truth.size() - 1 && truth.temperatureC(to) > topC - 330) {
                to++;
            }
            double planned = 160 / 140.0 * 3600 + 1800 + 150 / 60.0 * 3600;
            return (truth.elapsedMs(to) - truth.elapsedMs(from)) / 1000.0 < 0.6 * planned;
        }

        private List<WitnessPack> packs(Trace truth, Random noise) {
            boolean needed = has(Injected.SENSOR_READS_HIGH)
                    || has(Injected.SENSOR_READS_LOW)
                    || has(Injected.AMPLIFIER_UNCORRECTED)
                    || has(Injected.UNEVEN);
            if (!needed && noise.nextInt(3) > 0) {
                return List.of();
            }
            int law = noise.nextInt(3);
            double apart = has(Injected.UNEVEN) ? 9 + 6 * noise.nextDouble() : 2 * noise.nextDouble();
            List<WitnessPack> packs = new ArrayList<>();
            String[] shelves = {"top", "middle", "bottom"};
            int count = has(Injected.UNEVEN) ? 3 : 1 + noise.nextInt(3);
            Cone aimed = Cone.whole().get((int) Math.round(truthSteps(truth)));
            for (int i = 0; i < count; i++) {
                double shift = apart * (1 - i);
                List<WitnessCone> seen = new ArrayList<>();
                int middle = Cone.whole().indexOf(aimed);
                for (int cone = middle - 1; cone <= middle + 1; cone++) {
                    Cone each =
                            Cone.whole().get(Math.max(0, Math.min(Cone.whole().size() - 1, cone)));
                    double work = HeatWork.ofLine(TABLE, shifted(truth, shift))
                            .share(each)
                            .orElse(0);
                    double share = law == 0 ? Math.max(0, 2 * work - 1) : law == 1 ? work : work * work;
                    double angle = Math.max(0, Math.min(100, 90 * share + 4 * noise.nextGaussian()));
                    seen.add(new WitnessCone(
                            each, OptionalDouble.of(5 * Math.round(Math.min(95, angle) / 5)), OptionalLong.empty()));
                }
                packs.add(new WitnessPack(shelves[i], seen));
            }
            return packs;
        }

        private static Trace shifted(Trace truth, double shift) {
            Trace.Builder line = new Trace.Builder();
            for (int i = 0; i < truth.size(); i += 4) {
                line.add(truth.elapsedMs(i), truth.temperatureC(i) + shift);
            }
            return line.view();
        }

        private static double truthSteps(Trace truth) {
            ConeReached reached = HeatWork.ofLine(TABLE, truth).reached(SensorUncertainty.UNKNOWN);
            return reached.cone().steps().orElse(0) + reached.coolingAdded().orElse(0);
        }

        /** Independent of the review: the true curve down to 25 °C below its top, then a usual cooling; the plan the same. */
        private double truth(Trace truth) {
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
            return planned.cone().steps().orElse(0) + planned.coolingAdded().orElse(0) - truthSteps(line.view());
        }
    }
}

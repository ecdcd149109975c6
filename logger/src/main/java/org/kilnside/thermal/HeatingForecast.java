package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast.Arrival;
import org.kilnside.thermal.Forecast.Below;
import org.kilnside.thermal.Forecast.Reaches;
import org.kilnside.thermal.Forecast.Remark;
import org.kilnside.thermal.Forecast.Stage;
import org.kilnside.thermal.Forecast.TopsOut;
import org.kilnside.thermal.Forecast.When;

/** Arrival, top-out and the cooling after it, of a kiln on its way up. */
final class HeatingForecast {
    /** A top-out is the highest within this, s. */
    private static final double TOPS_OUT_WITHIN_S = 12 * 3600;

    /**
     * Below this nobody says that a kiln is too weak, unless it has run full for half an hour: little has been asked of
     * the elements, and water that leaves takes a share of their power that looks like weakness, °C.
     */
    private static final double TOO_EARLY_C = 300;

    private static final double FULL_OUTPUT = 0.9;
    private static final double FULL_FOR_S = 1800;

    /** As {@link #FULL_OUTPUT}, where what is held against it is the curve of a kiln that gives all it has. */
    private static final double ALL_IT_HAS = 0.97;

    private static final double ALL_IT_HAS_FOR_S = 3600;

    /** The slowest part of a wall's warming, the load with it, has run off within so many of the wall's time constants. */
    private static final double SLOWEST_OF_TAU = 2;

    /** Below this raw ware still takes heat for its bound water: the curve may steepen again, °C. */
    private static final double ONLY_FLATTENS_ABOVE_C = 800;

    /** What a reading and the slope of an hour may be off by, K. */
    private static final double SLOPE_WITHIN_K = 4;

    /** A controller lets a kiln lag or lead its set-point by some kelvins, and creeps up to a top: so long a time, s. */
    private static final double STEERS_WITHIN_S = 360;

    /** A controller holds a top some kelvins under it. */
    private static final double AS_GOOD_AS_THERE_K = 3;

    /** So far above its plan's top no kiln overshoots, K. */
    private static final double NOT_ITS_PLAN_K = 15;

    /** From here on what a kiln does lately alone tells when it will be there, up to there all of its way up as much, °C. */
    private static final double LATELY_ALONE_FROM_C = 1000;

    private static final double EVENLY_BELOW_C = 700;
    private static final double MOST_EVENLY = 0.5;

    /** A kind of wall less likely than this is not asked. */
    private static final double LEAST_WEIGHT = 0.02;

    /** Where the answers of one possible kiln stand. */
    private static final int WHEN = 0;

    private static final int TOP = 1;
    private static final int TOP_WHEN_LATE = 2;
    private static final int BY_THE_CLOCK = 3;
    private static final int RISING = 4;

    private HeatingForecast() {}

    static Optional<Temperature> target(ForecastQuestion question) {
        if (question.target().isPresent()) {
            return question.target();
        }
        return question.plan().map(plan -> plan.top());
    }

    static Optional<Arrival> unknownArrival(ForecastQuestion question) {
        return target(question)
                .map(target -> new Arrival(target, Reaches.CANNOT_SAY_YET, Optional.empty(), Optional.empty()));
    }

    /** On the way down the log itself says whether the top was reached, where it shows the top. */
    static Optional<Arrival> arrivalAfterTop(ForecastQuestion question, FiringData data) {
        return target(question).map(target -> {
            Optional<When> arrived = arrived(data.course, target);
            Reaches reaches = arrived.isPresent() ? Reaches.YES : UnseenTop.reaches(data, target.celsius());
            return new Arrival(target, reaches, arrived, Optional.empty());
        });
    }

    /** When the log itself shows that it got there. */
    private static Optional<When> arrived(Course course, Temperature target) {
        for (int i = 0; i < course.size; i++) {
            if (course.temperatureC[i] >= target.celsius() - AS_GOOD_AS_THERE_K) {
                double at = course.timeS[i];
                return Optional.of(new When(at, at, at));
            }
        }
        return Optional.empty();
    }

    private static Remark.Kind howFarTold(FiringData guessed) {
        if (!guessed.outputUntold()) {
            return Remark.Kind.OUTPUT_NOT_SEEN_YET;
        }
        return guessed.guessedFullForS.isPresent() ? Remark.Kind.FULL_OUTPUT_GUESSED : Remark.Kind.OUTPUT_UNKNOWN;
    }

    static Forecast forecast(ForecastQuestion question, FiringData data, Stage stage, List<Remark> remarks) {
        Optional<Temperature> target = target(question);
        boolean outputKnown = !data.powered.isEmpty();
        FiringData guessed = outputKnown ? data : data.withGuessedPower(question.plan());
        boolean contradicted = remarks.stream().anyMatch(each -> each.kind().isOutputContradicted());
        if (!outputKnown && !(contradicted && guessed.guessedFullForS.isEmpty())) {
            remarks.add(Remark.of(howFarTold(guessed)));
        }
        if (target.isEmpty()) {
            remarks.add(0, Remark.of(Remark.Kind.NO_TARGET));
            return Forecaster.unknown(question, data.nowS, data.ambient.celsius(), stage, remarks);
        }
        Optional<PowerGuard.Finding> doubt = outputKnown ? PowerGuard.once(data, question.memory()) : Optional.empty();
        if (doubt.isPresent()) {
            remarks.add(0, Remark.of(doubt.get()));
            return Forecaster.unknown(question, data.nowS, data.ambient.celsius(), stage, remarks);
        }
        double aimC = target.get().celsius();
        Steering steering = Steering.of(data.course, isPlanned(question) ? question.plan() : Optional.empty());
        Optional<PaceAhead> pace = isPlanned(question) ? Optional.empty() : Optional.of(PaceAhead.of(guessed, aimC));
        PlanAhead ahead = pace.map(PaceAhead::ahead).orElseGet(() -> planned(question, data, steering));
        if (isPlanned(question) && data.nowC > aimC + NOT_ITS_PLAN_K) {
            remarks.add(Remark.of(Remark.Kind.HOTTER_THAN_PLANNED));
        }
        List<FiringFit.Weighted> evenly = question.memory().fit(guessed);
        Optional<PowerGuard.Finding> step =
                outputKnown ? PowerGuard.stepOnce(data, evenly.get(0).fit(), question.memory()) : Optional.empty();
        step.ifPresent(found -> remarks.add(0, new Remark(Remark.Kind.POWER_MISSING, Optional.of(found.sinceS()))));
        FiringData known =
                step.map(found -> guessed.withPowerStep(found.sinceS())).orElse(guessed);
        List<FiringFit.Weighted> fits = step.isPresent() ? question.memory().fit(known) : evenly;
        ArrivalScale.Power power = power(question, known, outputKnown);
        double[] thresholds =
                question.below().stream().mapToDouble(Temperature::celsius).toArray();
        List<FiringFit.Weighted> forItsTop = outputKnown ? forItsTop(question, known, fits) : likely(fits);
        Optional<EarlierCoolings.Today> remembered = EarlierCoolings.fit(question.memory(), known);
        List<FiringFit.Weighted> forItsCooling = remembered
                .map(EarlierCoolings.Today::fits)
                .orElseGet(() -> likely(FiringFit.again(
                        fits, known.forItsCooling(), question.memory().kinds())));
        ConformalScale.AfterHeating scale = remembered
                .map(EarlierCoolings.Today::scale)
                .orElse(outputKnown ? ConformalScale.AfterHeating.TOLD : ConformalScale.AfterHeating.USUAL);
        List<FiringFit.Weighted> forItsArrival =
                outputKnown ? forItsArrival(forItsTop, forItsCooling, data.nowC) : forItsTop;
        Spread.Asked onItsWay = fit -> {
            Projection projection = new Projection(fit);
            WallSlab full = new WallSlab(fit.kind().shape(), WallSlab.USUAL_CELLS);
            return z -> rising(data.nowS, projection.now(z), full, ahead, aimC, power, steering);
        };
        Spread[] rising = Spread.ask(forItsTop, onItsWay, RISING);
        if (forItsArrival.size() > forItsTop.size()) {
            rising[WHEN] = Spread.ask(forItsArrival, onItsWay, RISING)[WHEN];
        }
        // What it does lately tells of its top; of how it will cool all of its way up tells.
        Spread[] cooling = Spread.ask(
                forItsCooling,
                fit -> {
                    Projection projection = new Projection(fit);
                    return z -> cooling(data.nowS, fit, projection.now(z), z, ahead, aimC, power, steering, thresholds);
                },
                thresholds.length);
        Arrival waited = arrival(target.get(), known, rising, flattensBelowC(known, forItsTop), power);
        Arrival steered = pace.isPresent()
                ? pace.get().widened(waited, data.nowS, power)
                : ByTheClock.arrival(steering, waited, rising[BY_THE_CLOCK], known, ahead.leavesS(aimC), power);
        Optional<Arrival> arrival = Optional.of(steered);
        ByTheClock.remark(
                        steering,
                        waited,
                        isPlanned(question) ? question.plan() : Optional.empty(),
                        data.course,
                        ahead.leavesS(aimC))
                .ifPresent(remarks::add);
        pace.filter(its -> steered.when().filter(when -> when.atS() > data.nowS).isPresent())
                .ifPresent(its -> remarks.add(Remark.of(its.taken())));
        // A kiln that never gets there in the model cools from where it stalls: no time for a lid to be told.
        boolean ends = steering == Steering.BY_THE_CLOCK
                || steered.reaches() != Reaches.NO && steered.when().isPresent();
        List<Below> below = new ArrayList<>();
        for (int i = 0; i < thresholds.length; i++) {
            Spread spread = cooling[i];
            Optional<When> when =
                    spread.isKnown() && ends ? Optional.of(scale.when(data.nowS, data.nowC, spread)) : Optional.empty();
            below.add(new Below(question.below().get(i), when, when.map(When::fromS)));
        }
        double room = 0;
        for (FiringFit.Weighted each : fits) {
            room += each.weight() * each.fit().kiln().ambientC();
        }
        return new Forecast(
                data.nowS,
                stage,
                Temperature.ofCelsius(room),
                below,
                arrival,
                Forecaster.EnergyUsed.soFar(data.course, question.powerKw()),
                Optional.empty(),
                List.of(),
                remarks);
    }

    /**
     * While it is far from its top, when it gets there hangs as much on all of its way up as on what it does lately: where
     * the fit for the top has it end just above what it is asked for, its time alone comes out half as long again.
     */
    private static List<FiringFit.Weighted> forItsArrival(
            List<FiringFit.Weighted> forItsTop, List<FiringFit.Weighted> evenly, double nowC) {
        double far = Math.max(0, Math.min(1, (LATELY_ALONE_FROM_C - nowC) / (LATELY_ALONE_FROM_C - EVENLY_BELOW_C)));
        double share = MOST_EVENLY * far;
        if (share == 0) {
            return forItsTop;
        }
        List<FiringFit.Weighted> both = new ArrayList<>();
        forItsTop.forEach(each -> both.add(new FiringFit.Weighted(each.fit(), (1 - share) * each.weight())));
        evenly.forEach(each -> both.add(new FiringFit.Weighted(each.fit().withMainsDrifting(), share * each.weight())));
        return both;
    }

    private static List<FiringFit.Weighted> forItsTop(
            ForecastQuestion question, FiringData known, List<FiringFit.Weighted> evenly) {
        return likely(FiringFit.again(
                        evenly, known.forItsTop(), question.memory().kinds()))
                .stream()
                .map(each -> new FiringFit.Weighted(each.fit().withMainsDrifting(), each.weight()))
                .toList();
    }

    private static List<FiringFit.Weighted> likely(List<FiringFit.Weighted> fits) {
        return fits.stream().filter(each -> each.weight() > LEAST_WEIGHT).toList();
    }

    private static double[] rising(
            double nowS,
            WallSlab slab,
            WallSlab full,
            PlanAhead ahead,
            double aimC,
            ArrivalScale.Power power,
            Steering steering) {
        double[] answers = new double[RISING];
        full.startLike(slab);
        answers[TOP] = PlanRun.topsOutC(full, TOPS_OUT_WITHIN_S);
        // A kiln that would get there twelve hours after its plan is late, not too weak.
        double plannedS = ahead.endsS(nowS) - nowS;
        answers[TOP_WHEN_LATE] = Math.max(answers[TOP], PlanRun.topsOutC(full, Math.min(TOPS_OUT_WITHIN_S, plannedS)));
        if (steering == Steering.BY_THE_CLOCK) {
            full.startLike(slab);
            answers[BY_THE_CLOCK] = PlanRun.byTheClock(full, ahead, nowS, isLimited(power), aimC)
                    .highestC();
        }
        PlanRun run = PlanRun.follow(slab, ahead, nowS, isLimited(power), aimC);
        answers[WHEN] = Math.log(Math.max(60, run.arrivalS() - nowS));
        return answers;
    }

    private static double[] cooling(
            double nowS,
            FittedKiln fit,
            WallSlab slab,
            double[] z,
            PlanAhead ahead,
            double aimC,
            ArrivalScale.Power power,
            Steering steering,
            double[] thresholds) {
        PlanRun run = steering == Steering.BY_THE_CLOCK
                ? PlanRun.byTheClock(slab, ahead, nowS, isLimited(power), aimC)
                : PlanRun.follow(slab, ahead, nowS, isLimited(power), aimC);
        double[] below = Projection.below(slab, run.endS(), fit.prior().kiln(z).ambientC(), thresholds);
        return Arrays.stream(below)
                .map(each -> Math.log(Math.max(60, each - nowS)))
                .toArray();
    }

    /** Who keeps up with a plan is taken to go on keeping up: nothing else is known of the power. */
    private static boolean isLimited(ArrivalScale.Power power) {
        return power != ArrivalScale.Power.UNKNOWN;
    }

    private static ArrivalScale.Power power(ForecastQuestion question, FiringData data, boolean told) {
        if (told) {
            return ArrivalScale.Power.TOLD;
        }
        if (data.guessedFullForS.isPresent()) {
            return ArrivalScale.Power.TAKEN_FOR_FULL;
        }
        return question.plan().isPresent() || question.ahead().isPresent()
                ? ArrivalScale.Power.UNKNOWN
                : ArrivalScale.Power.PACE_ALONE;
    }

    private static Arrival arrival(
            Temperature target, FiringData data, Spread[] spreads, double noHigherC, ArrivalScale.Power power) {
        Spread when = spreads[WHEN];
        Spread top = spreads[TOP];
        Optional<When> arrived = arrived(data.course, target);
        if (power == ArrivalScale.Power.UNKNOWN || power == ArrivalScale.Power.PACE_ALONE) {
            // Nothing tells how much power is left: the pace may go on until, near the top, it cannot.
            Optional<When> guess = when.isKnown() ? Optional.of(arrives(data, when, power)) : Optional.empty();
            return new Arrival(
                    target,
                    arrived.isPresent() ? Reaches.YES : Reaches.CANNOT_SAY_YET,
                    arrived.or(() -> guess),
                    Optional.empty());
        }
        double nowC = data.nowC;
        int stretches = data.powered.size();
        double lower = ArrivalScale.topOutLower(top, nowC, power, stretches);
        double higher = ArrivalScale.topOutHigher(top, nowC, power, stretches);
        double highest = Math.max(nowC, Math.min(noHigherC, top.mean()));
        TopsOut topsOut = new TopsOut(
                Temperature.ofCelsius(highest),
                Temperature.ofCelsius(Math.min(highest, Math.max(data.course.atLeastC(), top.mean() - lower))),
                Temperature.ofCelsius(Math.max(nowC, Math.min(noHigherC, top.mean() + higher))));
        if (arrived.isPresent()) {
            return new Arrival(target, Reaches.YES, arrived, Optional.of(topsOut));
        }
        double aimC = target.celsius();
        Spread late = spreads[TOP_WHEN_LATE];
        double lateC = late.mean() + ArrivalScale.topOutHigher(late, nowC, power, stretches);
        double atMostC = Math.max(topsOut.to().celsius(), Math.min(noHigherC, lateC));
        Reaches reaches =
                topsOut.from().celsius() >= aimC ? Reaches.YES : atMostC < aimC ? Reaches.NO : Reaches.CANNOT_SAY_YET;
        if (reaches == Reaches.NO && nowC < TOO_EARLY_C && !runsFull(data.course, FULL_OUTPUT, FULL_FOR_S)) {
            return new Arrival(target, Reaches.CANNOT_SAY_YET, Optional.empty(), Optional.empty());
        }
        Optional<When> arrives =
                reaches != Reaches.NO && when.isKnown() ? Optional.of(arrives(data, when, power)) : Optional.empty();
        return new Arrival(target, reaches, arrives, Optional.of(topsOut));
    }

    /**
     * How hot a kiln can get that has given all it has for an hour: from now on its curve only flattens. Infinite while
     * it gives less. A kiln that has stood still for hours has told where it ends, whatever the fit believes of its own
     * error.
     */
    private static double flattensBelowC(FiringData data, List<FiringFit.Weighted> fits) {
        boolean full = data.guessedFullForS.orElse(0) >= ALL_IT_HAS_FOR_S
                || runsFull(data.course, ALL_IT_HAS, ALL_IT_HAS_FOR_S);
        if (data.nowC < ONLY_FLATTENS_ABOVE_C || !full) {
            return Double.POSITIVE_INFINITY;
        }
        double tauS = fits.stream()
                .mapToDouble(each -> each.fit().kiln().tauS())
                .max()
                .orElse(TOPS_OUT_WITHIN_S);
        double slope = data.course.line(data.nowS - ALL_IT_HAS_FOR_S, data.nowS).slopeKS();
        double leftS = Math.min(TOPS_OUT_WITHIN_S, SLOWEST_OF_TAU * tauS);
        return data.nowC + Math.max(0, slope) * leftS + SLOPE_WITHIN_K;
    }

    private static boolean runsFull(Course course, double full, double forS) {
        double fromS = course.lastS() - forS;
        for (int i = course.last(); i >= 0 && course.timeS[i] >= fromS; i--) {
            if (!(course.output[i] >= full)) {
                return false;
            }
        }
        return course.timeS[0] < fromS;
    }

    private static When arrives(FiringData data, Spread spread, ArrivalScale.Power power) {
        double log = spread.mean();
        double steers = STEERS_WITHIN_S / Math.exp(log);
        double sooner = Math.hypot(steers, ArrivalScale.sooner(spread.halfWidth(), data.nowC, power));
        double later = Math.hypot(steers, ArrivalScale.later(spread.halfWidth(), data.nowC, power));
        return new When(
                data.nowS + Math.exp(log), data.nowS + Math.exp(log - sooner), data.nowS + Math.exp(log + later));
    }

    /** Whether what is left of a plan is carried out, and not just a temperature aimed at. */
    private static boolean isPlanned(ForecastQuestion question) {
        return question.ahead().isPresent()
                || question.plan().isPresent() && question.target().isEmpty();
    }

    private static PlanAhead planned(ForecastQuestion question, FiringData data, Steering steering) {
        return question.ahead()
                .orElseGet(() -> PlanAlignment.ahead(question.plan().get(), data.course, data.phases, steering));
    }
}

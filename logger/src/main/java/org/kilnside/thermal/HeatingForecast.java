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
import org.kilnside.thermal.Forecast.When;

/** How a kiln on its way up goes on and, once it is there, cools. */
final class HeatingForecast {
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

    private static Remark.Kind howFarTold(FiringData guessed) {
        if (!guessed.outputUntold()) {
            return Remark.Kind.OUTPUT_NOT_SEEN_YET;
        }
        return guessed.guessedFullForS.isPresent() ? Remark.Kind.FULL_OUTPUT_GUESSED : Remark.Kind.OUTPUT_UNKNOWN;
    }

    static Forecast forecast(ForecastQuestion question, FiringData data, Stage stage, List<Remark> remarks) {
        Optional<Temperature> target = Arrivals.target(question);
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
        Arrivals.Answers answers = new Arrivals.Answers(rising[WHEN], rising[TOP], rising[TOP_WHEN_LATE]);
        Arrival waited = Arrivals.of(target.get(), known, answers, Arrivals.flattensBelowC(known, forItsTop), power);
        Arrival steered = pace.isPresent()
                ? pace.get().widened(waited, data.nowS, power)
                : ByTheClock.arrival(steering, waited, rising[BY_THE_CLOCK], known, ahead.leavesS(aimC), power);
        Arrival sharpened = isPlanned(question) && steering != Steering.BY_THE_CLOCK
                ? DescribedKiln.sharpened(steered, question, known, ahead, aimC)
                : steered;
        ByTheClock.remark(
                        steering,
                        waited,
                        isPlanned(question) ? question.plan() : Optional.empty(),
                        data.course,
                        ahead.leavesS(aimC))
                .ifPresent(remarks::add);
        if (Arrivals.isBeyondElements(steered, answers, power)) {
            remarks.add(Remark.of(Remark.Kind.TOPS_OUT_BEYOND_ELEMENTS));
        }
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
                Optional.of(sharpened),
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
        answers[TOP] = PlanRun.topsOutC(full, Arrivals.TOPS_OUT_WITHIN_S);
        // A kiln that would get there twelve hours after its plan is late, not too weak.
        double plannedS = ahead.endsS(nowS) - nowS;
        answers[TOP_WHEN_LATE] =
                Math.max(answers[TOP], PlanRun.topsOutC(full, Math.min(Arrivals.TOPS_OUT_WITHIN_S, plannedS)));
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

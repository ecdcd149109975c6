package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast.Below;
import org.kilnside.thermal.Forecast.Remark;
import org.kilnside.thermal.Forecast.Remark.Kind;
import org.kilnside.thermal.Forecast.Stage;
import org.kilnside.thermal.Forecast.When;

/** A kiln that is on its way down: when it will be below some temperatures. */
final class CoolingForecast {
    /** Kinds of wall less likely than this are left out of the intervals: each costs a dozen runs. */
    private static final double LEAST_WEIGHT = 0.02;

    /** A temperature less than this above the room may never be reached within days, K. */
    private static final double ABOVE_ROOM_K = 3;

    /** So long without output after the end of its plan and nobody waits for another pulse, s. */
    private static final double OFF_FOR_S = 480;

    /** How much wider it is for a kiln that was opened on the way, or whose heating the log does not show (own trials). */
    private static final double NOT_SEEN_WHOLE = 1.6;

    /**
     * What the unseen end of a heating leaves open of the time left, where hardly anything of the cooling was seen either
     * (own trials: elements on for ten minutes and a hold more than the log shows made the times 5 to 8 % short).
     */
    private static final double TURN_UNSEEN = 0.08;

    /** The same where what is seen of the cooling is too short to fit (own trials: up to 22 % long). */
    private static final double ALL_UNSEEN = 0.24;

    /** From such a part of it unseen on, it is said. */
    private static final double MOSTLY = 0.5;

    private CoolingForecast() {}

    static Forecast forecast(ForecastQuestion question, FiringData whole, List<Remark> remarks) {
        FiringData data = whole;
        Optional<PowerGuard.Finding> doubt =
                data.phases.drivenNow() ? PowerGuard.once(data, question.memory()) : Optional.empty();
        if (doubt.isPresent()) {
            remarks.add(0, Remark.of(doubt.get()));
            return Forecaster.unknown(question, data.nowS, data.ambient.celsius(), Stage.COOLING, remarks);
        }
        Optional<Double> lid = LidOpen.sinceS(whole, question.ventilated());
        if (lid.isPresent()) {
            // What the sensor reads from here on is air: the ware is forecast from what was known when it was opened.
            data = Forecaster.data(question, whole.course.until(lid.get()));
            remarks.add(0, new Remark(Kind.SENSOR_READS_AIR, lid));
        }
        Optional<PlanAhead> ahead = ahead(question, data);
        Optional<Phases> byPlan =
                data.outputUntoldNow() ? PlannedFall.phases(question.plan(), ahead, data) : Optional.empty();
        if (byPlan.isPresent()) {
            data = FiringData.of(
                    data.course, byPlan.get(), question.ambientC(), question.ventilated(), PoweredStretches.ABOVE_C);
        }
        List<FiringFit.Weighted> likely = question.memory().fit(data);
        boolean driven = data.phases.drivenNow() && !isOver(question, data);
        // A ramp led down by elements nobody tells of looks like a kiln that holds more than any does.
        boolean tooSlow = !driven && data.outputUntoldNow() && FiringFit.noKilnIsLike(likely, data);
        if (tooSlow) {
            data = data.asIfHeldUntilNow();
        }
        List<FiringFit.Weighted> seenToCool = tooSlow ? question.memory().fit(data) : likely;
        // A kiln that was only led as yet has shown no more of how it cools than one that still heats, and one that is
        // led hardly more.
        boolean onlyLed = ahead.isPresent() && data.free.isEmpty();
        Optional<EarlierCoolings.Today> remembered = onlyLed || ahead.isPresent() && driven
                ? EarlierCoolings.fit(question.memory(), data)
                : Optional.empty();
        List<FiringFit.Weighted> fits = remembered.isPresent()
                ? remembered.get().fits()
                : onlyLed && data.powered.isEmpty()
                        ? FiringFit.again(
                                seenToCool,
                                data.forItsCooling(),
                                question.memory().kinds())
                        : seenToCool;
        boolean unplanned = ahead.isEmpty() && (driven || tooSlow);
        if (unplanned) {
            remarks.add(0, Remark.of(whyUnplanned(question, driven)));
        }
        if (data.openedNow()) {
            remarks.add(new Remark(Kind.OPENED, Optional.of(data.openedS())));
        }
        if (data.unseenSinceTop() > MOSTLY) {
            remarks.add(Remark.of(Kind.TURN_UNSEEN));
        }
        if (HalfSoaked.leavesOpen(data, Arrivals.target(question)) > HalfSoaked.SAID) {
            remarks.add(
                    Remark.of(HalfSoaked.again(data.course, data.phases) ? Kind.HEATED_AGAIN : Kind.CLIMB_BROKEN_OFF));
        }
        double room = room(fits);
        double[] thresholds =
                question.below().stream().mapToDouble(Temperature::celsius).toArray();
        Spread[] remaining = remembered.isPresent()
                ? asked(data, fits, thresholds, ahead)
                : remaining(data, fits, thresholds, ahead);
        double open = question.ventilated().isEmpty() ? OpenFall.share(data, fits) : 0;
        if (open > OpenFall.SAID) {
            remarks.add(Remark.of(Kind.FALLS_AS_IF_OPEN));
        }
        Optional<YoungCooling> young = ahead.isPresent()
                        || tooSlow
                        || open > OpenFall.SAID
                        || !question.ventilated().isEmpty()
                ? Optional.empty()
                : YoungCooling.of(question.memory(), data, thresholds);
        CoolingSeen seen = CoolingSeen.of(data, fits, room);
        List<Below> below = new ArrayList<>();
        for (int i = 0; i < thresholds.length; i++) {
            Temperature threshold = question.below().get(i);
            Optional<Below> passed = lid.isEmpty() ? alreadyBelow(data, threshold) : Optional.empty();
            if (passed.isPresent()) {
                below.add(passed.get());
            } else if (thresholds[i] < room + ABOVE_ROOM_K || !remaining[i].isKnown()) {
                if (thresholds[i] < room + ABOVE_ROOM_K) {
                    remarks.add(Remark.of(Kind.BELOW_ROOM));
                }
                below.add(new Below(threshold, Optional.empty(), Optional.empty()));
            } else {
                When byModel = remembered.isPresent()
                        ? remembered.get().scale().when(data.nowS, data.nowC, remaining[i])
                        : OpenFall.later(
                                when(question, data, seen, remaining[i], i, ahead.isEmpty(), young), data.nowS, open);
                When when = Crossing.ahead(data.course, data.phases.peak(), thresholds[i], byModel);
                below.add(
                        unplanned
                                ? new Below(threshold, Optional.empty(), Optional.of(when.fromS()))
                                : new Below(threshold, Optional.of(when), Optional.of(when.fromS())));
            }
        }
        List<Below> answers = lid.isEmpty()
                ? below
                : CoolingChoices.propped(data, fits.get(0).fit(), ahead, below).stream()
                        .map(each -> LidOpen.notBefore(each, whole.nowS))
                        .toList();
        return new Forecast(
                whole.nowS,
                Stage.COOLING,
                Temperature.ofCelsius(room),
                answers,
                Arrivals.afterTop(question, whole),
                whole.heatingUnseen()
                        ? Optional.empty()
                        : Forecaster.EnergyUsed.soFar(whole.course, question.powerKw()),
                lid.map(at -> Temperature.ofCelsius(LidOpen.wareC(fits.get(0).fit(), at, whole.nowS))),
                lid.isPresent() || unplanned || open > OpenFall.SAID
                        ? List.of()
                        : CoolingChoices.of(question, data, fits.get(0).fit(), ahead, below),
                remarks);
    }

    /** Whether its plan is over and the elements have been off since some minutes, or its set-point has gone as well. */
    private static boolean isOver(ForecastQuestion question, FiringData data) {
        return (question.plan().isPresent() || question.ahead().isPresent())
                && (data.course.meanOutput(data.nowS - OFF_FOR_S, data.nowS) == 0
                        || PlanAlignment.isSwitchedOff(data.course));
    }

    /** Who has given the plan is not asked for it. */
    private static Kind whyUnplanned(ForecastQuestion question, boolean driven) {
        if (question.plan().isPresent()) {
            return driven ? Kind.DRIVEN_PAST_PLAN : Kind.COOLS_SLOWLY_PAST_PLAN;
        }
        return driven ? Kind.DRIVEN_COOLING : Kind.COOLS_TOO_SLOWLY;
    }

    private static Optional<PlanAhead> ahead(ForecastQuestion question, FiringData data) {
        Optional<PlanAhead> ahead = question.ahead();
        if (ahead.isEmpty() && question.plan().isPresent()) {
            ahead = Optional.of(PlanAlignment.ahead(question.plan().get(), data.course, data.phases));
        }
        return ahead.filter(plan -> !plan.corners().isEmpty());
    }

    private static double room(List<FiringFit.Weighted> fits) {
        double room = 0;
        for (FiringFit.Weighted each : fits) {
            room += each.weight() * each.fit().kiln().ambientC();
        }
        return room;
    }

    private static When when(
            ForecastQuestion question,
            FiringData data,
            CoolingSeen seen,
            Spread spread,
            int at,
            boolean freely,
            Optional<YoungCooling> young) {
        double thresholdC = question.below().get(at).celsius();
        KilnMemory.Correction correction = freely
                ? question.memory().correction(data.nowC, data.leftAloneForS(), thresholdC)
                : KilnMemory.Correction.NONE;
        double log = spread.mean() + correction.log() + HalfSoaked.takesLonger(data);
        double half = ConformalScale.cooling(seen, spread.deviation(), thresholdC, correction);
        if (data.openedNow() || data.heatingUnseen()) {
            half *= NOT_SEEN_WHOLE;
        }
        double unseen = (data.free.isEmpty() ? ALL_UNSEEN : TURN_UNSEEN) * data.unseenSinceTop();
        double halfSoaked = HalfSoaked.leavesOpen(data, Arrivals.target(question));
        double wide = Math.hypot(Math.hypot(half, unseen), halfSoaked);
        return young.map(known -> known.with(at, data.nowS, log, wide))
                .orElseGet(() -> When.ofLogs(data.nowS, log, wide));
    }

    /** The log itself says when it fell below; empty where it has not yet. */
    private static Optional<Below> alreadyBelow(FiringData data, Temperature threshold) {
        Course course = data.course;
        int peak = data.phases.peak();
        if (course.temperatureC[peak] >= threshold.celsius()) {
            return Crossing.of(course, peak, threshold.celsius())
                    .map(when -> new Below(threshold, Optional.of(when), Optional.of(when.fromS())));
        }
        // The log shows it no hotter: it never was, or it was before the log begins.
        double first = course.timeS[0];
        return Optional.of(
                UnseenTop.beginsOnTheWayDown(course, peak)
                        ? new Below(threshold, Optional.of(new When(first, first, first)), Optional.of(first))
                        : new Below(threshold, Optional.empty(), Optional.empty(), true));
    }

    /**
     * Asks all fits, and takes off by how much they usually err of a kiln that is left alone, or was led down.
     *
     * @param thresholdsC falling
     * @param ahead what the plan still heats on the way down; empty = the output is off
     * @return spreads of ln(remaining seconds), a threshold each
     */
    static Spread[] remaining(
            FiringData data, List<FiringFit.Weighted> fits, double[] thresholdsC, Optional<PlanAhead> ahead) {
        Spread[] remaining = asked(data, fits, thresholdsC, ahead);
        double[] bias = ahead.isEmpty() ? TrialBias.of(data, fits, thresholdsC) : new double[thresholdsC.length];
        double led = ahead.isPresent() || !TrialBias.knows(data) ? LedBias.of(data, fits) : 0;
        for (int i = 0; i < remaining.length; i++) {
            remaining[i] = remaining[i].moved(bias[i] + led);
        }
        return remaining;
    }

    /** Asks all fits, and takes nothing off. */
    static Spread[] asked(
            FiringData data, List<FiringFit.Weighted> fits, double[] thresholdsC, Optional<PlanAhead> ahead) {
        List<FiringFit.Weighted> likely =
                fits.stream().filter(each -> each.weight() >= LEAST_WEIGHT).toList();
        return Spread.ask(
                likely,
                fit -> {
                    Projection projection = new Projection(fit);
                    return z -> logs(data, fit, projection.now(z), z, thresholdsC, ahead);
                },
                thresholdsC.length);
    }

    private static double[] logs(
            FiringData data,
            FittedKiln fit,
            WallSlab slab,
            double[] z,
            double[] thresholdsC,
            Optional<PlanAhead> ahead) {
        double from = ahead.map(plan -> PlanRun.follow(slab, plan, data.nowS, false, Double.POSITIVE_INFINITY)
                        .endS())
                .orElse(data.nowS);
        double[] times = Projection.below(slab, from, fit.prior().kiln(z).ambientC(), thresholdsC);
        for (int i = 0; i < times.length; i++) {
            times[i] = Math.log(Math.max(1, times[i] - data.nowS));
        }
        return times;
    }
}

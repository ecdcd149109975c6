package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast.Below;
import org.kilnside.thermal.Forecast.Choice;
import org.kilnside.thermal.Forecast.When;

/**
 * What each way of cooling on would give: left shut, a bung pulled from some temperature down, the lid propped from
 * another. How much a bung or a propped lid lets out nobody has measured on this kiln; their usual size, and how far off
 * that may be, comes on top of the interval.
 */
final class CoolingChoices {
    /**
     * A bung's draught over the conductance of the wall: half a gram to two of air a second through 15 cm² at 300 °C,
     * as much as seams below let in, against 3 to 6 W/K (estimated from the draught's equation; no published source).
     */
    private static final double BUNG_LEAK = 0.18;

    /**
     * The same of a lid propped by some 5 cm, as a shelf's post does: trials with a virtual kiln and with another
     * simulator, whose hottest ware it is set on, since the sensor then reads air (docs/validation.md).
     */
    private static final double LID_LEAK = 2;

    /** How far off they may be: ln, one standard deviation. A lid is propped by 2 to 10 cm. */
    private static final double BUNG_LN_SPREAD = 0.8;

    private static final double LID_LN_SPREAD = 0.95;

    private static final double NINE_IN_TEN = 1.645;
    private static final double STEP_S = 120;

    /** By so much a number wavers, K. */
    private static final double WAVERS_K = 2;

    private CoolingChoices() {}

    /**
     * The choices of a kiln that is on its way down; none where it is as cold as was asked for.
     *
     * @param asItIs the answers for the kiln as it is now
     */
    static List<Choice> of(
            ForecastQuestion question, FiringData data, FittedKiln fit, Optional<PlanAhead> ahead, List<Below> asItIs) {
        if (asItIs.stream().allMatch(below -> data.nowC <= below.temperature().celsius())) {
            return List.of();
        }
        double[] z = fit.solution().parameters();
        KilnParameters shut = fit.kiln();
        double openedTimes = data.openedNow() ? fit.prior().openedTimes(z) : 1;
        double bung = data.openedNow() ? shut.lambda() * (openedTimes - 1) : BUNG_LEAK;
        double[] thresholds = asItIs.stream()
                .mapToDouble(below -> below.temperature().celsius())
                .toArray();
        double[] now = run(fit, data, ahead, Double.POSITIVE_INFINITY, shut.lambda() * openedTimes, thresholds);
        double bungFromC = question.ways().bungFrom().celsius();
        double lidFromC = question.ways().lidFrom().celsius();
        List<Choice> choices = new ArrayList<>();
        choices.add(new Choice(
                Choice.Way.SHUT,
                Optional.empty(),
                true,
                data.openedNow()
                        ? answers(data, asItIs, now, fit, ahead, thresholds, Double.POSITIVE_INFINITY, 0, 0)
                        : asItIs));
        choices.add(new Choice(
                Choice.Way.BUNG_OUT,
                data.openedNow()
                        ? Optional.empty()
                        : Optional.of(Temperature.ofCelsius(Math.min(bungFromC, data.nowC))),
                data.openedNow() || isThere(bungFromC, data),
                data.openedNow()
                        ? asItIs
                        : answers(data, asItIs, now, fit, ahead, thresholds, bungFromC, bung, BUNG_LN_SPREAD)));
        choices.add(new Choice(
                Choice.Way.LID_PROPPED,
                Optional.of(Temperature.ofCelsius(Math.min(lidFromC, data.nowC))),
                isThere(lidFromC, data),
                answers(data, asItIs, now, fit, ahead, thresholds, lidFromC, LID_LEAK, LID_LN_SPREAD)));
        return choices;
    }

    private static boolean isThere(double fromC, FiringData data) {
        return data.nowC <= fromC + WAVERS_K;
    }

    /**
     * What becomes of the answers of a shut kiln whose lid was propped at its data's last moment.
     *
     * @param shut as if it had been left shut
     */
    static List<Below> propped(FiringData data, FittedKiln fit, Optional<PlanAhead> ahead, List<Below> shut) {
        double[] thresholds = shut.stream()
                .mapToDouble(below -> below.temperature().celsius())
                .toArray();
        double[] asShut =
                run(fit, data, ahead, Double.POSITIVE_INFINITY, fit.kiln().lambda(), thresholds);
        return answers(data, shut, asShut, fit, ahead, thresholds, Double.POSITIVE_INFINITY, LID_LEAK, LID_LN_SPREAD);
    }

    private static List<Below> answers(
            FiringData data,
            List<Below> asItIs,
            double[] asNow,
            FittedKiln fit,
            Optional<PlanAhead> ahead,
            double[] thresholds,
            double fromC,
            double added,
            double lnSpread) {
        double lambda = fit.kiln().lambda();
        double[] usual = run(fit, data, ahead, fromC, lambda + added, thresholds);
        double[] less = run(fit, data, ahead, fromC, lambda + added * Math.exp(-lnSpread), thresholds);
        double[] more = run(fit, data, ahead, fromC, lambda + added * Math.exp(lnSpread), thresholds);
        List<Below> answers = new ArrayList<>();
        for (int i = 0; i < thresholds.length; i++) {
            Below below = asItIs.get(i);
            OptionalDouble ratio = Double.isFinite(usual[i]) && Double.isFinite(asNow[i]) && asNow[i] > data.nowS
                    ? OptionalDouble.of(Math.log((usual[i] - data.nowS + 1) / (asNow[i] - data.nowS + 1)))
                    : OptionalDouble.empty();
            if (below.when().isEmpty() || below.when().get().atS() <= data.nowS || ratio.isEmpty()) {
                answers.add(below);
                continue;
            }
            if (thresholds[i] >= Math.min(fromC, data.nowC)) {
                // It is reached before anything is opened: nothing that is done later moves it.
                answers.add(below);
                continue;
            }
            double apart = Math.log((less[i] - data.nowS + 1) / (more[i] - data.nowS + 1)) / 2;
            When now = below.when().get();
            When other = changed(now, data.nowS, ratio.getAsDouble(), NINE_IN_TEN * apart);
            // What is opened cools no more slowly, and what is shut no faster, however wide either is told.
            Optional<When> when = Optional.of(added > 0 ? earlier(other, now) : later(other, now));
            answers.add(new Below(below.temperature(), when, when.map(When::fromS)));
        }
        return answers;
    }

    private static When earlier(When one, When other) {
        return new When(
                Math.min(one.atS(), other.atS()),
                Math.min(one.fromS(), other.fromS()),
                Math.min(one.toS(), other.toS()));
    }

    private static When later(When one, When other) {
        return new When(
                Math.max(one.atS(), other.atS()),
                Math.max(one.fromS(), other.fromS()),
                Math.max(one.toS(), other.toS()));
    }

    private static When changed(When when, double nowS, double log, double half) {
        double middle = Math.log(when.atS() - nowS);
        double early = Math.hypot(middle - Math.log(Math.max(1, when.fromS() - nowS)), half);
        double late = Math.hypot(Math.log(Math.max(1, when.toS() - nowS)) - middle, half);
        return new When(
                nowS + Math.exp(middle + log),
                nowS + Math.exp(middle + log - early),
                nowS + Math.exp(middle + log + late));
    }

    /** When each threshold is passed with the leak changed from a temperature down; the wall as it is now until then. */
    private static double[] run(
            FittedKiln fit,
            FiringData data,
            Optional<PlanAhead> ahead,
            double fromC,
            double lambda,
            double[] thresholds) {
        double[] z = fit.solution().parameters();
        WallSlab slab = new Projection(fit).now(z);
        double time = ahead.map(plan -> PlanRun.follow(slab, plan, data.nowS, false, Double.POSITIVE_INFINITY)
                        .endS())
                .orElse(data.nowS);
        double begin = time;
        while (slab.chamberC() > fromC && time < begin + Projection.HORIZON_S) {
            slab.coast(STEP_S);
            time += STEP_S;
        }
        KilnParameters kiln = fit.kiln();
        slab.use(kiln.withLambda(lambda));
        return Projection.below(slab, time, kiln.ambientC(), thresholds);
    }
}

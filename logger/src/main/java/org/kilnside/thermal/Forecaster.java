package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.quantity.Energy;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast.Below;
import org.kilnside.thermal.Forecast.Remark;
import org.kilnside.thermal.Forecast.Remark.Kind;
import org.kilnside.thermal.Forecast.Stage;
import org.kilnside.thermal.Forecast.When;

/** Answers what a kiln will do. Pure: the same question gives the same answer. */
public final class Forecaster {
    /** Fewer readings or a shorter time than this say nothing. */
    private static final int FEWEST_POINTS = 8;

    private static final double SHORTEST_S = 600;

    /** A temperature less than this above the room may never be reached within days, K. */
    private static final double ABOVE_ROOM_K = 3;

    private static final double LIDS_OPENED_BELOW_C = 400;

    /** A bung quickens a cooling by less than this, a propped lid by more. */
    private static final double LID_TIMES = 3;

    private Forecaster() {}

    /** Forecasts a firing from what is known now. */
    public static Forecast forecast(ForecastQuestion question) {
        List<Remark> remarks = new ArrayList<>();
        if (question.curve().isEmpty()) {
            return unknown(question, 0, 15, Stage.WAITING, List.of(Remark.of(Kind.TOO_SHORT)));
        }
        Course course = Course.of(question.curve());
        if (course.size < FEWEST_POINTS || course.lastS() - course.timeS[0] < SHORTEST_S) {
            return unknown(
                    question,
                    course.lastS(),
                    question.ambientC().orElse(Math.min(25, course.temperatureC[0])),
                    Stage.WAITING,
                    List.of(Remark.of(Kind.TOO_SHORT)));
        }
        FiringData data = FiringData.of(course, question.ambientC());
        if (course.jumpS().isPresent()) {
            remarks.add(new Remark(Kind.JUMP, Optional.of(course.jumpS().getAsDouble())));
        }
        if (data.startsWarm) {
            remarks.add(Remark.of(Kind.STARTED_WARM));
        }
        Stage stage = stage(data);
        if (stage == Stage.WAITING) {
            remarks.add(0, Remark.of(Kind.NEVER_HEATED));
            return unknown(question, data.nowS, data.ambient.celsius(), stage, remarks);
        }
        return stage == Stage.COOLING
                ? cooling(question, data, remarks)
                : HeatingForecast.forecast(question, data, stage, remarks);
    }

    private static Stage stage(FiringData data) {
        Course course = data.course;
        if (data.phases.coolingNow()) {
            return Stage.COOLING;
        }
        double risen = course.temperatureC[data.phases.peak()] - course.temperatureC[0];
        double now = course.temperatureC[course.last()];
        boolean hot = now > data.ambient.celsius() + 60;
        if (risen < 12 && !hot) {
            return Stage.WAITING;
        }
        double slope = course.line(data.nowS - 1200, data.nowS).slopeKS() * 3600;
        return Math.abs(slope) < 8 && hot ? Stage.HOLDING : Stage.HEATING;
    }

    static Forecast unknown(
            ForecastQuestion question, double askedS, double ambientC, Stage stage, List<Remark> remarks) {
        List<Below> below = question.below().stream()
                .map(each -> new Below(each, Optional.empty(), Optional.empty()))
                .toList();
        return new Forecast(
                askedS,
                stage,
                Temperature.ofCelsius(ambientC),
                below,
                HeatingForecast.unknownArrival(question),
                Optional.empty(),
                Optional.empty(),
                remarks);
    }

    private static Forecast cooling(ForecastQuestion question, FiringData whole, List<Remark> remarks) {
        FiringData data = whole;
        Optional<Double> lid = lidOpenedS(whole);
        if (lid.isPresent()) {
            // What the sensor reads from here on is air: the ware is forecast from what was known when it was opened.
            data = FiringData.of(whole.course.until(lid.get()), question.ambientC());
            remarks.add(0, new Remark(Kind.SENSOR_READS_AIR, lid));
        }
        List<FiringFit.Weighted> fits = question.memory().fit(data);
        Optional<PlanAhead> ahead = ahead(question, data);
        boolean unplanned = data.phases.drivenNow() && ahead.isEmpty();
        if (unplanned) {
            remarks.add(0, Remark.of(Kind.DRIVEN_COOLING));
        }
        if (data.opened()) {
            int at = data.phases.bends().get(data.phases.bends().size() - 1).at();
            remarks.add(new Remark(Kind.OPENED, Optional.of(data.course.timeS[at])));
        }
        double room = room(fits);
        double[] thresholds =
                question.below().stream().mapToDouble(Temperature::celsius).toArray();
        Spread[] remaining = CoolingForecast.remaining(data, fits, thresholds, ahead);
        List<Below> below = new ArrayList<>();
        for (int i = 0; i < thresholds.length; i++) {
            Temperature threshold = question.below().get(i);
            if (data.nowC < thresholds[i] && lid.isEmpty()) {
                below.add(alreadyBelow(data, threshold));
            } else if (thresholds[i] < room + ABOVE_ROOM_K || !remaining[i].isKnown()) {
                remarks.add(Remark.of(Kind.BELOW_ROOM));
                below.add(new Below(threshold, Optional.empty(), Optional.empty()));
            } else {
                When when = when(question, data, remaining[i], thresholds[i], ahead.isEmpty());
                if (lid.isPresent()) {
                    when = withLidOpen(when, lid.get(), whole.nowS);
                }
                below.add(
                        unplanned
                                ? new Below(threshold, Optional.empty(), Optional.of(when.fromS()))
                                : new Below(threshold, Optional.of(when), Optional.of(when.fromS())));
            }
        }
        return new Forecast(
                whole.nowS,
                Stage.COOLING,
                Temperature.ofCelsius(room),
                below,
                HeatingForecast.arrivalAfterTop(question, whole),
                EnergyUsed.soFar(whole.course, question.powerKw()),
                lid.map(at -> Temperature.ofCelsius(wareC(fits.get(0).fit(), at, whole.nowS))),
                remarks);
    }

    /**
     * When the lid was propped, if it still is: the number suddenly fell several times faster than any bung makes it,
     * from where people open lids, and has not come back up.
     */
    private static Optional<Double> lidOpenedS(FiringData data) {
        List<Phases.Bend> bends = data.phases.bends();
        if (bends.isEmpty()) {
            return Optional.empty();
        }
        Phases.Bend last = bends.get(bends.size() - 1);
        Course course = data.course;
        double at = course.timeS[last.at()];
        double before = course.smoothAt(at, at - 600, at);
        double lowest = before;
        for (int i = last.at(); i < course.size; i++) {
            lowest = Math.min(lowest, course.temperatureC[i]);
        }
        boolean back = data.nowC > lowest + 0.5 * (before - lowest) && data.nowC > lowest + 8;
        return before < LIDS_OPENED_BELOW_C && last.rateTimes() > LID_TIMES && !back
                ? Optional.of(at)
                : Optional.empty();
    }

    /** With the lid open the ware cools sooner, by how much nobody knows. */
    private static When withLidOpen(When shut, double openedS, double nowS) {
        double left = shut.atS() - openedS;
        double earliest = Math.max(nowS, openedS + 0.35 * (shut.fromS() - openedS));
        double at = Math.max(nowS, openedS + 0.7 * left);
        return new When(at, Math.min(earliest, at), Math.max(at, openedS + 1.1 * (shut.toS() - openedS)));
    }

    private static double wareC(FittedKiln fit, double openedS, double nowS) {
        WallSlab slab = new Projection(fit).now(fit.solution().parameters());
        for (double time = openedS; time < nowS; time += 120) {
            slab.coast(120);
        }
        return slab.chamberC();
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
            ForecastQuestion question, FiringData data, Spread spread, double thresholdC, boolean freely) {
        KilnMemory.Correction correction =
                freely ? question.memory().correction(data.nowC, thresholdC) : new KilnMemory.Correction(0, 0);
        double log = spread.mean() + correction.log();
        double half = ConformalScale.cooling(spread.halfWidth(), data.nowC, thresholdC, correction.firings());
        if (data.opened()) {
            half *= 1.3;
        }
        return new When(data.nowS + Math.exp(log), data.nowS + Math.exp(log - half), data.nowS + Math.exp(log + half));
    }

    /** The log itself says when it fell below. */
    private static Below alreadyBelow(FiringData data, Temperature threshold) {
        Course course = data.course;
        int i = course.last();
        while (i > data.phases.peak() && course.temperatureC[i - 1] < threshold.celsius()) {
            i--;
        }
        double at = course.timeS[i];
        return new Below(threshold, Optional.of(new When(at, at, at)), Optional.of(at));
    }

    /** What an energy costs is not this room's; how much it was is. */
    static final class EnergyUsed {
        private EnergyUsed() {}

        /** ∫ output dt times power, over the course; empty where either is unknown. */
        static Optional<Energy> soFar(Course course, java.util.OptionalDouble powerKw) {
            if (powerKw.isEmpty()) {
                return Optional.empty();
            }
            double seconds = 0;
            double known = 0;
            for (int i = 1; i < course.size; i++) {
                double step = course.timeS[i] - course.timeS[i - 1];
                if (!Double.isNaN(course.output[i])) {
                    seconds += course.output[i] * step;
                    known += step;
                }
            }
            double all = course.lastS() - course.timeS[0];
            return known < 0.8 * all
                    ? Optional.empty()
                    : Optional.of(Energy.ofKilowattHours(seconds * all / known / 3600 * powerKw.getAsDouble()));
        }
    }
}

package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.quantity.Energy;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast.Below;
import org.kilnside.thermal.Forecast.Remark;
import org.kilnside.thermal.Forecast.Remark.Kind;
import org.kilnside.thermal.Forecast.Stage;

/** Answers what a kiln will do. Pure: the same question gives the same answer. */
public final class Forecaster {
    /** Fewer readings or a shorter time than this say nothing. */
    private static final int FEWEST_POINTS = 8;

    private static final double SHORTEST_S = 600;

    /** By no day and night of a room. */
    private static final double ROSE_K = 12;

    private static final double HOT_ABOVE_ROOM_K = 60;
    private static final double USUAL_ROOM_C = 20;

    /** A curve is level that climbs or falls more slowly than this, over so long a time. */
    private static final double LEVEL_K_PER_H = 8;

    private static final double LEVEL_FOR_S = 1200;

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
                    atFirstSight(question, course),
                    List.of(Remark.of(Kind.TOO_SHORT)));
        }
        Optional<Remark> gainsaid = ContradictedOutput.remark(course);
        if (gainsaid.isPresent()) {
            remarks.add(gainsaid.get());
            course = course.withoutOutput();
        }
        course = LidOpen.withoutAir(course, question.ventilated());
        Jumps jumps = Jumps.of(course);
        course = jumps.course();
        if (jumps.firstS().isPresent()) {
            remarks.add(new Remark(
                    jumps.stays() ? Kind.DO_NOT_TRUST_JUMP : Kind.JUMP,
                    Optional.of(jumps.firstS().getAsDouble())));
        }
        FiringData data = data(question, course);
        if (jumps.stays()) {
            // Which side of the jump is the kiln nobody can tell, and a lid is at stake.
            return unknown(question, data.nowS, data.ambient.celsius(), stage(question, data), remarks);
        }
        if (data.startsWarm) {
            remarks.add(Remark.of(Kind.STARTED_WARM));
        }
        Stage stage = stage(question, data);
        if (stage == Stage.HEATING && isLevel(data) && LevelCurve.of(question, data) == LevelCurve.AT_ITS_LIMIT) {
            remarks.add(Remark.of(Kind.AT_ITS_LIMIT));
        }
        if (stage == Stage.WAITING) {
            remarks.add(0, Remark.of(Kind.NEVER_HEATED));
            return unknown(question, data.nowS, data.ambient.celsius(), stage, remarks);
        }
        return stage == Stage.COOLING
                ? CoolingForecast.forecast(question, data, remarks)
                : HeatingForecast.forecast(question, data, stage, remarks);
    }

    /** Where a firing stands of which there is hardly anything: whether it is hot, and has risen or fallen. */
    private static Stage atFirstSight(ForecastQuestion question, Course course) {
        double first = course.temperatureC[0];
        double now = course.temperatureC[course.last()];
        boolean hot = Math.max(first, now) > question.ambientC().orElse(USUAL_ROOM_C) + HOT_ABOVE_ROOM_K;
        if (now - first >= ROSE_K) {
            return Stage.HEATING;
        }
        return !hot ? Stage.WAITING : first - now >= ROSE_K ? Stage.COOLING : Stage.HOLDING;
    }

    private static Stage stage(ForecastQuestion question, FiringData data) {
        Course course = data.course;
        if (data.phases.coolingNow()) {
            return Stage.COOLING;
        }
        double risen = course.temperatureC[data.phases.peak()] - course.temperatureC[0];
        if (risen < ROSE_K && !isHot(data)) {
            return Stage.WAITING;
        }
        return isLevel(data) && LevelCurve.of(question, data) == LevelCurve.HOLDS ? Stage.HOLDING : Stage.HEATING;
    }

    private static boolean isLevel(FiringData data) {
        double slope = data.course.line(data.nowS - LEVEL_FOR_S, data.nowS).slopeKS() * 3600;
        return isHot(data) && (Math.abs(slope) < LEVEL_K_PER_H || LevelCurve.isWhereItsSetPointStands(data));
    }

    private static boolean isHot(FiringData data) {
        return data.course.temperatureC[data.course.last()] > data.ambient.celsius() + HOT_ABOVE_ROOM_K;
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
                Arrivals.unknown(question),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                remarks);
    }

    static FiringData data(ForecastQuestion question, Course course) {
        return FiringData.of(course, question.ambientC(), question.ventilated(), PoweredStretches.ABOVE_C);
    }

    /** What an energy costs is not this room's; how much it was is. */
    static final class EnergyUsed {
        private EnergyUsed() {}

        /** ∫ output dt times power, over the course; empty where either is unknown. */
        static Optional<Energy> soFar(Course course, OptionalDouble powerKw) {
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

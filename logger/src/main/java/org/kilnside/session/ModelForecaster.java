package org.kilnside.session;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.firing.Kiln;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.session.LiveForecast.ExpectedCone;
import org.kilnside.thermal.Forecast;
import org.kilnside.thermal.ForecastFan;
import org.kilnside.thermal.ForecastQuestion;
import org.kilnside.thermal.Forecaster;
import org.kilnside.thermal.KilnMemory;
import org.kilnside.thermal.PlanAhead;
import org.kilnside.thermal.StalledClimb;
import org.kilnside.thermal.WallKind;

/** Forecasts by the kiln model, and the cone by the heat work along the model's probable future. Pure. */
public final class ModelForecaster implements FiringForecaster {
    @Override
    public LiveForecast forecast(ForecastRequest request) {
        return forecast(request, noMemory(request));
    }

    /** What is known of a kiln of which no earlier firing is. */
    static KilnMemory noMemory(ForecastRequest request) {
        return KilnMemory.none(request.wall().map(ModelForecaster::wall));
    }

    /** What earlier firings of the kiln teach, oldest first; takes a second or so a firing. */
    static KilnMemory learn(List<Trace> earlier, ForecastRequest request) {
        return KilnMemory.of(earlier, request.wall().map(ModelForecaster::wall), OptionalDouble.empty());
    }

    static LiveForecast forecast(ForecastRequest request, KilnMemory memory) {
        Trace curve = request.curve();
        double nowC = curve.temperatureC(curve.size() - 1);
        List<Temperature> own =
                List.of(request.thresholds().crack(), request.thresholds().unload());
        double hottestC =
                Math.max(nowC, request.plan().map(plan -> plan.top().celsius()).orElse(nowC));
        List<Temperature> asked = new ArrayList<>(
                ForecastFan.ladder(hottestC, request.thresholds().unload().celsius()));
        asked.addAll(own);
        Optional<PlanAhead> ahead = request.ahead().map(ModelForecaster::ahead);
        Forecast answer = Forecaster.forecast(question(request, ahead)
                .withMemory(request.described().map(memory::describedAs).orElse(memory))
                .withBelow(asked));
        ForecastFan fan =
                ForecastFan.of(answer, nowC, ahead, request.thresholds().crack());
        return new LiveForecast(
                request.askedMs(),
                request.thresholds(),
                Optional.of(withOwn(answer, own)),
                fan.points(),
                expected(request, answer, fan),
                aimed(request, answer, fan),
                Optional.empty());
    }

    private static ForecastQuestion question(ForecastRequest request, Optional<PlanAhead> ahead) {
        ForecastQuestion question = ForecastQuestion.about(request.curve())
                .withVentilated(request.ventilated())
                .withWays(new ForecastQuestion.Ways(
                        ForecastQuestion.Ways.USUAL.bungFrom(),
                        request.thresholds().crack()));
        if (request.plan().isPresent()) {
            question = question.withPlan(request.plan().get());
        }
        if (ahead.isPresent()) {
            question = question.withAhead(ahead.get());
        }
        if (request.ambient().isPresent()) {
            question = question.withAmbient(request.ambient().get());
        }
        return request.powerKw().isPresent()
                ? question.withPowerKw(request.powerKw().getAsDouble())
                : question;
    }

    private static PlanAhead ahead(List<org.kilnside.tracking.PlanPosition.PlanPoint> points) {
        return new PlanAhead(points.stream()
                .map(point -> new PlanAhead.Corner(point.elapsedMs() / 1000.0, point.temperatureC()))
                .toList());
    }

    private static WallKind wall(Kiln.Wall wall) {
        return switch (wall) {
            case BRICK -> WallKind.BRICK;
            case FIBRE -> WallKind.FIBRE;
            case LAYERED -> WallKind.LAYERED;
        };
    }

    /** The answer to what a person asked, without the rungs the fan needs. */
    private static Forecast withOwn(Forecast answer, List<Temperature> own) {
        return new Forecast(
                answer.askedS(),
                answer.stage(),
                answer.ambient(),
                answer.below().stream()
                        .filter(below -> own.contains(below.temperature()))
                        .toList(),
                answer.arrival(),
                answer.energy(),
                answer.estimate(),
                answer.choices().stream()
                        .map(choice -> new Forecast.Choice(
                                choice.way(),
                                choice.from(),
                                choice.atOnce(),
                                choice.below().stream()
                                        .filter(below -> own.contains(below.temperature()))
                                        .toList()))
                        .toList(),
                answer.remarks().stream().distinct().toList());
    }

    /** When the cone the plan aims for is down, where the firing goes on as an answer has it. */
    public static Optional<ConeDown> aimed(ForecastRequest request, Forecast answer) {
        Trace curve = request.curve();
        ForecastFan fan = ForecastFan.of(
                answer,
                curve.temperatureC(curve.size() - 1),
                request.ahead().map(ModelForecaster::ahead),
                request.thresholds().crack());
        return aimed(request, answer, fan);
    }

    private static boolean heats(Forecast answer) {
        return answer.stage() == Forecast.Stage.HEATING || answer.stage() == Forecast.Stage.HOLDING;
    }

    private static Optional<ExpectedCone> expected(ForecastRequest request, Forecast answer, ForecastFan fan) {
        Trace future = fan.probable();
        if (!heats(answer) || request.plan().isEmpty() || fan.isEmpty() || future.isEmpty()) {
            return Optional.empty();
        }
        ConeReached reached = request.work().goingOn(future).reached(request.sensor());
        return Optional.of(new ExpectedCone(reached.cone(), reached.between()));
    }

    private static Optional<ConeDown> aimed(ForecastRequest request, Forecast answer, ForecastFan fan) {
        return request.plan()
                .flatMap(Schedule::aimsFor)
                .flatMap(Cone::find)
                .filter(request.work().table().cones()::contains)
                .filter(cone -> heats(answer))
                .map(cone -> aimed(cone, request, answer, fan));
    }

    private static ConeDown aimed(Cone cone, ForecastRequest request, Forecast answer, ForecastFan fan) {
        double halfK = HeatWork.halfWidthK(
                request.work().table().series(),
                request.sensor(),
                request.work().table().temperature(cone).orElseThrow().celsius());
        boolean reaches = answer.arrival()
                .filter(arrival -> arrival.reaches() == Forecast.Reaches.YES)
                .isPresent();
        Optional<WaysAhead> ways = Optional.of(new WaysAhead(fan.probable(), fan.early(), fan.late()))
                .filter(its -> !fan.isEmpty() && !its.probable().isEmpty());
        if (!reaches) {
            ways = StalledClimb.of(request.curve(), answer)
                    .map(climb -> new WaysAhead(climb.probable(), climb.early(), climb.late()));
        }
        return ways.map(its -> its.down(cone, request.work(), halfK, request.askedMs()))
                .orElseGet(() -> ConeDown.unsaid(cone, ConeDown.WhyNot.WAY_NOT_KNOWN));
    }
}

package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast.Below;
import org.kilnside.thermal.Forecast.Reaches;
import org.kilnside.thermal.Forecast.Stage;
import org.kilnside.thermal.Forecast.TopsOut;
import org.kilnside.thermal.Forecast.When;

/**
 * A forecast as a curve with its nine-in-ten band, for a drawing. Made of the forecast's own times, so that the band
 * crosses a temperature exactly when the forecast says: asked with a {@link #ladder} of temperatures, it says when each
 * rung is passed at the earliest, probably, and at the latest. On the way up the plan's corners are stretched to the
 * arrival, and lie no higher than the kiln can go.
 */
public final class ForecastFan {
    /** More than this nobody sees. */
    private static final int GRID = 180;

    private static final int MOST_POINTS = 300;
    private static final int RUNGS = 40;

    /** Nearer than this to the top a kiln is there. */
    private static final double THERE_K = 4;

    private final List<Corner> probable;
    private final List<Corner> early;
    private final List<Corner> late;

    private ForecastFan(List<Corner> probable, List<Corner> early, List<Corner> late) {
        this.probable = probable;
        this.early = early;
        this.late = late;
    }

    /**
     * One moment of the future.
     *
     * @param elapsedMs on the recording's clock
     * @param medianC probably
     * @param lowC and {@code highC}: nine in ten lie between
     */
    public record Point(long elapsedMs, double medianC, double lowC, double highC) {}

    private record Corner(double timeS, double celsius) {}

    /** The temperatures to ask a forecast for, so that it can be drawn from the hottest to come down to the lowest. */
    public static List<Temperature> ladder(double hottestC, double lowestC) {
        List<Temperature> rungs = new ArrayList<>();
        double ratio = Math.max(1e-3, lowestC) / Math.max(hottestC, lowestC + 1);
        for (int rung = 0; rung < RUNGS; rung++) {
            // Denser at the hot end, where the curve bends most.
            double part = Math.pow((rung + 0.15) / RUNGS, 1.3);
            rungs.add(Temperature.ofCelsius(Math.max(hottestC, lowestC + 1) * Math.pow(ratio, part)));
        }
        return rungs;
    }

    /**
     * The fan of a forecast that was asked with a ladder.
     *
     * @param nowC the last reading
     * @param ahead what the plan still wants; empty corners once it lets the kiln cool
     */
    public static ForecastFan of(Forecast forecast, double nowC, Optional<PlanAhead> ahead) {
        return new ForecastFan(
                path(forecast, nowC, ahead, When::atS, TopsOut::at),
                path(forecast, nowC, ahead, When::fromS, TopsOut::to),
                path(forecast, nowC, ahead, When::toS, TopsOut::from));
    }

    /** Whether there is nothing to draw: the model knows no time of any kind. */
    public boolean isEmpty() {
        return probable.size() < 2 || early.size() < 2 || late.size() < 2;
    }

    /** The probable future as corners, the first after now. */
    public Trace probable() {
        Trace.Builder corners = new Trace.Builder();
        probable.stream().skip(1).forEach(corner -> corners.add(Math.round(corner.timeS * 1000), corner.celsius));
        return corners.view();
    }

    /** At most 300 points, rising in time. */
    public List<Point> points() {
        if (isEmpty()) {
            return List.of();
        }
        double fromS = probable.get(0).timeS;
        double toS = probable.get(probable.size() - 1).timeS;
        long[] times = Stream.concat(
                        Stream.iterate(0, i -> i + 1).limit(GRID + 1L).map(i -> fromS + (toS - fromS) * i / GRID),
                        probable.stream().map(Corner::timeS).limit(MOST_POINTS - GRID - 1L))
                .mapToLong(time -> Math.round(time * 1000))
                .sorted()
                .distinct()
                .toArray();
        List<Point> points = new ArrayList<>();
        for (long time : times) {
            double middle = at(probable, time / 1000.0);
            double one = at(early, time / 1000.0);
            double other = at(late, time / 1000.0);
            points.add(new Point(
                    time, middle, Math.min(middle, Math.min(one, other)), Math.max(middle, Math.max(one, other))));
        }
        return points;
    }

    private static double at(List<Corner> path, double timeS) {
        Corner before = path.get(0);
        for (Corner corner : path) {
            if (timeS <= corner.timeS) {
                double span = corner.timeS - before.timeS;
                double part = span <= 0 ? 1 : (timeS - before.timeS) / span;
                return before.celsius + (corner.celsius - before.celsius) * part;
            }
            before = corner;
        }
        return before.celsius;
    }

    private static List<Corner> path(
            Forecast forecast,
            double nowC,
            Optional<PlanAhead> ahead,
            ToDoubleFunction<When> time,
            java.util.function.Function<TopsOut, Temperature> top) {
        List<Corner> path = new ArrayList<>();
        path.add(new Corner(forecast.askedS(), nowC));
        if (forecast.stage() == Stage.COOLING) {
            ahead.ifPresent(
                    plan -> plan.corners().forEach(corner -> addAfter(path, corner.elapsedS(), corner.temperatureC())));
        } else {
            addHeating(path, forecast, nowC, ahead, time, top);
        }
        double lastC = path.get(path.size() - 1).celsius;
        for (Below rung : forecast.below()) {
            if (rung.when().isPresent() && rung.temperature().celsius() < lastC - 1) {
                addAfter(
                        path,
                        time.applyAsDouble(rung.when().get()),
                        rung.temperature().celsius());
            }
        }
        return path;
    }

    private static void addHeating(
            List<Corner> path,
            Forecast forecast,
            double nowC,
            Optional<PlanAhead> ahead,
            ToDoubleFunction<When> time,
            java.util.function.Function<TopsOut, Temperature> top) {
        if (forecast.arrival().isEmpty()) {
            return;
        }
        Forecast.Arrival arrival = forecast.arrival().get();
        double targetC = arrival.target().celsius();
        double nowS = forecast.askedS();
        List<PlanAhead.Corner> plan = ahead.map(PlanAhead::corners)
                .filter(corners -> !corners.isEmpty())
                .orElseGet(() -> arrival.when().stream()
                        .map(when -> new PlanAhead.Corner(when.atS(), targetC))
                        .toList());
        double capC = arrival.reaches() == Reaches.YES
                ? Double.POSITIVE_INFINITY
                : arrival.topsOut().map(highest -> top.apply(highest).celsius()).orElse(Double.POSITIVE_INFINITY);
        double plannedS = plan.stream()
                .filter(corner -> corner.temperatureC() >= targetC - THERE_K)
                .mapToDouble(PlanAhead.Corner::elapsedS)
                .findFirst()
                .orElse(Double.NaN);
        boolean stretches =
                nowC < targetC - THERE_K && plannedS > nowS && arrival.when().isPresent();
        double arrivesS = stretches ? time.applyAsDouble(arrival.when().get()) : plannedS;
        double beforeC = nowC;
        double beforeS = nowS;
        for (PlanAhead.Corner corner : plan) {
            double at = corner.elapsedS();
            if (stretches) {
                at = at <= plannedS
                        ? nowS + (at - nowS) * (arrivesS - nowS) / (plannedS - nowS)
                        : at + arrivesS - plannedS;
            }
            if (beforeC < capC && corner.temperatureC() > capC) {
                addAfter(path, beforeS + (at - beforeS) * (capC - beforeC) / (corner.temperatureC() - beforeC), capC);
            }
            addAfter(path, at, Math.min(capC, corner.temperatureC()));
            beforeS = at;
            beforeC = corner.temperatureC();
        }
    }

    private static void addAfter(List<Corner> path, double timeS, double celsius) {
        path.add(new Corner(Math.max(timeS, path.get(path.size() - 1).timeS), celsius));
    }
}

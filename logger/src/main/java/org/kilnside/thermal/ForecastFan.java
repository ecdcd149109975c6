package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast.Reaches;
import org.kilnside.thermal.Forecast.TopsOut;
import org.kilnside.thermal.Forecast.When;
import org.kilnside.thermal.Milestones.Milestone;

/**
 * A forecast as a curve with its nine-in-ten band, for a drawing. Made of the forecast's own times: asked with a
 * {@link #ladder} of temperatures, it says when each rung is passed at the earliest, probably, and at the latest. On the way up the plan's corners are stretched to the arrival, and lie no higher than
 * the kiln can go. At each moment the band holds all that a kiln between the earliest and the latest may be at: while one
 * may be at its top and another has left it, both.
 */
public final class ForecastFan {
    /** More than this nobody sees. */
    private static final int GRID = 150;

    private static final int MOST_POINTS = 300;
    private static final int RUNGS = 40;

    private final List<Milestone> way;
    private final boolean timed;
    private final double roomC;
    private final double fromS;
    private final double toS;
    private final double mostLowC;
    private final double mostC;
    private final double mostHighC;

    private ForecastFan(Forecast forecast, double nowC, Milestones milestones, Temperature askedFirst) {
        way = milestones.way();
        // A plan's own times are no forecast of a kiln that falls short of it: it would be drawn climbing as it cannot.
        timed = forecast.stage() == Forecast.Stage.COOLING
                || milestones.cools()
                || forecast.arrival().flatMap(Forecast.Arrival::when).isPresent();
        roomC = forecast.ambient().celsius();
        fromS = way.get(0).probableS();
        Milestone last = way.get(way.size() - 1);
        // Where nobody knows how it cools, nothing is known from when the earliest may have begun to.
        toS = milestones.cools() ? Math.max(last.probableS(), latestAt(askedFirst)) : last.earlyS();
        mostLowC = most(forecast, nowC, TopsOut::from);
        mostC = most(forecast, nowC, TopsOut::at);
        mostHighC = most(forecast, nowC, TopsOut::to);
    }

    /**
     * One moment of the future.
     *
     * @param elapsedMs on the recording's clock
     * @param medianC probably
     * @param lowC and {@code highC}: nine in ten lie between
     */
    public record Point(long elapsedMs, double medianC, double lowC, double highC) {}

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
     * @param exactFrom from here down the band crosses a temperature exactly when the forecast says
     */
    public static ForecastFan of(Forecast forecast, double nowC, Optional<PlanAhead> ahead, Temperature exactFrom) {
        return new ForecastFan(forecast, nowC, Milestones.of(forecast, nowC, ahead, exactFrom), exactFrom);
    }

    /** A temperature the plan leads a kiln by, and when it is there. */
    public record Passage(double celsius, When when) {}

    /**
     * The fan of a kiln not yet lit.
     *
     * @param led where the plan leads it from the lighting until it lets it cool, in order
     */
    public static ForecastFan beforeLighting(Forecast forecast, double nowC, List<Passage> led, Temperature exactFrom) {
        return new ForecastFan(forecast, nowC, Milestones.along(forecast, nowC, led, exactFrom), exactFrom);
    }

    /** Whoever reads how late it may be below the first temperature a person asks for finds that in the drawing. */
    private double latestAt(Temperature asked) {
        return way.stream()
                .filter(each -> each.celsius() >= asked.celsius())
                .mapToDouble(Milestone::lateS)
                .reduce(fromS, (before, next) -> next);
    }

    private static double most(Forecast forecast, double nowC, Function<TopsOut, Temperature> which) {
        return forecast.arrival()
                .filter(arrival -> forecast.stage() != Forecast.Stage.COOLING && arrival.reaches() != Reaches.YES)
                .flatMap(Forecast.Arrival::topsOut)
                .map(highest -> Math.max(nowC, which.apply(highest).celsius()))
                .orElse(Double.POSITIVE_INFINITY);
    }

    /** Whether there is nothing to draw: the model knows no time of any kind. */
    public boolean isEmpty() {
        return way.size() < 2 || !timed;
    }

    /** The probable future as corners, the first after now. */
    public Trace probable() {
        return corners(Milestone::probableS, mostC);
    }

    /** The same where it is as early and as hot as may be. */
    public Trace early() {
        return corners(Milestone::earlyS, mostHighC);
    }

    /** The same where it is as late and as cold as may be. */
    public Trace late() {
        return corners(Milestone::lateS, mostLowC);
    }

    private Trace corners(ToDoubleFunction<Milestone> when, double highestC) {
        Trace.Builder corners = new Trace.Builder();
        for (int i = 1; i < way.size(); i++) {
            Milestone before = way.get(i - 1);
            Milestone next = way.get(i);
            double beforeS = when.applyAsDouble(before);
            double nextS = when.applyAsDouble(next);
            if ((before.celsius() - highestC) * (next.celsius() - highestC) < 0) {
                double part = (highestC - before.celsius()) / (next.celsius() - before.celsius());
                corners.add(Math.round((beforeS + part * (nextS - beforeS)) * 1000), highestC);
            }
            corners.add(Math.round(nextS * 1000), Math.min(highestC, next.celsius()));
        }
        return corners.view();
    }

    /** At most 300 points, rising in time. */
    public List<Point> points() {
        if (isEmpty()) {
            return List.of();
        }
        DoubleStream grid = IntStream.rangeClosed(0, GRID).mapToDouble(i -> fromS + (toS - fromS) * i / GRID);
        DoubleStream corners = way.stream()
                .flatMapToDouble(each -> DoubleStream.of(each.earlyS(), each.probableS(), each.lateS()))
                .filter(time -> time > fromS && time < toS)
                .limit(MOST_POINTS - GRID - 1L);
        return DoubleStream.concat(grid, corners)
                .mapToLong(time -> Math.round(time * 1000))
                .sorted()
                .distinct()
                .mapToObj(this::point)
                .toList();
    }

    private Point point(long elapsedMs) {
        double time = elapsedMs / 1000.0;
        double middle = at(Milestone::probableS, time);
        double early = at(Milestone::earlyS, time);
        double late = at(Milestone::lateS, time);
        double low = Math.min(middle, Math.min(early, late));
        double high = Math.max(middle, Math.max(early, late));
        for (Milestone each : way) {
            if (each.earlyS() <= time && time <= each.lateS()) {
                low = Math.min(low, each.celsius());
                high = Math.max(high, each.celsius());
            }
        }
        return new Point(elapsedMs, Math.min(mostC, middle), Math.min(mostLowC, low), Math.min(mostHighC, high));
    }

    private double at(ToDoubleFunction<Milestone> when, double timeS) {
        Milestone before = way.get(0);
        for (Milestone next : way) {
            if (timeS <= when.applyAsDouble(next)) {
                double span = when.applyAsDouble(next) - when.applyAsDouble(before);
                double part = span <= 0 ? 1 : (timeS - when.applyAsDouble(before)) / span;
                return before.celsius() + (next.celsius() - before.celsius()) * part;
            }
            before = next;
        }
        return beyond(when, timeS);
    }

    /** Under the last rung it goes on towards the room as it came by the last two. */
    private double beyond(ToDoubleFunction<Milestone> when, double timeS) {
        Milestone last = way.get(way.size() - 1);
        Milestone before = way.get(way.size() - 2);
        double span = when.applyAsDouble(last) - when.applyAsDouble(before);
        if (span <= 0 || last.celsius() <= roomC || before.celsius() <= last.celsius()) {
            return last.celsius();
        }
        double shrinks = Math.log((before.celsius() - roomC) / (last.celsius() - roomC)) / span;
        return roomC + (last.celsius() - roomC) * Math.exp(-shrinks * (timeS - when.applyAsDouble(last)));
    }
}

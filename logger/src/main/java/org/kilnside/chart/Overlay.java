package org.kilnside.chart;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.tracking.FiringFigures;
import org.kilnside.tracking.PlanPosition.PlanPoint;

/**
 * One or several firings on one drawing.
 *
 * @param lines the firings, the one that was opened first
 * @param plan the first one's plan laid over it, in the drawing's time; empty without one
 * @param zero the wall clock at the drawing's zero: axes then show the time of day, else the time since the zero
 * @param commonC where all lines cross at the drawing's zero, °C; empty when they are laid over each other otherwise
 * @param markMs a moment to be marked, in the drawing's time
 * @param quartz whether the quartz inversion at 573 °C is marked
 */
public record Overlay(
        List<Line> lines,
        List<PlanPoint> plan,
        Optional<Instant> zero,
        OptionalDouble commonC,
        OptionalLong markMs,
        boolean quartz) {
    public static final Overlay EMPTY =
            new Overlay(List.of(), List.of(), Optional.empty(), OptionalDouble.empty(), OptionalLong.empty(), false);

    /** As many firings as can be told apart on one drawing. */
    public static final int MOST_LINES = 10;

    public Overlay {
        lines = List.copyOf(lines);
        plan = List.copyOf(plan);
    }

    /**
     * A firing.
     *
     * @param name short, to stand at the line
     * @param shiftMs what is added to the recording's time, so that the drawing's zero lies where it is wanted
     */
    public record Line(String name, CurveLevels levels, long shiftMs) {}

    /** The span of all there is to see, ms of the drawing. */
    public TimeSpan whole() {
        long from = Long.MAX_VALUE;
        long to = Long.MIN_VALUE;
        for (Line line : lines) {
            Trace curve = line.levels().curve();
            if (!curve.isEmpty()) {
                from = Math.min(from, curve.elapsedMs(0) + line.shiftMs());
                to = Math.max(to, curve.elapsedMs(curve.size() - 1) + line.shiftMs());
            }
        }
        for (PlanPoint corner : plan) {
            from = Math.min(from, corner.elapsedMs());
            to = Math.max(to, corner.elapsedMs());
        }
        if (from > to) {
            return new TimeSpan(0, TimeSpan.SHORTEST_MS);
        }
        long margin = Math.max(TimeSpan.SHORTEST_MS - (to - from), (to - from) / 40);
        return new TimeSpan(from, to + margin);
    }

    /** What a firing had at a moment of the drawing; empty in a gap and outside it. */
    public Optional<Temperature> at(Line line, long timeMs) {
        Trace curve = line.levels().curve();
        long elapsedMs = timeMs - line.shiftMs();
        int before = curve.indexAt(elapsedMs);
        if (before < 0 || elapsedMs - curve.elapsedMs(before) > FiringFigures.gapLimitMs(curve)) {
            return Optional.empty();
        }
        return Optional.of(Temperature.ofCelsius(curve.temperatureC(before)));
    }

    /** What the plan asks at a moment of the drawing; empty outside it. */
    public Optional<Temperature> plannedAt(long timeMs) {
        return Readout.planned(timeMs, plan);
    }

    /** The same with a moment marked. */
    public Overlay marking(OptionalLong timeMs) {
        return new Overlay(lines, plan, zero, commonC, timeMs, quartz);
    }
}

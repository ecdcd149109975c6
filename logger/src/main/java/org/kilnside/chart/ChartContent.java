package org.kilnside.chart;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.kilnside.firing.Trace;
import org.kilnside.session.LiveForecast;
import org.kilnside.session.Snapshot;
import org.kilnside.thermal.ForecastFan;
import org.kilnside.tracking.PlanPosition;
import org.kilnside.tracking.PlanPosition.PlanPoint;

/**
 * What one drawing shows.
 *
 * @param curve what the kiln did
 * @param plan the plan laid over it; empty without one
 * @param fan what is to come, with the band nine in ten lie in; empty where nobody knows
 * @param nowMs this moment on the recording's clock; empty for a firing that is over
 * @param zero the wall clock at the recording's zero: axes then show the time of day, else the time since the begin
 * @param quartz whether the quartz inversion at 573 °C is marked
 * @param peakMs when the peak was, to be marked; empty while it is still rising
 * @param across words laid across the drawing, where what it shows is not a real kiln now
 */
public record ChartContent(
        Trace curve,
        List<PlanPoint> plan,
        List<ForecastFan.Point> fan,
        OptionalLong nowMs,
        Optional<Instant> zero,
        boolean quartz,
        OptionalLong peakMs,
        Optional<String> across) {
    /** Quartz inversion, °C, heating and cooling alike. */
    public static final double QUARTZ_C = 573;

    public static final ChartContent EMPTY = new ChartContent(
            Trace.EMPTY,
            List.of(),
            List.of(),
            OptionalLong.empty(),
            Optional.empty(),
            false,
            OptionalLong.empty(),
            Optional.empty());

    public ChartContent {
        plan = List.copyOf(plan);
        fan = List.copyOf(fan);
    }

    /**
     * What a snapshot shows.
     *
     * @param nowMs this moment on the recording's clock; empty when the firing is over
     * @param timeOfDay whether axes show the time of day
     */
    public static ChartContent of(
            Snapshot snapshot, OptionalLong nowMs, boolean timeOfDay, boolean quartz, Optional<String> across) {
        boolean past = snapshot.stage() == Snapshot.Stage.COOLING || snapshot.stage() == Snapshot.Stage.ENDED;
        return new ChartContent(
                snapshot.curve(),
                snapshot.position().map(PlanPosition::aligned).orElse(List.of()),
                nowMs.isEmpty() || snapshot.findings().isDistrusted()
                        ? List.of()
                        : snapshot.findings().forecast().map(LiveForecast::fan).orElse(List.of()),
                nowMs,
                // The axis counts on from one zero: right at the newest reading, where people look and plan ahead.
                timeOfDay
                        ? snapshot.latest().flatMap(latest -> snapshot.zeroFor(latest.elapsedMs()))
                        : Optional.empty(),
                quartz,
                past && snapshot.peak().isPresent()
                        ? OptionalLong.of(snapshot.peak().get().elapsedMs())
                        : OptionalLong.empty(),
                across);
    }

    /** The span of all there is to see, past and planned, ms. */
    public TimeSpan whole() {
        long from = Long.MAX_VALUE;
        long to = Long.MIN_VALUE;
        if (!curve.isEmpty()) {
            from = curve.elapsedMs(0);
            to = curve.elapsedMs(curve.size() - 1);
        }
        if (!plan.isEmpty()) {
            from = Math.min(from, plan.get(0).elapsedMs());
            to = Math.max(to, plan.get(plan.size() - 1).elapsedMs());
        }
        if (!fan.isEmpty()) {
            // It comes down to where the ware is unloaded, and so does the drawing.
            to = Math.max(to, fan.get(fan.size() - 1).elapsedMs());
        }
        if (nowMs.isPresent()) {
            to = Math.max(to, nowMs.getAsLong());
        }
        if (from > to) {
            return new TimeSpan(0, TimeSpan.SHORTEST_MS);
        }
        long margin = Math.max(TimeSpan.SHORTEST_MS - (to - from), (to - from) / 40);
        return new TimeSpan(from, to + margin);
    }
}

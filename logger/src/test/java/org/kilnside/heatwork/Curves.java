package org.kilnside.heatwork;

import java.util.function.LongToDoubleFunction;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Trace;
import org.kilnside.sensor.SensorUncertainty;

/** Curves made for tests: straight ramps and holds, sampled as asked, and the cone they come to. */
final class Curves {
    private final Trace.Builder corners = new Trace.Builder();
    private long atMs;
    private double atC;

    private Curves(double fromC) {
        atC = fromC;
        corners.add(0, fromC);
    }

    static Curves from(double celsius) {
        return new Curves(celsius);
    }

    Curves ramp(double kelvinPerHour, double toC) {
        atMs += Math.round(Math.abs(toC - atC) / kelvinPerHour * 3_600_000);
        atC = toC;
        corners.add(atMs, toC);
        return this;
    }

    Curves hold(double minutes) {
        atMs += Math.round(minutes * 60_000);
        corners.add(atMs, atC);
        return this;
    }

    /** The corners alone. */
    Trace corners() {
        return corners.view();
    }

    /** The curve sampled at an interval. */
    Trace every(long intervalMs) {
        return every(intervalMs, at -> 0);
    }

    /** The curve sampled at an interval with something added to each reading. */
    Trace every(long intervalMs, LongToDoubleFunction added) {
        Trace line = corners.view();
        Trace.Builder samples = new Trace.Builder();
        int leg = 0;
        for (long at = 0; at <= atMs; at += intervalMs) {
            while (leg + 2 < line.size() && line.elapsedMs(leg + 1) <= at) {
                leg++;
            }
            long fromMs = line.elapsedMs(leg);
            double share = (double) (at - fromMs) / (line.elapsedMs(leg + 1) - fromMs);
            double celsius = line.temperatureC(leg) + share * (line.temperatureC(leg + 1) - line.temperatureC(leg));
            samples.add(at, celsius + added.applyAsDouble(at));
        }
        return samples.view();
    }

    /** A curve without the readings of a stretch. */
    static Trace without(Trace curve, long fromMs, long toMs) {
        Trace.Builder left = new Trace.Builder();
        for (int i = 0; i < curve.size(); i++) {
            if (curve.elapsedMs(i) <= fromMs || curve.elapsedMs(i) >= toMs) {
                left.add(curve.elapsedMs(i), curve.temperatureC(i));
            }
        }
        return left.view();
    }

    /** What a curve comes to by self-supporting cones, its sensor's error left out. */
    static ConeReached reached(Trace curve) {
        return work(curve).reached(SensorUncertainty.UNKNOWN);
    }

    /** The same in whole cones. */
    static double steps(Trace curve) {
        return steps(work(curve));
    }

    static double steps(HeatWork work) {
        return work.reached(SensorUncertainty.UNKNOWN).cone().steps().orElseThrow();
    }

    private static HeatWork work(Trace curve) {
        return HeatWork.of(ConeTable.of(ConeSeries.SELF_SUPPORTING), curve);
    }
}

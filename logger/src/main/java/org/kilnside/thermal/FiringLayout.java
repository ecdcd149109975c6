package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/** Lays a course out for the model: the drive in steps it can take, and the free spans as points to hold it against. */
final class FiringLayout {
    /** Points a fit holds the cooling against, at most: more would only repeat the model's own error. */
    private static final int MOST_POINTS = 60;

    /** A reading at the end of one stretch belongs to the next. */
    private static final double BETWEEN_S = 1e-3;

    private static final double CLOSEST_POINTS_S = 120;
    private static final double SHORTEST_FREE_S = 240;

    /**
     * After the elements go off the sensor, the elements and the hot face settle: what it says then drives the wall but is
     * not held against the model, and the chamber runs free only from there. Twenty-five minutes, of a shorter cooling a part
     * (own trials: what the ware and its furniture still give and take just after the top is no model's of two lumps).
     */
    static final double SETTLING_S = 1500;

    private static final double SETTLING_PART = 0.45;

    /** Weight of the newest point: the model's error along a cooling, not the sensor's noise; more of it where hotter. */
    private static final double SIGMA_AT_600_K = 0.55;

    private static final double LEAST_SIGMA_K = 0.35;

    /** What lies further up counts less: by this many kelvin of cooling its weight has halved. */
    private static final double HALVES_IN_K = 120;

    private final Course course;
    private final double roomC;
    private final double nowC;
    private final List<Double> times = new ArrayList<>();
    private final List<Double> temperatures = new ArrayList<>();
    private final List<FiringData.FreeSpan> free = new ArrayList<>();
    private double atS;

    private FiringLayout(Course course, double roomC, double nowC) {
        this.course = course;
        this.roomC = roomC;
        this.nowC = nowC;
        atS = course.timeS[0];
        add(atS, course.temperatureC[0]);
    }

    /**
     * Lays out a course.
     *
     * @param roomC about as warm as the room is
     * @param nowC the smoothed temperature at its end
     * @param freeFromS since when the kiln has been left to itself; the beginning where it is not
     */
    static FiringLayout of(
            Course course, List<Phases.Span> spans, LastSpan lastSpan, double roomC, double nowC, double freeFromS) {
        FiringLayout layout = new FiringLayout(course, roomC, nowC);
        double total = 0;
        for (Phases.Span span : spans) {
            total += course.timeS[span.to()] - course.timeS[span.from()];
        }
        for (Phases.Span span : spans) {
            double begin = course.timeS[span.from()];
            double end = course.timeS[span.to()];
            layout.driveTo(begin, Math.max(course.timeS[0], begin - 600), begin);
            boolean last = span == spans.get(spans.size() - 1);
            double from = begin;
            boolean opened = false;
            for (LastSpan.Part part : last ? lastSpan.parts() : List.<LastSpan.Part>of()) {
                layout.addFree(from, part.fromS(), total, opened);
                layout.driveTo(part.fromS(), from, part.fromS());
                from = part.fromS();
                opened = part.opened();
            }
            layout.addFree(from, end, total, opened);
            if (!last) {
                layout.driveTo(end, begin, end);
            }
        }
        double now = course.lastS();
        layout.driveTo(now, freeFromS, now);
        layout.temperatures.set(layout.temperatures.size() - 1, nowC);
        return layout;
    }

    double[] driveS() {
        return times.stream().mapToDouble(Double::doubleValue).toArray();
    }

    double[] driveC() {
        return temperatures.stream().mapToDouble(Double::doubleValue).toArray();
    }

    List<FiringData.FreeSpan> free() {
        return free;
    }

    private void add(double time, double celsius) {
        times.add(time);
        temperatures.add(celsius);
    }

    /** Adds the drive up to a time in equal steps, no longer than a driven step may be. */
    private void driveTo(double to, double smoothFrom, double smoothTo) {
        double from = atS;
        if (to <= from) {
            return;
        }
        int steps = (int) Math.max(1, Math.ceil((to - from) / WallSlab.DRIVEN_STEP_S));
        for (int i = 1; i <= steps; i++) {
            double at = from + (to - from) * i / steps;
            add(at, i == steps ? course.smoothAt(at, Math.max(smoothFrom, at - 300), smoothTo) : driven(at));
        }
        atS = to;
    }

    private double driven(double at) {
        return course.inGap(at) ? course.inGapC(at, roomC) : course.smoothAt(at, at - 120, at + 120);
    }

    private void addFree(double begin, double end, double totalS, boolean opened) {
        if (end - begin < SHORTEST_FREE_S) {
            return;
        }
        int most = (int) Math.max(4, MOST_POINTS * (end - begin) / totalS);
        double settled = Math.min(begin + SETTLING_S, begin + (end - begin) * SETTLING_PART);
        // What nobody recorded just after the top may have been more heating: the chamber runs free after it.
        double from = Math.max(settled, course.afterGaps(begin, settled));
        if (end - from < SHORTEST_FREE_S / 2) {
            return;
        }
        driveTo(from, begin, from);
        temperatures.set(temperatures.size() - 1, course.bentAt(from, begin, end));
        int count = (int) Math.min(most, Math.max(4, (end - from) / CLOSEST_POINTS_S));
        double[] time = IntStream.rangeClosed(1, count)
                .mapToDouble(i -> from + (end - from) * i / count)
                .filter(at -> !course.inGap(at))
                .toArray();
        double[] temperature = new double[time.length];
        double[] model = new double[time.length];
        int[] readings = new int[time.length];
        double apart = (end - from) / count;
        double modelNowK = Math.max(LEAST_SIGMA_K, SIGMA_AT_600_K * Math.pow(Math.max(0, nowC) / 600, 1.5));
        for (int i = 0; i < time.length; i++) {
            // Each point stands for its own stretch alone: readings shared by neighbours would seem to agree.
            Course.Line stretch = course.line(time[i] - apart, time[i] - BETWEEN_S);
            if (stretch.points() > 1) {
                time[i] = stretch.middleS();
                temperature[i] = stretch.meanC();
            } else {
                temperature[i] = course.temperatureAt(time[i]);
            }
            readings[i] = Math.max(1, stretch.points());
            model[i] = modelNowK * (1 + Math.max(0, temperature[i] - nowC) / HALVES_IN_K);
        }
        free.add(new FiringData.FreeSpan(
                times.size() - 1, time, temperature, model, readings, course.noiseK(from, end), opened));
    }
}

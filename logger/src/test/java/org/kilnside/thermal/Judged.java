package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;

/** Errors, coverage and width of forecasts over many kilns, beside what simple extrapolation makes of the same logs. */
final class Judged {
    static final double[] ASKED_AT_C = {800, 600, 400, 200};
    static final double[] THRESHOLDS_C = {200, 120, 60};

    /** One question put to one kiln. */
    record Case(
            double askedAtC,
            double thresholdC,
            double error,
            boolean held,
            double halfWidth,
            double lastHour,
            double powerLaw,
            double slab) {}

    /** One kiln with what is remembered of it. */
    record Kiln(Tried firing, KilnMemory memory) {}

    /** What was said of the room: as it was at lighting, by turns 8 °C too warm and too cold, or nothing. */
    enum Room {
        TOLD,
        TOLD_WRONG,
        UNTOLD
    }

    private static final double WRONG_K = 8;

    private final List<Case> cases = new ArrayList<>();

    /** Asks on the way down, elements off for at least ten minutes. */
    static Judged of(List<Kiln> kilns, boolean withOutput, Room room) {
        Judged judged = new Judged();
        double wrong = WRONG_K;
        for (Kiln kiln : kilns) {
            Tried firing = kiln.firing();
            for (double askedAtC : ASKED_AT_C) {
                double asked = firing.belowS(askedAtC);
                if (asked > firing.offS() + 600) {
                    judged.ask(kiln, askedAtC, asked, withOutput, saidOf(room, firing.roomC(), wrong));
                }
            }
            wrong = -wrong;
        }
        return judged;
    }

    private static OptionalDouble saidOf(Room room, double roomC, double wrongK) {
        return switch (room) {
            case TOLD -> OptionalDouble.of(roomC);
            case TOLD_WRONG -> OptionalDouble.of(roomC + wrongK);
            case UNTOLD -> OptionalDouble.empty();
        };
    }

    private void ask(Kiln kiln, double askedAtC, double asked, boolean withOutput, OptionalDouble roomC) {
        Tried firing = kiln.firing();
        Trace log = firing.until(asked, withOutput);
        ForecastQuestion question = ForecastQuestion.about(log).withMemory(kiln.memory());
        if (roomC.isPresent()) {
            question = question.withAmbient(Temperature.ofCelsius(roomC.getAsDouble()));
        }
        Forecast forecast = Forecaster.forecast(question);
        double[] slab = new PlainSlab(log, firing.offS(), firing.roomC()).remainingS(asked, THRESHOLDS_C);
        for (int i = 0; i < THRESHOLDS_C.length; i++) {
            double truth = firing.belowS(THRESHOLDS_C[i]);
            if (THRESHOLDS_C[i] >= askedAtC || Double.isNaN(truth)) {
                continue;
            }
            double thresholdC = THRESHOLDS_C[i];
            double left = truth - asked;
            double lastHour = lastHour(log, firing.roomC(), asked, THRESHOLDS_C[i]) / left - 1;
            double powerLaw = powerLaw(log, firing.roomC(), firing.offS(), asked, THRESHOLDS_C[i]) / left - 1;
            double plain = slab[i] / left - 1;
            forecast.below()
                    .get(i)
                    .when()
                    .ifPresentOrElse(
                            when -> cases.add(new Case(
                                    askedAtC,
                                    thresholdC,
                                    (when.atS() - asked) / left - 1,
                                    when.fromS() <= truth && truth <= when.toS(),
                                    (when.toS() - when.fromS()) / 2 / left,
                                    lastHour,
                                    powerLaw,
                                    plain)),
                            () -> cases.add(new Case(askedAtC, Double.NaN, 9, false, 9, lastHour, powerLaw, plain)));
        }
    }

    /** Naive: T − room falls on as an exponential through the last hour does. */
    private static double lastHour(Trace log, double roomC, double asked, double thresholdC) {
        double[] line = line(log, asked - 3600, asked, t -> t, celsius -> Math.log(Math.max(0.5, celsius - roomC)));
        return (Math.log(Math.max(0.5, thresholdC - roomC)) - line[0]) / line[1] - asked;
    }

    /** Naive: the rate is a power of T − room, as over the last 2.5 h, and stays one. */
    private static double powerLaw(Trace log, double roomC, double offS, double asked, double thresholdC) {
        double from = Math.max(offS + 300, asked - 9000);
        Course course = Course.of(log);
        List<double[]> points = new ArrayList<>();
        for (double t = from; t + 300 <= asked; t += 150) {
            Course.Line line = course.line(t, t + 300);
            if (line.slopeKS() < 0 && line.meanC() > roomC + 1) {
                points.add(new double[] {Math.log(line.meanC() - roomC), Math.log(-line.slopeKS())});
            }
        }
        double n = points.size();
        double mx = points.stream().mapToDouble(p -> p[0]).sum() / n;
        double my = points.stream().mapToDouble(p -> p[1]).sum() / n;
        double sxx = points.stream().mapToDouble(p -> (p[0] - mx) * (p[0] - mx)).sum();
        double sxy = points.stream().mapToDouble(p -> (p[0] - mx) * (p[1] - my)).sum();
        double power = sxy / sxx;
        double time = 0;
        double celsius = log.temperatureC(log.size() - 1);
        while (celsius > thresholdC && time < 400 * 3600) {
            celsius -= 60 * Math.exp(my + power * (Math.log(Math.max(0.5, celsius - roomC)) - mx));
            time += 60;
        }
        return time;
    }

    private static double[] line(
            Trace log,
            double fromS,
            double toS,
            java.util.function.DoubleUnaryOperator x,
            java.util.function.DoubleUnaryOperator y) {
        double n = 0;
        double sx = 0;
        double sy = 0;
        double sxx = 0;
        double sxy = 0;
        for (int i = 0; i < log.size(); i++) {
            double t = log.elapsedMs(i) / 1000.0;
            if (t >= fromS && t <= toS) {
                double u = x.applyAsDouble(t);
                double v = y.applyAsDouble(log.temperatureC(i));
                n++;
                sx += u;
                sy += v;
                sxx += u * u;
                sxy += u * v;
            }
        }
        double slope = (n * sxy - sx * sy) / (n * sxx - sx * sx);
        return new double[] {(sy - slope * sx) / n, slope};
    }

    List<Case> cases(double askedAtC, double thresholdC) {
        return cases.stream()
                .filter(each -> each.askedAtC() == askedAtC && each.thresholdC() == thresholdC)
                .toList();
    }

    double unanswered() {
        return cases.stream().filter(each -> Double.isNaN(each.thresholdC())).count();
    }

    /** Part of all intervals that held the truth. */
    double coverage() {
        return cases.stream().filter(Case::held).count() / (double) cases.size();
    }

    static double quantile(List<Double> values, double part) {
        double[] sorted = values.stream().mapToDouble(Math::abs).sorted().toArray();
        if (sorted.length == 0) {
            return Double.NaN;
        }
        double place = part * (sorted.length - 1);
        int below = (int) place;
        return below + 1 < sorted.length
                ? sorted[below] + (place - below) * (sorted[below + 1] - sorted[below])
                : sorted[below];
    }

    /** Markdown rows: asked × threshold. */
    List<String> rows(String label) {
        List<String> rows = new ArrayList<>();
        for (double askedAtC : ASKED_AT_C) {
            for (double thresholdC : THRESHOLDS_C) {
                List<Case> found = cases(askedAtC, thresholdC);
                if (found.isEmpty()) {
                    continue;
                }
                double[] halves =
                        found.stream().mapToDouble(Case::halfWidth).sorted().toArray();
                rows.add(String.format(
                        Locale.ROOT,
                        "| %s | %.0f °C | %.0f °C | %d | %.1f / %.1f %% | %.0f %% | %.1f %% | %.1f / %.1f %% | %.0f / %.0f %% | %.0f / %.0f %% |",
                        label,
                        askedAtC,
                        thresholdC,
                        found.size(),
                        100 * quantile(found.stream().map(Case::error).toList(), 0.5),
                        100 * quantile(found.stream().map(Case::error).toList(), 0.9),
                        100.0 * found.stream().filter(Case::held).count() / found.size(),
                        100 * halves[halves.length / 2],
                        100 * quantile(found.stream().map(Case::slab).toList(), 0.5),
                        100 * quantile(found.stream().map(Case::slab).toList(), 0.9),
                        100 * quantile(found.stream().map(Case::lastHour).toList(), 0.5),
                        100 * quantile(found.stream().map(Case::lastHour).toList(), 0.9),
                        100 * quantile(found.stream().map(Case::powerLaw).toList(), 0.5),
                        100 * quantile(found.stream().map(Case::powerLaw).toList(), 0.9)));
            }
        }
        return rows;
    }

    static List<String> head() {
        return Arrays.asList(
                "| kilns | asked at | for | cases | error, median / 90th | held by the interval | its half-width |"
                        + " plain slab | exponential through the last hour | rate as a power of T − room through 2.5 h |",
                "| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |");
    }
}

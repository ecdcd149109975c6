package org.kilnside.command;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import org.kilnside.files.FileRefusedException;
import org.kilnside.files.Log;
import org.kilnside.firing.Channel;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.GoodReadings;
import org.kilnside.firing.Origin;
import org.kilnside.firing.Reading;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.RawSignal;

/** A log's rows as the readings they were. */
final class LogReadings {
    /** Rows without a temperature for less than this are a logger's habit, or a spoilt line, and no sensor that is gone. */
    private static final long BLIND_LEAST_MS = 30_000;

    private LogReadings() {}

    /**
     * The true readings of a log.
     *
     * @param truth its curve, corrected
     * @throws FileRefusedException when hardly one of them can be a kiln's
     */
    static GoodReadings good(Trace truth, Path path) {
        GoodReadings good = GoodReadings.of(truth);
        if (good.curve().size() < 2) {
            throw new FileRefusedException(
                    FileRefusedException.Problem.of(
                            path.toString(),
                            "found " + good.curve().size() + " of its " + truth.size()
                                    + " readings that can be a kiln's, expected at least 2; the others contradict one another: check the file"));
        }
        return good;
    }

    /**
     * All rows as readings, their time counted from the first good one. A stretch of rows without a temperature is what
     * it was live: a controller that speaks and whose sensor gives nothing.
     */
    static List<Reading> asTheyCame(Log log) {
        List<Reading> readings = of(log);
        List<Reading> blind = blind(log);
        if (!blind.isEmpty()) {
            readings.addAll(blind);
            readings.sort(Comparator.comparingLong(Reading::elapsedMs));
        }
        return readings;
    }

    private static List<Reading> blind(Log log) {
        Trace trace = log.trace();
        long zeroMs = trace.elapsedMs(0);
        List<Reading> readings = new ArrayList<>();
        for (long ms : log.withoutTemperature()) {
            int before = trace.indexAt(ms);
            if (before < 0) {
                continue;
            }
            long endsMs = before + 1 < trace.size() ? trace.elapsedMs(before + 1) : Long.MAX_VALUE;
            if (endsMs - trace.elapsedMs(before) >= BLIND_LEAST_MS && ms > trace.elapsedMs(before)) {
                RawSignal nothing = new RawSignal(OptionalInt.empty(), OptionalInt.empty(), 0);
                readings.add(Reading.of(
                        ms - zeroMs,
                        List.of(new Channel(1, nothing, Optional.empty(), Optional.empty())),
                        new ControllerReport(Optional.empty(), Optional.empty(), OptionalInt.empty()),
                        Origin.IMPORTED));
            }
        }
        return readings;
    }

    /** The usual time from one row to the next, ms: the middle one. */
    static long usualIntervalMs(Trace trace) {
        long[] steps = IntStream.range(1, trace.size())
                .mapToLong(i -> trace.elapsedMs(i) - trace.elapsedMs(i - 1))
                .sorted()
                .toArray();
        return steps.length == 0 ? 0 : steps[steps.length / 2];
    }

    /** The rows with a temperature as readings, their time counted from the first. */
    static List<Reading> of(Log log) {
        Trace trace = log.trace();
        long zeroMs = trace.elapsedMs(0);
        double stepC = Amplifier.CELSIUS.thermocoupleStepC();
        List<Reading> readings = new ArrayList<>(trace.size());
        for (int i = 0; i < trace.size(); i++) {
            int code = (int) Math.round(trace.temperatureC(i) / stepC);
            Optional<Temperature> coldJunction = log.coldJunction().celsius(i).isPresent()
                    ? Optional.of(
                            Temperature.ofCelsius(log.coldJunction().celsius(i).getAsDouble()))
                    : Optional.empty();
            OptionalInt coldCode = coldJunction
                    .map(cold -> OptionalInt.of((int) Math.round(cold.celsius() / stepC)))
                    .orElse(OptionalInt.empty());
            Channel channel = new Channel(
                    1,
                    new RawSignal(OptionalInt.of(code), coldCode, 0),
                    Optional.of(Temperature.ofCelsius(code * stepC)),
                    coldJunction);
            readings.add(Reading.of(trace.elapsedMs(i) - zeroMs, List.of(channel), report(trace, i), Origin.IMPORTED));
        }
        return readings;
    }

    private static ControllerReport report(Trace trace, int index) {
        return new ControllerReport(
                trace.output(index).isPresent()
                        ? Optional.of(new Share(trace.output(index).getAsDouble()))
                        : Optional.empty(),
                trace.setpointC(index).isPresent()
                        ? Optional.of(
                                Temperature.ofCelsius(trace.setpointC(index).getAsDouble()))
                        : Optional.empty(),
                OptionalInt.empty());
    }
}

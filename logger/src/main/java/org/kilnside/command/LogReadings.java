package org.kilnside.command;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.kilnside.files.Log;
import org.kilnside.firing.Channel;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.Origin;
import org.kilnside.firing.Reading;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.RawSignal;

/** A log's rows as the readings they were. */
final class LogReadings {
    private LogReadings() {}

    /** The log's rows as readings, their time counted from the first. */
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

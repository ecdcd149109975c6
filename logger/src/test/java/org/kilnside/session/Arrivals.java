package org.kilnside.session;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.kilnside.firing.Channel;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.Origin;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.RawSignal;

/** Readings as they come off a wire, for tests. */
final class Arrivals {
    private Arrivals() {}

    static ReadingSource.Arrival measured(long uptimeMs, long hostMs, double celsius) {
        return arrival(uptimeMs, hostMs, celsius, Origin.LIVE, ControllerReport.NONE);
    }

    static ReadingSource.Arrival kept(long uptimeMs, long hostMs, double celsius) {
        return arrival(uptimeMs, hostMs, celsius, Origin.FILLED_IN, ControllerReport.NONE);
    }

    static ReadingSource.Arrival measured(long uptimeMs, long hostMs, double celsius, double output, double setpointC) {
        return arrival(
                uptimeMs,
                hostMs,
                celsius,
                Origin.LIVE,
                new ControllerReport(
                        Optional.of(new Share(output)),
                        Optional.of(Temperature.ofCelsius(setpointC)),
                        OptionalInt.empty()));
    }

    static ReadingSource.Arrival faulted(long uptimeMs, long hostMs, int faultBits) {
        return new ReadingSource.Arrival(
                OptionalLong.of(uptimeMs),
                OptionalInt.empty(),
                List.of(new Channel(
                        1,
                        new RawSignal(OptionalInt.empty(), OptionalInt.of(400), faultBits),
                        Optional.empty(),
                        Optional.of(Temperature.ofCelsius(25)))),
                ControllerReport.NONE,
                Origin.LIVE,
                hostMs);
    }

    private static ReadingSource.Arrival arrival(
            long uptimeMs, long hostMs, double celsius, Origin origin, ControllerReport report) {
        return new ReadingSource.Arrival(
                OptionalLong.of(uptimeMs),
                OptionalInt.empty(),
                List.of(new Channel(
                        1,
                        RawSignal.of((int) Math.round(celsius * 100), 2_500),
                        Optional.of(Temperature.ofCelsius(celsius)),
                        Optional.of(Temperature.ofCelsius(25)))),
                report,
                origin,
                hostMs);
    }
}

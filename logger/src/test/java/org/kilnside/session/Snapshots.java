package org.kilnside.session;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;

/** Snapshots for tests. */
public final class Snapshots {
    private Snapshots() {}

    /** A bisque on Tall Drum in mid-ramp, with a curve of so many readings. */
    public static Snapshot bisque(long hostMs, int readings) {
        Trace.Builder curve = new Trace.Builder();
        for (int i = 0; i < readings; i++) {
            curve.add(i * 1_000L, 20 + i * 0.02, java.util.OptionalDouble.of(0.5), java.util.OptionalDouble.empty());
        }
        Schedule plan = new Schedule(
                "Bisque",
                List.of(
                        new Segment.Ramp(
                                HeatingRate.ofKelvinPerHour(80),
                                Temperature.ofCelsius(600),
                                java.time.Duration.ofMinutes(15)),
                        new Segment.FreeCooling()));
        return new Snapshot(
                readings,
                OptionalLong.of(3),
                Optional.of("Tall Drum"),
                "virtual:tall-drum",
                1,
                Snapshot.Stage.HEATING,
                Optional.of(Instant.parse("2026-11-25T18:00:00Z")),
                new Connection(Connection.State.RECEIVING, hostMs - 500, Optional.empty(), Connection.Counts.NONE),
                Optional.of(new Snapshot.Latest(
                        readings * 1_000L,
                        hostMs - 250,
                        Optional.of(Temperature.ofCelsius(100)),
                        Optional.of(Temperature.ofCelsius(21)),
                        List.of(),
                        ControllerReport.NONE,
                        false)),
                new Snapshot.Rates(Optional.of(HeatingRate.ofKelvinPerHour(79)), Optional.empty(), Optional.empty()),
                Optional.of(plan),
                Optional.empty(),
                Optional.of(new Snapshot.Peak(Temperature.ofCelsius(100), readings * 1_000L)),
                List.of(FiringEvent.of(0, FiringEvent.Kind.RECORDING_BEGAN)),
                curve.view(),
                new FiringBook.DiskState(OptionalLong.of(readings * 1_000L), 0, Optional.empty()));
    }
}

package org.kilnside.session;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import org.kilnside.alarm.Alarm;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.alarm.Grade;
import org.kilnside.alarm.Measure;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Kiln;
import org.kilnside.firing.Trace;
import org.kilnside.firing.WallClockLine;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.sensor.SensorUncertainty;
import org.kilnside.sensor.SignalWatch;

/** Snapshots for tests. */
public final class Snapshots {
    private Snapshots() {}

    /** A bisque on Tall Drum in mid-ramp, with a curve of so many readings. */
    public static Snapshot bisque(long hostMs, int readings) {
        Trace.Builder curve = new Trace.Builder();
        for (int i = 0; i < readings; i++) {
            curve.add(i * 1_000L, 20 + i * 0.02, OptionalDouble.of(0.5), OptionalDouble.empty());
        }
        Schedule plan = new Schedule(
                "Bisque",
                List.of(
                        new Segment.Ramp(
                                HeatingRate.ofKelvinPerHour(80), Temperature.ofCelsius(600), Duration.ofMinutes(15)),
                        new Segment.FreeCooling()));
        return new Snapshot(
                readings,
                OptionalLong.of(3),
                Optional.of("Tall Drum"),
                "virtual:tall-drum",
                1,
                Snapshot.Stage.HEATING,
                Optional.of(Instant.parse("2026-11-25T18:00:00Z")),
                Optional.of(WallClockLine.from(Instant.parse("2026-11-25T18:00:00Z"))),
                new Connection(Connection.State.RECEIVING, hostMs - 500, Optional.empty(), Connection.Counts.NONE),
                Optional.of(new Snapshot.Latest(
                        readings * 1_000L,
                        hostMs - 250,
                        Optional.of(Temperature.ofCelsius(100)),
                        Optional.of(Temperature.ofCelsius(101.25)),
                        Optional.of(Temperature.ofCelsius(21)),
                        List.of(),
                        ControllerReport.NONE,
                        false,
                        10_000)),
                new Snapshot.Rates(Optional.of(HeatingRate.ofKelvinPerHour(79)), Optional.empty(), Optional.empty()),
                Optional.of(plan),
                Optional.empty(),
                Optional.of(new Snapshot.Peak(Temperature.ofCelsius(100), readings * 1_000L)),
                List.of(FiringEvent.of(0, FiringEvent.Kind.RECORDING_BEGAN)),
                curve.view(),
                Findings.NONE,
                List.of(),
                Optional.empty(),
                Kiln.Thresholds.COMMON_PRACTICE,
                List.of(),
                new FiringBook.DiskState(OptionalLong.of(readings * 1_000L), 0, Optional.empty()));
    }

    /** The same after six hours, with what the program makes of its curve: a cone, a forecast, a doubt. */
    public static Snapshot withFindings(long hostMs) {
        return withFindings(hostMs, ConeSeries.SELF_SUPPORTING);
    }

    /** The same by cones of another kind. */
    public static Snapshot withFindings(long hostMs, ConeSeries series) {
        Trace.Builder grown = new Trace.Builder();
        for (int i = 0; i < 6 * 360; i++) {
            grown.add(i * 10_000L, 20 + i * 0.44);
        }
        Trace curve = grown.view();
        Snapshot bare = bisque(hostMs, 10);
        HeatWork work = HeatWork.of(ConeTable.of(series), curve);
        LiveForecast forecast = new ModelForecaster()
                .forecast(new ForecastRequest(
                        0,
                        curve,
                        bare.plan().map(Snapshots::toCone06),
                        Optional.empty(),
                        work,
                        SensorUncertainty.UNKNOWN,
                        Optional.of(Temperature.ofCelsius(20)),
                        Kiln.Thresholds.COMMON_PRACTICE,
                        Optional.of(Kiln.Wall.BRICK),
                        OptionalDouble.of(5.6)));
        Findings findings = new Findings(
                List.of(new Findings.Doubt(SignalWatch.Suspicion.HOT_COLD_JUNCTION, 60_000)),
                Optional.of(work.reached(SensorUncertainty.UNKNOWN)),
                Optional.of(forecast));
        return bare.with(bare.connection(), bare.latest(), curve, findings);
    }

    /** A firing that has ended and cooled. */
    public static Snapshot ended(long hostMs) {
        Snapshot going = bisque(hostMs, 200);
        return new Snapshot(
                going.sequence(),
                going.firing(),
                going.kiln(),
                going.link(),
                going.speed(),
                Snapshot.Stage.ENDED,
                going.startedAt(),
                going.wallClock(),
                going.connection(),
                going.latest(),
                going.rates(),
                going.plan(),
                going.position(),
                going.peak(),
                going.events(),
                going.curve(),
                going.findings(),
                going.alarms(),
                going.isolator(),
                going.thresholds(),
                going.posts(),
                going.disk());
    }

    /** An alarm to come now. */
    public static Alarm stuckRelay() {
        return new Alarm(
                "stuck-relay-1",
                AlarmKind.STUCK_RELAY,
                Grade.COME_NOW,
                Alarm.State.RAISED,
                90_000,
                100_000,
                1,
                Optional.of(Measure.ofCelsius(1012)),
                Optional.of(Measure.ofCelsius(1000)),
                OptionalLong.empty(),
                OptionalLong.empty());
    }

    private static Schedule toCone06(Schedule plan) {
        return new Schedule(
                plan.name(),
                Optional.of("cone 06"),
                Optional.empty(),
                Optional.empty(),
                List.of(new Segment.Ramp(
                        HeatingRate.ofKelvinPerHour(158), Temperature.ofCelsius(1000), Duration.ofMinutes(15))));
    }
}

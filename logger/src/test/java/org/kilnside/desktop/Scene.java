package org.kilnside.desktop;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.Supplier;
import org.kilnside.Once;
import org.kilnside.alarm.Alarm;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.alarm.Measure;
import org.kilnside.sensor.SignalWatch;
import org.kilnside.session.Connection;
import org.kilnside.session.Findings;
import org.kilnside.session.Snapshot;
import org.kilnside.wording.SampleSnapshots;

/** The moments of a firing that are shown and looked at. */
enum Scene {
    WAITING(SampleSnapshots::waiting, 3),
    HEATING(SampleSnapshots::heatingForecast, 3),
    HOLDING(SampleSnapshots::holdingForecast, 1),
    HOLDING_LARGE_CONES(SampleSnapshots::holdingLargeCones, 1),
    COOLING(SampleSnapshots::coolingForecast, 2),
    NO_READING(() -> lost(SampleSnapshots.heatingForecast()), 245),
    DOUBT(Scene::doubted, 1),
    FAULT(SampleSnapshots::faulted, 1),
    ALARM(Scene::stuckRelay, 1),
    ALARM_KNOWN(Scene::knownAlarm, 1),
    NEWS(Scene::news, 1),
    COOLING_ALARM_OVER(Scene::alarmOver, 1),
    COOLING_ALARM(Scene::coolingAlarm, 1),
    ENDED(SampleSnapshots::ended, 4000),
    VIRTUAL(Scene::virtual, 0),
    NOTHING_YET(() -> SampleSnapshots.nothingYet(Connection.State.CONNECTING), 4);

    private final Supplier<Snapshot> snapshot;
    private final int ageSeconds;

    Scene(Supplier<Snapshot> snapshot, int ageSeconds) {
        this.snapshot = Once.of(snapshot);
        this.ageSeconds = ageSeconds;
    }

    Snapshot snapshot() {
        return snapshot.get();
    }

    long hostMs() {
        return SampleSnapshots.HOST_MS + ageSeconds * 1000L;
    }

    private static Snapshot virtual() {
        SampleSnapshots.Moment moment = new SampleSnapshots.Moment();
        moment.link = "virtual:Tall Drum?speed=600";
        moment.speed = 600;
        moment.minutes = 560;
        moment.segment = 3;
        return moment.workedOut().build();
    }

    private static Snapshot doubted() {
        SampleSnapshots.Moment moment = new SampleSnapshots.Moment();
        moment.doubts = List.of(new Findings.Doubt(SignalWatch.Suspicion.FROZEN, 300 * 60_000L));
        return moment.build();
    }

    private static Snapshot stuckRelay() {
        Snapshot heating = SampleSnapshots.heatingForecast();
        long nowMs = heating.latest().orElseThrow().elapsedMs();
        return heating.withAlarms(List.of(
                alarm(
                        AlarmKind.STUCK_RELAY,
                        Alarm.State.RAISED,
                        nowMs - 240_000,
                        Optional.of(Measure.ofCelsius(412)),
                        Optional.of(Measure.ofCelsius(400))),
                alarm(
                        AlarmKind.BOX_TOO_HOT,
                        Alarm.State.RAISED,
                        nowMs - 900_000,
                        Optional.of(Measure.ofCelsius(58)),
                        Optional.of(Measure.ofCelsius(55)))));
    }

    private static Snapshot knownAlarm() {
        Snapshot heating = SampleSnapshots.heatingForecast();
        return heating.withAlarms(List.of(alarm(
                AlarmKind.THIRD_OF_POWER_GONE,
                Alarm.State.ACKNOWLEDGED,
                heating.latest().orElseThrow().elapsedMs() - 1_500_000,
                Optional.of(Measure.ofShare(0.67)),
                Optional.of(Measure.ofShare(1)))));
    }

    private static Snapshot news() {
        Snapshot cooling = SampleSnapshots.coolingForecast();
        return cooling.withAlarms(List.of(alarm(
                AlarmKind.BELOW_LID_THRESHOLD,
                Alarm.State.RAISED,
                cooling.latest().orElseThrow().elapsedMs() - 60_000,
                Optional.of(Measure.ofCelsius(119)),
                Optional.of(Measure.ofCelsius(120)))));
    }

    /** While it cools: an alarm of the heating that nobody has answered and that is over. */
    private static Snapshot alarmOver() {
        return whileCooling(AlarmKind.THIRD_OF_POWER_GONE, Alarm.State.CLEARED);
    }

    private static Snapshot coolingAlarm() {
        return whileCooling(AlarmKind.LID_MOVED, Alarm.State.RAISED);
    }

    private static Snapshot whileCooling(AlarmKind kind, Alarm.State state) {
        Snapshot cooling = SampleSnapshots.coolingForecast();
        return cooling.withAlarms(List.of(alarm(
                kind,
                state,
                cooling.latest().orElseThrow().elapsedMs() - 600_000,
                Optional.empty(),
                Optional.empty())));
    }

    private static Alarm alarm(
            AlarmKind kind, Alarm.State state, long sinceMs, Optional<Measure> seen, Optional<Measure> expected) {
        return new Alarm(
                kind.code() + "-1",
                kind,
                kind.grade(),
                state,
                sinceMs,
                sinceMs + 60_000,
                1,
                seen,
                expected,
                OptionalLong.empty(),
                OptionalLong.empty());
    }

    private static Snapshot lost(Snapshot snapshot) {
        Connection lost = new Connection(
                Connection.State.LOST,
                SampleSnapshots.HOST_MS + 2000,
                java.util.Optional.empty(),
                snapshot.connection().counts());
        return snapshot.with(lost, snapshot.latest(), snapshot.curve());
    }
}

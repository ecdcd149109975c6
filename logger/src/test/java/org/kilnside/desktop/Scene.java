package org.kilnside.desktop;

import java.util.List;
import java.util.function.Supplier;
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
    COOLING(SampleSnapshots::coolingForecast, 2),
    NO_READING(() -> lost(SampleSnapshots.heatingForecast()), 245),
    DOUBT(Scene::doubted, 1),
    FAULT(SampleSnapshots::faulted, 1),
    ENDED(SampleSnapshots::ended, 4000),
    VIRTUAL(Scene::virtual, 0),
    NOTHING_YET(() -> SampleSnapshots.nothingYet(Connection.State.CONNECTING), 4);

    private final Supplier<Snapshot> snapshot;
    private final int ageSeconds;

    Scene(Supplier<Snapshot> snapshot, int ageSeconds) {
        this.snapshot = snapshot;
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

    private static Snapshot lost(Snapshot snapshot) {
        Connection lost = new Connection(
                Connection.State.LOST,
                SampleSnapshots.HOST_MS + 2000,
                java.util.Optional.empty(),
                snapshot.connection().counts());
        return snapshot.with(lost, snapshot.latest(), snapshot.curve());
    }
}

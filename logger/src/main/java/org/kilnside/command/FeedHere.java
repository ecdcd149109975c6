package org.kilnside.command;

import java.time.Duration;
import java.util.Optional;
import java.util.function.Consumer;
import org.kilnside.firing.Lighting;
import org.kilnside.session.AlarmTrial;
import org.kilnside.session.LineView;
import org.kilnside.session.LiveFeed;
import org.kilnside.session.Snapshot;

/**
 * The recorder's feed for who sits before it: what was answered here stands as answered, though on the stream to the copies
 * it rings on until it is answered there. From any thread.
 */
final class FeedHere implements LiveFeed {
    private final NightWatch watch;

    FeedHere(NightWatch watch) {
        this.watch = watch;
    }

    @Override
    public Snapshot latest() {
        return answered(watch.latest());
    }

    private Snapshot answered(Snapshot snapshot) {
        return snapshot.withAlarms(
                snapshot.alarms().stream().map(watch::asAnswered).toList());
    }

    @Override
    public Subscription subscribe(Consumer<Snapshot> listener) {
        return watch.subscribe(snapshot -> listener.accept(answered(snapshot)));
    }

    @Override
    public LineView lines() {
        return watch.lines();
    }

    @Override
    public boolean takesNotes() {
        return watch.takesNotes();
    }

    @Override
    public void note(String text) {
        watch.note(text);
    }

    @Override
    public void note(String text, Duration ago) {
        watch.note(text, ago);
    }

    @Override
    public void acknowledge(String alarmId) {
        watch.acknowledge(alarmId);
    }

    @Override
    public void lighting(Lighting list) {
        watch.lighting(list);
    }

    @Override
    public Optional<AlarmTrial> alarmTrial() {
        return watch.alarmTrial();
    }

    @Override
    public void ringTest() {
        watch.ringTest();
    }

    @Override
    public void testHeard(String computer) {
        watch.testHeard(computer);
    }

    @Override
    public void firingBegins() {
        watch.firingBegins();
    }

    @Override
    public void firingEnds() {
        watch.firingEnds();
    }
}

package org.kilnside.session;

import java.time.Duration;
import java.util.Optional;
import java.util.function.Consumer;
import org.kilnside.firing.Lighting;

/**
 * A live feed that can be turned from one firing to another while it is watched: a window that was opened before anybody
 * recorded goes on with the recording that begins in it.
 */
public final class FeedSwitch implements LiveFeed {
    private final Listeners listeners = new Listeners();
    private volatile LiveFeed current;
    private Subscription subscription;

    public FeedSwitch(LiveFeed first) {
        current = first;
        subscription = first.subscribe(snapshot -> pass(first, snapshot));
    }

    /** Goes on with another firing; whoever is subscribed is told its newest snapshot at once. */
    public synchronized void turnTo(LiveFeed next) {
        Subscription before = subscription;
        current = next;
        subscription = next.subscribe(snapshot -> pass(next, snapshot));
        before.close();
        listeners.tell(next.latest());
    }

    /** A snapshot of the firing before, still on its way when it was left, is not passed on. */
    private void pass(LiveFeed from, Snapshot snapshot) {
        if (from == current) {
            listeners.tell(snapshot);
        }
    }

    @Override
    public Snapshot latest() {
        return current.latest();
    }

    @Override
    public Subscription subscribe(Consumer<Snapshot> listener) {
        return listeners.add(listener);
    }

    @Override
    public LineView lines() {
        return current.lines();
    }

    @Override
    public boolean takesNotes() {
        return current.takesNotes();
    }

    @Override
    public void note(String text) {
        current.note(text);
    }

    @Override
    public void note(String text, Duration ago) {
        current.note(text, ago);
    }

    @Override
    public void ringTest() {
        current.ringTest();
    }

    @Override
    public void testHeard(String computer) {
        current.testHeard(computer);
    }

    @Override
    public void acknowledge(String alarmId) {
        current.acknowledge(alarmId);
    }

    @Override
    public void lighting(Lighting list) {
        current.lighting(list);
    }

    @Override
    public Optional<AlarmTrial> alarmTrial() {
        return current.alarmTrial();
    }

    @Override
    public void firingBegins() {
        current.firingBegins();
    }

    @Override
    public void firingEnds() {
        current.firingEnds();
    }
}

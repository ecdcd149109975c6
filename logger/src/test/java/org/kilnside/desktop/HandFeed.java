package org.kilnside.desktop;

import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.Consumer;
import org.kilnside.session.LineView;
import org.kilnside.session.LiveFeed;
import org.kilnside.session.Snapshot;

/** A live feed moved by hand; it remembers what a person said and on which thread. */
public final class HandFeed implements LiveFeed {
    private volatile Snapshot latest;

    /** What came over the wire, set by hand. */
    volatile LineView lines = LineView.NONE;

    private final List<Consumer<Snapshot>> listeners = new CopyOnWriteArrayList<>();
    final List<String> said = new CopyOnWriteArrayList<>();
    final List<String> threads = new CopyOnWriteArrayList<>();

    /** How long the session takes to accept what a person says, ms. */
    volatile long slownessMs;

    public HandFeed(Snapshot first) {
        latest = first;
    }

    void publish(Snapshot snapshot) {
        latest = snapshot;
        listeners.forEach(listener -> listener.accept(snapshot));
    }

    @Override
    public Snapshot latest() {
        return latest;
    }

    @Override
    public Subscription subscribe(Consumer<Snapshot> listener) {
        listeners.add(listener);
        return () -> listeners.remove(listener);
    }

    @Override
    public LineView lines() {
        return lines;
    }

    @Override
    public void lighting(org.kilnside.firing.Lighting list) {
        said.add(list.text());
    }

    @Override
    public void note(String text) {
        hear("note: " + text);
    }

    @Override
    public void acknowledge(String alarmId) {
        hear("acknowledge: " + alarmId);
    }

    @Override
    public void firingBegins() {
        hear("begins");
    }

    @Override
    public void firingEnds() {
        hear("ends");
    }

    private void hear(String what) {
        threads.add(Thread.currentThread().getName());
        try {
            Thread.sleep(slownessMs);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        said.add(what);
    }
}

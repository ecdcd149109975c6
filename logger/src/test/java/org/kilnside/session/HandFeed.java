package org.kilnside.session;

import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.Consumer;

/** A live firing moved by hand: shows the snapshots it is given and keeps what a person says. */
public final class HandFeed implements LiveFeed {
    public final List<String> said = new CopyOnWriteArrayList<>();
    private final List<Consumer<Snapshot>> listeners = new CopyOnWriteArrayList<>();
    private volatile Snapshot latest;

    /** What came over the wire, set by hand. */
    public volatile LineView lines = LineView.NONE;

    public HandFeed(Snapshot first) {
        latest = first;
    }

    public void show(Snapshot snapshot) {
        latest = snapshot;
        listeners.forEach(listener -> listener.accept(snapshot));
    }

    public int listeners() {
        return listeners.size();
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
        said.add(text);
    }

    @Override
    public void acknowledge(String alarmId) {
        said.add("acknowledge: " + alarmId);
    }

    @Override
    public void firingBegins() {
        said.add("begins");
    }

    @Override
    public void firingEnds() {
        said.add("ends");
    }
}

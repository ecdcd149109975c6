package org.kilnside.session;

import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.Consumer;

/** A live firing moved by hand: shows the snapshots it is given and keeps what a person says. */
public class HandFeed implements LiveFeed {
    public final List<String> said = new CopyOnWriteArrayList<>();
    private final List<Consumer<Snapshot>> listeners = new CopyOnWriteArrayList<>();
    private volatile Snapshot latest;

    /** What came over the wire, set by hand. */
    public volatile LineView lines = LineView.NONE;

    public HandFeed(Snapshot first) {
        latest = first;
    }

    public final void show(Snapshot snapshot) {
        latest = snapshot;
        listeners.forEach(listener -> listener.accept(snapshot));
    }

    public final int listeners() {
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
        hear(list.text());
    }

    @Override
    public void note(String text) {
        hear(text);
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

    /** A person said this. */
    protected void hear(String what) {
        said.add(what);
    }
}

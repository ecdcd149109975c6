package org.kilnside.desktop;

import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import org.kilnside.session.HandFeed;
import org.kilnside.session.Snapshot;

/** A live feed moved by hand under a window; it remembers on which thread a person was heard, and may be slow to hear. */
final class SlowFeed extends HandFeed {
    final List<String> threads = new CopyOnWriteArrayList<>();

    /** How long the session takes to accept what a person says, ms. */
    volatile long slownessMs;

    SlowFeed(Snapshot first) {
        super(first);
    }

    @Override
    protected void hear(String what) {
        threads.add(Thread.currentThread().getName());
        try {
            Thread.sleep(slownessMs);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        super.hear(what);
    }
}

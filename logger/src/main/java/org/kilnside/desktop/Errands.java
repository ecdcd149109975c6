package org.kilnside.desktop;

import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;

/** Runs what might wait, one after the other, on a thread of its own: the Swing thread only draws. */
final class Errands {
    private final ExecutorService thread = Executors.newSingleThreadExecutor(work -> {
        Thread errands = new Thread(work, "kilnside-errands");
        errands.setDaemon(true);
        return errands;
    });

    void run(Runnable errand) {
        thread.execute(errand);
    }

    /** Lets the errands under way come to their end, without waiting for them. */
    void close() {
        thread.shutdown();
    }
}

package org.kilnside.desktop.screen;

import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.function.Consumer;
import javax.swing.SwingUtilities;

/** Runs what might wait, one after the other, on a thread of its own: the Swing thread only draws. */
public final class Errands {
    private final ExecutorService thread = Executors.newSingleThreadExecutor(work -> {
        Thread errands = new Thread(work, "kilnside-errands");
        errands.setDaemon(true);
        return errands;
    });

    /** Runs something whose end nobody waits for. */
    public void run(Runnable errand) {
        thread.execute(errand);
    }

    /**
     * Runs something and brings what it found back to the Swing thread.
     *
     * @param work what may wait for the disk
     * @param found called on the Swing thread with its result
     * @param failed called on the Swing thread with what went wrong; a screen says it, it is never dropped
     */
    public <T> void run(Callable<T> work, Consumer<T> found, Consumer<Exception> failed) {
        thread.execute(() -> {
            try {
                T result = work.call();
                SwingUtilities.invokeLater(() -> found.accept(result));
            } catch (Exception e) {
                SwingUtilities.invokeLater(() -> failed.accept(e));
            }
        });
    }

    /** Lets the errands under way come to their end, without waiting for them. */
    public void close() {
        thread.shutdown();
    }
}

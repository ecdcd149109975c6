package org.kilnside.desktop.kiln;

import java.util.concurrent.Callable;
import java.util.function.Consumer;

/** Runs what may wait, and brings back what it found. */
interface Chores {
    /**
     * Runs a chore.
     *
     * @param found told its result, on the thread that asked
     * @param failed told what went wrong
     */
    <T> void run(Callable<T> work, Consumer<T> found, Consumer<Exception> failed);
}

package org.kilnside.desktop.kiln;

import java.util.concurrent.Callable;
import java.util.function.Consumer;

/** Chores of somebody who may turn to something else meanwhile: what was asked before that is let go. */
final class Asking {
    private final Chores chores;
    private final Runnable changed;
    private final Consumer<Exception> failed;
    private final Consumer<Object> late;
    private int turn;

    /**
     * Builds it.
     *
     * @param changed told when there is something to show
     * @param failed told of a chore that failed and still counts
     * @param late given what a chore brought that nobody waits for any more
     */
    Asking(Chores chores, Runnable changed, Consumer<Exception> failed, Consumer<Object> late) {
        this.chores = chores;
        this.changed = changed;
        this.failed = failed;
        this.late = late;
    }

    /** What was asked so far counts no more. */
    void turnAway() {
        turn++;
    }

    <T> void ask(Callable<T> work, Consumer<T> found) {
        int asked = turn;
        chores.run(
                work,
                result -> {
                    if (asked == turn) {
                        found.accept(result);
                        changed.run();
                    } else {
                        late.accept(result);
                    }
                },
                failure -> {
                    if (asked == turn) {
                        failed.accept(failure);
                        changed.run();
                    }
                });
    }
}

package org.kilnside.link;

/** Lets host time pass; in tests by moving a clock. */
@FunctionalInterface
public interface Pauses {
    Pauses REAL = Thread::sleep;

    void pause(long milliseconds) throws InterruptedException;
}

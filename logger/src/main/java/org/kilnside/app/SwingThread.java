package org.kilnside.app;

import java.awt.EventQueue;

/** Watches, where assertions are on as in every test, that the window does not read files on the thread it draws on. */
final class SwingThread {
    private SwingThread() {}

    /** To be called where something is about to wait for the disk on the window's behalf. */
    static void isNotHere() {
        assert !EventQueue.isDispatchThread() : "the disk is waited for on the Swing thread";
    }
}

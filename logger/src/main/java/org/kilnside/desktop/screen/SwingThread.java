package org.kilnside.desktop.screen;

import java.awt.EventQueue;

/** Watches, where assertions are on as in every test, that the window does not read files on the thread it draws on. */
public final class SwingThread {
    private SwingThread() {}

    /** To be called where something is about to wait for the disk on the window's behalf. */
    public static void isNotHere() {
        assert !EventQueue.isDispatchThread() : "the disk is waited for on the Swing thread";
    }
}

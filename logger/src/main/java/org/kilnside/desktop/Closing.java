package org.kilnside.desktop;

/** What becomes of the recording when the window closes. */
public interface Closing {
    /**
     * Whether this program records the firing itself, so that stopping it would leave a hole in the book. Asked on the
     * Swing thread when the window is to close: a recording may have begun in it. Never waits.
     */
    boolean recordsHere();

    /** The window is closed. Never called on the Swing thread. */
    void closed(Choice choice);

    /** What a person chose for the recording. */
    enum Choice {
        /** Nothing was being recorded here, or it is to stop. */
        STOP,
        /** Recording goes on without a window. */
        GO_ON_RECORDING
    }
}

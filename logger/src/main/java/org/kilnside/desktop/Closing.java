package org.kilnside.desktop;

/** What becomes of the recording when the window closes. Never called on the Swing thread. */
public interface Closing {
    /** Whether this program records the firing itself, so that stopping it would leave a hole in the book. */
    boolean recordsHere();

    /** The window is closed. */
    void closed(Choice choice);

    /** What a person chose for the recording. */
    enum Choice {
        /** Nothing was being recorded here, or it is to stop. */
        STOP,
        /** Recording goes on without a window. */
        GO_ON_RECORDING
    }
}

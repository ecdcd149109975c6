package org.kilnside.desktop.screen;

import javax.swing.JComponent;
import org.kilnside.wording.Words;

/** One screen of the window. Every method is called on the Swing thread and returns at once. */
public interface Screen {
    /** Its name in the bar. */
    String title(Words words);

    /** What is drawn; the same component every time. */
    JComponent view();

    /**
     * Tells the screen the way to the live firing, once, when the window is built.
     *
     * @param toNow brings the Now screen to the front
     */
    default void knows(Runnable toNow) {
        // Most screens lead nowhere else.
    }

    /** Whether this is what the person needs to see first when the window opens. */
    default boolean wantsToBeFirst() {
        return false;
    }

    /**
     * Puts its own deeds into the row, once, when the window is built. Their keys are tied to {@link #view()}, so that they
     * count only while this screen is in front.
     */
    void keys(KeyRow row);

    /**
     * Shows this moment: when it comes to the front, when language, unit or look change, and while it is in front at most
     * 20 times a second with each snapshot and once a second without.
     */
    void show(Moment moment);

    /** Where the keyboard goes when this screen comes to the front. */
    default JComponent firstFocus() {
        return view();
    }

    /**
     * Whether the window may turn away from this screen or close now: a screen with unsaved work asks the person first.
     *
     * @param later to be run, on the Swing thread, once the work that still kept the person here is seen to: a save that
     *     takes a moment, and may fail
     * @return false to stay
     */
    default boolean mayLeave(Runnable later) {
        return true;
    }
}

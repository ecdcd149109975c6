package org.kilnside.desktop;

import java.awt.Toolkit;
import javax.swing.SwingUtilities;

/** When a window has done all it was asked: nothing waits for the Swing thread and no errand is under way. */
public final class Stillness {
    private static final int ROUNDS = 3;
    private static final int ROUND_MS = 20;
    private static final int MOST_ROUNDS = 1_500;

    private Stillness() {}

    /**
     * Waits for it.
     *
     * @throws IllegalStateException when there is none within half a minute
     */
    public static void await() throws Exception {
        int still = 0;
        for (int i = 0; i < MOST_ROUNDS; i++) {
            Thread.sleep(ROUND_MS);
            boolean[] queued = new boolean[1];
            SwingUtilities.invokeAndWait(() -> queued[0] =
                    Toolkit.getDefaultToolkit().getSystemEventQueue().peekEvent() != null);
            still = queued[0] || errandsRun() ? 0 : still + 1;
            if (still == ROUNDS) {
                return;
            }
        }
        throw new IllegalStateException("the window did not come to rest");
    }

    private static boolean errandsRun() {
        return Thread.getAllStackTraces().keySet().stream()
                .filter(thread -> thread.getName().equals("kilnside-errands"))
                .anyMatch(thread -> thread.getState() != Thread.State.WAITING);
    }
}

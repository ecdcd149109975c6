package org.kilnside.desktop;

import java.util.function.Consumer;

/** What becomes of the recording when a window of a test is closed: the test hears of it, and nothing else happens. */
public record HandClosing(boolean recordsHere, Consumer<Closing.Choice> heard) implements Closing {
    /** Nothing is recorded, and nobody asks how it was closed. */
    public static Closing unheard() {
        return new HandClosing(false, choice -> {});
    }

    @Override
    public void closed(Choice choice) {
        heard.accept(choice);
    }
}

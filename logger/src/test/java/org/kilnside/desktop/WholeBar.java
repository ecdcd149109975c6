package org.kilnside.desktop;

import java.util.ArrayList;
import java.util.List;
import javax.swing.JComponent;
import javax.swing.JPanel;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.screen.Moment;
import org.kilnside.desktop.screen.Screen;
import org.kilnside.wording.Words;

/** The bar as the program has it, for pictures of one screen: the others stand in it by name, with nothing behind them. */
public final class WholeBar {
    /** The texts that name the screens beside Now, in the program's order: F3 to F7. */
    private static final List<String> ORDER =
            List.of("screen.plans", "screen.book", "screen.kiln", "screen.night", "screen.week");

    private WholeBar() {}

    /** All by name alone. */
    public static List<Window.ScreenMaker> names() {
        return ORDER.stream().map(WholeBar::name).toList();
    }

    /**
     * All by name, but this one.
     *
     * @param key its key: F3 to F7
     */
    public static List<Window.ScreenMaker> with(String key, Window.ScreenMaker screen) {
        List<Window.ScreenMaker> all = new ArrayList<>(names());
        all.set(Integer.parseInt(key.substring(1)) - 3, screen);
        return all;
    }

    private static Window.ScreenMaker name(String text) {
        return (words, errands) -> new Screen() {
            private final JPanel nothing = new JPanel();

            @Override
            public String title(Words its) {
                return its.text(text);
            }

            @Override
            public JComponent view() {
                return nothing;
            }

            @Override
            public void keys(KeyRow row) {
                // Nothing can be done here.
            }

            @Override
            public void show(Moment moment) {
                // There is nothing to show.
            }
        };
    }
}

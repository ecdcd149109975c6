package org.kilnside.desktop;

import com.formdev.flatlaf.FlatClientProperties;
import java.awt.Component;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntConsumer;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.SwingConstants;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.now.NowModel;
import org.kilnside.desktop.screen.Screen;
import org.kilnside.desktop.theme.Fold;
import org.kilnside.desktop.theme.KeyButton;
import org.kilnside.desktop.theme.TabButton;
import org.kilnside.wording.Words;

/** The window's top edge: the screens, the cautions, and beside them the firing, so that no screen is without it. */
final class ScreenBar extends JPanel {
    private static final long serialVersionUID = 1L;

    private final List<TabButton> tabs = new ArrayList<>();
    private final KeyButton cautions = new KeyButton();
    private final JLabel firing = new JLabel("", SwingConstants.TRAILING);

    private final transient Fold fold;

    ScreenBar(int screens, IntConsumer open, Runnable showCautions) {
        MigLayout layout = new MigLayout("insets 6 10 0 16, fillx, gap 2, novisualpadding", "", "");
        setLayout(layout);
        setOpaque(false);
        for (int i = 0; i < screens; i++) {
            int which = i;
            TabButton tab = new TabButton();
            tab.addActionListener(event -> open.accept(which));
            tabs.add(tab);
            add(tab, "cell " + i + " 0, shrink 0");
        }
        cautions.addActionListener(event -> showCautions.run());
        borderless(cautions);
        add(cautions, "cell " + screens + " 0, shrink 0");
        add(firing);
        fold = new Fold(
                this,
                this::beside,
                narrow -> layout.setComponentConstraints(
                        firing,
                        narrow
                                ? "cell 0 1 " + (screens + 1) + " 1, growx, wmin 0, gapleft 8"
                                : "cell " + (screens + 1) + " 0, pushx, growx, wmin 0, gapleft 14"));
    }

    /** The width that all of it needs in one row, and some to spare: the reading's age grows longer and shorter. */
    private int beside() {
        int width = getFontMetrics(getFont()).getHeight() * 3 + firing.getPreferredSize().width;
        for (Component part : getComponents()) {
            width += part == firing ? 0 : part.getPreferredSize().width + 4;
        }
        return width;
    }

    @Override
    public void doLayout() {
        fold.settle();
        super.doLayout();
    }

    /** The key that brings a screen to the front. */
    static String key(int screen) {
        return "F" + (screen + 2);
    }

    /**
     * Says which screens there are and how the firing stands.
     *
     * @param front the screen in front; on the Now screen the bar names the firing, on the others it gives the reading
     */
    void show(List<Screen> screens, int front, NowModel now, Words words) {
        for (int i = 0; i < tabs.size(); i++) {
            tabs.get(i).say(screens.get(i).title(words), key(i), words);
            tabs.get(i).front(i == front);
        }
        cautions.say(words.text("cautions.title"), "F1", words);
        boolean elsewhere = front != 0;
        NowModel.BigNumber number = now.number();
        String reading = number.live() ? number.text() + " " + number.unit() + "  ·  " + number.under() : number.text();
        firing.setText(elsewhere ? reading : now.title());
        firing.putClientProperty(
                FlatClientProperties.STYLE,
                elsewhere ? "font: bold; foreground: $Kilnside.text" : "foreground: $Kilnside.quiet");
        firing.setToolTipText(firing.getText());
    }

    private static void borderless(KeyButton button) {
        button.putClientProperty(FlatClientProperties.BUTTON_TYPE, FlatClientProperties.BUTTON_TYPE_BORDERLESS);
        button.putClientProperty(FlatClientProperties.STYLE, "margin: 3,8,3,8");
    }
}

package org.kilnside.desktop.theme;

import com.formdev.flatlaf.FlatLaf;
import java.awt.Color;
import java.awt.Font;
import java.awt.GraphicsEnvironment;
import java.awt.Rectangle;
import javax.swing.UIManager;
import org.kilnside.chart.ChartLook;

/** The two looks. */
public enum Theme {
    LIGHT {
        @Override
        FlatLaf look() {
            return new KilnsideLight();
        }
    },
    DARK {
        @Override
        FlatLaf look() {
            return new KilnsideDark();
        }
    };

    /** More lines of text than this on a screen are too small to be read from a chair. */
    private static final double MOST_LINES = 70;

    abstract FlatLaf look();

    /**
     * Puts this look on every window there is and will be.
     *
     * @param textPercent the size of all text, in percent of what fits this screen
     */
    public void install(int textPercent) {
        UIManager.put("defaultFont", null);
        FlatLaf.setup(look());
        Font font = UIManager.getFont("defaultFont");
        double size = font.getSize2D() * screenFactor(font) * textPercent / 100;
        UIManager.put("defaultFont", font.deriveFont((float) size));
        FlatLaf.updateUI();
    }

    /** A screen of many small pixels that the system does not scale gets larger text. */
    private static double screenFactor(Font font) {
        Rectangle screen = GraphicsEnvironment.getLocalGraphicsEnvironment().getMaximumWindowBounds();
        double lines = screen.height / (font.getSize2D() * 1.2);
        return Math.max(1, Math.min(3, lines / MOST_LINES));
    }

    public Theme other() {
        return this == LIGHT ? DARK : LIGHT;
    }

    /** A colour of the look that is installed; the key without its {@code Kilnside.}. */
    public static Color colour(String key) {
        Color colour = UIManager.getColor("Kilnside." + key);
        if (colour == null) {
            throw new IllegalArgumentException("the theme has no colour Kilnside." + key);
        }
        return colour;
    }

    /** The window's own type, larger or smaller. */
    public static Font font(double factor) {
        Font font = UIManager.getFont("defaultFont");
        return font.deriveFont((float) (font.getSize2D() * factor));
    }

    /** The look of the chart under the look that is installed. */
    public static ChartLook chart() {
        return new ChartLook(
                colour("chart.surface"),
                colour("chart.past"),
                colour("chart.future"),
                colour("chart.grid"),
                colour("chart.text"),
                colour("chart.curve"),
                colour("chart.glow"),
                colour("chart.plan"),
                colour("chart.now"),
                colour("chart.mark"),
                font(1));
    }
}

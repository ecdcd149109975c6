package org.kilnside.desktop.theme;

import com.formdev.flatlaf.FlatLaf;
import java.awt.Color;
import java.awt.Font;
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

    abstract FlatLaf look();

    /** Puts this look on every window there is and will be. */
    public void install() {
        FlatLaf.setup(look());
        FlatLaf.updateUI();
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

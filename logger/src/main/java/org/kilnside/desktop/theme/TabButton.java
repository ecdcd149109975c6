package org.kilnside.desktop.theme;

import com.formdev.flatlaf.FlatClientProperties;
import java.awt.Graphics;

/** One of several things of which one is in front; that one stands on a glowing line and is bold. */
public final class TabButton extends KeyButton {
    private static final long serialVersionUID = 1L;
    private boolean isFront;

    public TabButton() {
        putClientProperty(FlatClientProperties.BUTTON_TYPE, FlatClientProperties.BUTTON_TYPE_BORDERLESS);
        putClientProperty(FlatClientProperties.STYLE, "margin: 3,8,3,8");
    }

    /** Whether it is the one in front. */
    public void front(boolean isIt) {
        if (isFront != isIt) {
            isFront = isIt;
            putClientProperty(FlatClientProperties.STYLE, (isIt ? "font: bold; " : "") + "margin: 3,8,3,8");
            getAccessibleContext().setAccessibleDescription(isIt ? getText() : null);
            repaint();
        }
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        super.paintComponent(graphics);
        if (isFront) {
            int thick = Math.max(2, getHeight() / 14);
            graphics.setColor(Theme.colour("ember"));
            graphics.fillRect(getInsets().left, getHeight() - thick, getWidth() - 2 * getInsets().left, thick);
        }
    }
}

package org.kilnside.desktop.theme;

import java.awt.Dimension;
import java.awt.FontMetrics;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import javax.swing.JButton;
import javax.swing.SwingConstants;

/** A button that shows the key that does the same. */
public class KeyButton extends JButton {
    private static final long serialVersionUID = 1L;
    private String key = "";

    public KeyButton() {
        setHorizontalAlignment(SwingConstants.LEADING);
    }

    /** Says what it does and by which key. */
    public void say(String text, String itsKey) {
        if (!text.equals(getText()) || !itsKey.equals(key)) {
            key = itsKey;
            setText(text);
            setToolTipText(text + "  (" + itsKey + ")");
            getAccessibleContext().setAccessibleName(text + ", " + itsKey);
            revalidate();
        }
    }

    @Override
    public Dimension getPreferredSize() {
        Dimension size = super.getPreferredSize();
        if (key != null && !isPreferredSizeSet()) {
            FontMetrics metrics = getFontMetrics(small());
            size.width += metrics.stringWidth(key) + metrics.getHeight() / 2;
        }
        return size;
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        super.paintComponent(graphics);
        Graphics2D g = (Graphics2D) graphics.create();
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        g.setFont(small());
        FontMetrics metrics = g.getFontMetrics();
        g.setPaint(isEnabled() ? Theme.colour("quiet") : getForeground());
        int right = getInsets().right;
        g.drawString(
                key,
                getWidth() - right - metrics.stringWidth(key),
                (getHeight() - metrics.getHeight()) / 2 + metrics.getAscent());
        g.dispose();
    }

    private java.awt.Font small() {
        return getFont().deriveFont(getFont().getSize2D() * 0.82f);
    }
}

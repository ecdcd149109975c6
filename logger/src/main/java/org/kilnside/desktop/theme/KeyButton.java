package org.kilnside.desktop.theme;

import java.awt.Dimension;
import java.awt.FontMetrics;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import javax.swing.JButton;
import javax.swing.SwingConstants;
import javax.swing.UIManager;
import org.kilnside.wording.Words;

/** A button that shows the key that does the same. */
public class KeyButton extends JButton {
    private static final long serialVersionUID = 1L;
    private String stroke = "";

    /** What the key is called, and what of it is shown. */
    private String key = "";

    private String brief = "";

    public KeyButton() {
        setHorizontalAlignment(SwingConstants.LEADING);
    }

    /**
     * Says what it does and by which key.
     *
     * @param itsStroke as {@link KeyName} has it; empty for none
     */
    public void say(String text, String itsStroke, Words words) {
        String name = KeyName.of(itsStroke, words);
        say(text, itsStroke, name, name);
    }

    /**
     * The same for one of several keys that differ in their last part only: what they have in common is said above them.
     */
    public void sayBriefly(String text, String itsStroke, Words words) {
        String name = KeyName.of(itsStroke, words);
        say(text, itsStroke, name, name.substring(name.lastIndexOf('+') + 1));
    }

    private void say(String text, String itsStroke, String name, String end) {
        if (!text.equals(getText()) || !name.equals(key)) {
            stroke = itsStroke;
            key = name;
            brief = end;
            setText(text);
            setToolTipText(name.isEmpty() ? text : text + "  (" + name + ")");
            getAccessibleContext().setAccessibleName(name.isEmpty() ? text : text + ", " + name);
            revalidate();
        }
    }

    /** The key that does the same, as {@link KeyName} has it; empty for none. */
    public String stroke() {
        return stroke;
    }

    @Override
    public Dimension getPreferredSize() {
        Dimension size = super.getPreferredSize();
        if (brief != null && !isPreferredSizeSet()) {
            FontMetrics metrics = getFontMetrics(small());
            size.width += brief.isEmpty() ? 0 : metrics.stringWidth(brief) + metrics.getHeight() / 2;
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
        g.setPaint(isEnabled() ? Theme.colour("quiet") : UIManager.getColor("Button.disabledText"));
        g.drawString(
                brief,
                getWidth() - getInsets().right - metrics.stringWidth(brief),
                (getHeight() - metrics.getHeight()) / 2 + metrics.getAscent());
        g.dispose();
    }

    private java.awt.Font small() {
        return getFont().deriveFont(getFont().getSize2D() * 0.82f);
    }
}

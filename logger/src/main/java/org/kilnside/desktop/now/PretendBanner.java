package org.kilnside.desktop.now;

import java.awt.BasicStroke;
import java.awt.Dimension;
import java.awt.Font;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import javax.swing.JPanel;
import org.kilnside.desktop.theme.FittedText;
import org.kilnside.desktop.theme.Theme;

/** Says, striped and in words, that what is shown is no real kiln now. */
final class PretendBanner extends JPanel {
    private static final long serialVersionUID = 1L;
    private String text = "";

    void show(String its) {
        if (!its.equals(text)) {
            text = its;
            getAccessibleContext().setAccessibleName(its);
            setToolTipText(its);
            repaint();
        }
    }

    @Override
    public Dimension getPreferredSize() {
        return new Dimension(100, getFontMetrics(Theme.font(1.15)).getHeight() + 10);
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        Graphics2D g = (Graphics2D) graphics.create();
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setPaint(Theme.colour("pretendGround"));
        g.fillRect(0, 0, getWidth(), getHeight());
        g.setPaint(Theme.colour("pretendStripe"));
        g.setStroke(new BasicStroke(getHeight() / 3f));
        for (double x = -getHeight(); x < getWidth() + getHeight(); x += getHeight()) {
            g.draw(new Line2D.Double(x, getHeight(), x + getHeight(), 0));
        }
        g.setPaint(Theme.colour("pretendText"));
        FittedText.draw(
                g,
                text,
                Theme.font(1.15).deriveFont(Font.BOLD),
                Theme.font(1.15).getSize2D(),
                new Rectangle2D.Double(16, 0, getWidth() - 32, getHeight()));
        g.dispose();
    }
}

package org.kilnside.desktop.now;

import java.awt.Dimension;
import java.awt.Font;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Rectangle2D;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.FittedText;
import org.kilnside.desktop.theme.Theme;

/**
 * The large number with the reading's age under it. Where it is not the kiln's temperature now, words stand in its
 * place, on another ground: an old number is never shown as if it were live.
 */
final class NumberPane extends Card {
    private static final long serialVersionUID = 1L;

    /** In lines of text: digits are tall, words are many. */
    private static final double LIVE_WIDTH = 15;

    private static final double WORDS_WIDTH = 30;

    private transient NowModel.BigNumber number = new NowModel.BigNumber(false, "", "", "");
    private boolean blind;

    NumberPane() {
        super(null);
    }

    /** @param alarming whether words in the number's place are a trouble, not the quiet before or after a firing */
    void show(NowModel.BigNumber its, boolean alarming) {
        if (!its.equals(number) || alarming != blind) {
            number = its;
            blind = alarming;
            ground(alarming ? "alarmGround" : "card");
            getAccessibleContext().setAccessibleName(its.text() + " " + its.unit() + " " + its.under());
            revalidate();
            repaint();
        }
    }

    @Override
    public Dimension getPreferredSize() {
        double line = getFontMetrics(Theme.font(1)).getHeight() * Room.factor(this);
        return new Dimension((int) (line * (number.live() ? LIVE_WIDTH : WORDS_WIDTH)), (int) (line * 7));
    }

    @Override
    public Dimension getMinimumSize() {
        return getPreferredSize();
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        super.paintComponent(graphics);
        Graphics2D g = (Graphics2D) graphics.create();
        double factor = Room.factor(this);
        double line = getFontMetrics(Theme.font(1)).getHeight() * factor;
        double inset = line * 0.9;
        Rectangle2D upper = new Rectangle2D.Double(inset, line * 0.3, getWidth() - 2 * inset, getHeight() - line * 2.2);
        Rectangle2D lower = new Rectangle2D.Double(
                inset, upper.getMaxY(), getWidth() - 2 * inset, getHeight() - upper.getMaxY() - line * 0.4);
        g.setPaint(Theme.colour(blind ? "alarmText" : "text"));
        if (number.live()) {
            degrees(g, number, upper, upper.getHeight());
        } else {
            FittedText.draw(
                    g,
                    number.text(),
                    Theme.font(1).deriveFont(Font.BOLD),
                    Theme.font(3 * factor).getSize2D(),
                    upper);
        }
        g.setPaint(Theme.colour(blind ? "alarmText" : "quiet"));
        FittedText.draw(
                g, number.under(), Theme.font(1.1), Theme.font(1.1 * factor).getSize2D(), lower);
        g.dispose();
    }

    /** Degrees as tall as the place, their unit smaller beside them. */
    static void degrees(Graphics2D g, NowModel.BigNumber number, Rectangle2D place, double tall) {
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        double size = tall * 0.92;
        double width;
        do {
            g.setFont(Theme.font(1).deriveFont(Font.BOLD, (float) size));
            width = g.getFontMetrics().stringWidth(number.text())
                    + g.getFontMetrics(unit(size)).stringWidth(" " + number.unit());
            size *= 0.96;
        } while (width > place.getWidth() && size > 4);
        float base = (float) (place.getCenterY() + g.getFontMetrics().getAscent() * 0.38);
        g.drawString(number.text(), (float) place.getX(), base);
        double x = place.getX() + g.getFontMetrics().stringWidth(number.text());
        g.setFont(unit(size));
        g.drawString(" " + number.unit(), (float) x, base);
    }

    private static Font unit(double size) {
        return Theme.font(1).deriveFont((float) (size * 0.42));
    }
}

package org.kilnside.desktop.theme;

import java.awt.Color;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.LayoutManager;
import java.awt.RenderingHints;
import javax.swing.JPanel;

/** A piece of the screen with soft corners on the ground; its colour can be changed for its tone. */
public class Card extends JPanel {
    private static final long serialVersionUID = 1L;
    private String ground = "card";

    public Card(LayoutManager layout) {
        super(layout);
        setOpaque(false);
    }

    /** The theme's key of the card's colour. */
    public void ground(String key) {
        if (!ground.equals(key)) {
            ground = key;
            repaint();
        }
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        Graphics2D g = (Graphics2D) graphics.create();
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        Color colour = Theme.colour(ground);
        g.setPaint(colour);
        int arc = getFontMetrics(Theme.font(1)).getHeight();
        g.fillRoundRect(0, 0, getWidth(), getHeight(), arc, arc);
        g.dispose();
    }
}

package org.kilnside.desktop.theme;

import java.awt.CardLayout;
import java.awt.Component;
import java.awt.Dimension;
import javax.swing.JPanel;

/** Several things of which one is in front: as high as that one needs, not as the highest of them all. */
public final class FrontCard extends JPanel {
    private static final long serialVersionUID = 1L;

    public FrontCard(CardLayout cards) {
        super(cards);
        setOpaque(false);
    }

    @Override
    public Dimension getPreferredSize() {
        for (Component card : getComponents()) {
            if (card.isVisible()) {
                return card.getPreferredSize();
            }
        }
        return super.getPreferredSize();
    }

    @Override
    public Dimension getMinimumSize() {
        return new Dimension(super.getMinimumSize().width, getPreferredSize().height);
    }
}

package org.kilnside.desktop.now;

import java.awt.Component;
import java.util.List;
import javax.swing.JLabel;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.Fold;
import org.kilnside.desktop.theme.Labels;

/**
 * The figures side by side, each with its label over it and what goes with it below; in two columns where there is no room
 * for all.
 */
final class FiguresPane extends Card {
    private static final long serialVersionUID = 1L;
    private static final String SIDE_BY_SIDE = "insets 8 16 8 16, fill, gap 14";
    private static final int GAP = 14;
    private transient List<NowModel.Figure> figures = List.of();
    private final transient Fold fold;

    FiguresPane() {
        super(new MigLayout(SIDE_BY_SIDE, "", "[top]"));
        MigLayout layout = (MigLayout) getLayout();
        fold = new Fold(
                this,
                this::wholeWidth,
                narrow -> layout.setLayoutConstraints(narrow ? SIDE_BY_SIDE + ", wrap 2" : SIDE_BY_SIDE));
    }

    /** What all figures need beside each other. */
    private int wholeWidth() {
        int width = 2 * 16;
        for (Component cell : getComponents()) {
            width += cell.getPreferredSize().width + GAP;
        }
        return width - GAP;
    }

    @Override
    public void doLayout() {
        fold.settle();
        super.doLayout();
    }

    void show(List<NowModel.Figure> its) {
        if (its.equals(figures)) {
            return;
        }
        if (its.size() == figures.size() && its.size() == getComponentCount()) {
            for (int i = 0; i < its.size(); i++) {
                ((Cell) getComponent(i)).show(its.get(i));
            }
        } else {
            removeAll();
            for (NowModel.Figure figure : its) {
                Cell cell = new Cell();
                cell.show(figure);
                add(cell, "wmin 60, growx, pushx");
            }
        }
        figures = its;
        revalidate();
        repaint();
    }

    private static final class Cell extends JPanel {
        private static final long serialVersionUID = 1L;

        /** Below each figure, so that they stand at one height; what takes more is the highest of them. */
        private static final int LINES = 2;

        private static final int MOST_LINES = 4;
        private final JLabel label = Labels.quiet("");
        private final JLabel value = Labels.value("");
        private final JLabel[] more = new JLabel[MOST_LINES];

        Cell() {
            super(new MigLayout("insets 0, wrap 1, gap 1, hidemode 3", "[grow, fill]", ""));
            setOpaque(false);
            add(label);
            add(value);
            for (int i = 0; i < MOST_LINES; i++) {
                more[i] = Labels.quiet("");
                add(more[i]);
            }
        }

        void show(NowModel.Figure figure) {
            label.setText(figure.label());
            value.setText(figure.value());
            for (int i = 0; i < MOST_LINES; i++) {
                more[i].setVisible(i < Math.max(LINES, figure.more().size()));
                more[i].setText(i < figure.more().size() ? figure.more().get(i) : " ");
            }
            getAccessibleContext()
                    .setAccessibleName(figure.label() + " " + figure.value() + " " + String.join(", ", figure.more()));
        }
    }
}

package org.kilnside.desktop.kiln;

import java.awt.Component;
import java.awt.Dimension;
import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.util.List;
import java.util.Optional;
import javax.swing.AbstractListModel;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.KeyStroke;
import javax.swing.ListCellRenderer;
import javax.swing.ListSelectionModel;
import javax.swing.ScrollPaneConstants;
import javax.swing.SwingUtilities;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.session.LineView.Sort;

/**
 * The last lines, newest at the bottom and in sight; while one is picked they stand still, so that it can be read.
 */
final class LineList extends JList<LinesModel.Row> {
    private static final long serialVersionUID = 1L;

    private final Rows rows = new Rows();

    /** The widest verdict among these lines, so that the lines stand below each other. */
    private int verdictWidth;

    private transient List<LinesModel.Row> latest = List.of();

    LineList() {
        setModel(rows);
        setCellRenderer(new Line());
        setOpaque(false);
        setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
        for (String key : new String[] {"END", "ESCAPE"}) {
            // The screen's own: to the newest line, not to the last one that stands here.
            getInputMap().put(KeyStroke.getKeyStroke(key), "none");
        }
    }

    JScrollPane scrolled() {
        JScrollPane scroll = new JScrollPane(
                this, ScrollPaneConstants.VERTICAL_SCROLLBAR_AS_NEEDED, ScrollPaneConstants.HORIZONTAL_SCROLLBAR_NEVER);
        scroll.setBorder(null);
        scroll.setOpaque(false);
        scroll.getViewport().setOpaque(false);
        return scroll;
    }

    /** The line a person looks at. */
    Optional<LinesModel.Row> picked() {
        return Optional.ofNullable(getSelectedValue());
    }

    /** Goes on with what comes. */
    void toNewest() {
        clearSelection();
        show(latest);
    }

    void show(List<LinesModel.Row> lines) {
        latest = lines;
        if (picked().isPresent()) {
            return;
        }
        FontMetrics bold = getFontMetrics(Theme.font(1).deriveFont(Font.BOLD));
        verdictWidth = lines.stream()
                .mapToInt(line -> bold.stringWidth(line.verdict()))
                .max()
                .orElse(0);
        rows.become(lines);
        if (!lines.isEmpty()) {
            SwingUtilities.invokeLater(() -> ensureIndexIsVisible(rows.getSize() - 1));
        }
    }

    @Override
    public boolean getScrollableTracksViewportWidth() {
        return true;
    }

    @Override
    public void updateUI() {
        super.updateUI();
        setFixedCellHeight(getFontMetrics(Theme.font(1)).getHeight() + 4);
        setFixedCellWidth(10);
    }

    private static final class Rows extends AbstractListModel<LinesModel.Row> {
        private static final long serialVersionUID = 1L;
        private transient List<LinesModel.Row> rows = List.of();

        void become(List<LinesModel.Row> others) {
            int before = rows.size();
            rows = others;
            if (before > others.size()) {
                fireIntervalRemoved(this, others.size(), before - 1);
            } else if (before < others.size()) {
                fireIntervalAdded(this, before, others.size() - 1);
            }
            if (!others.isEmpty()) {
                fireContentsChanged(this, 0, others.size() - 1);
            }
        }

        @Override
        public int getSize() {
            return rows.size();
        }

        @Override
        public LinesModel.Row getElementAt(int index) {
            return rows.get(index);
        }
    }

    /** How long ago, the verdict behind its sign, and the line in the type of a terminal. */
    private static final class Line extends JPanel implements ListCellRenderer<LinesModel.Row> {
        private static final long serialVersionUID = 1L;
        private static final String WIDEST_AGE = "59 min";

        private int verdictWidth;
        private transient LinesModel.Row row;
        private boolean chosen;

        Line() {
            setOpaque(false);
        }

        @Override
        public Component getListCellRendererComponent(
                JList<? extends LinesModel.Row> list,
                LinesModel.Row line,
                int index,
                boolean selected,
                boolean focused) {
            row = line;
            chosen = selected;
            verdictWidth = ((LineList) list).verdictWidth;
            getAccessibleContext()
                    .setAccessibleName(line.mark() + " " + line.verdict() + ", " + line.when() + ": " + line.text());
            return this;
        }

        @Override
        public Dimension getPreferredSize() {
            return new Dimension(10, getFontMetrics(Theme.font(1)).getHeight() + 4);
        }

        @Override
        protected void paintComponent(Graphics graphics) {
            Graphics2D g = (Graphics2D) graphics.create();
            g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
            Font font = Theme.font(1);
            FontMetrics metrics = g.getFontMetrics(font);
            int baseline = (getHeight() - metrics.getHeight()) / 2 + metrics.getAscent();
            if (chosen) {
                g.setColor(Theme.colour("key"));
                g.fillRoundRect(0, 0, getWidth(), getHeight(), 8, 8);
            }
            int em = metrics.getHeight();
            int age = metrics.stringWidth(WIDEST_AGE);
            g.setFont(font);
            g.setColor(Theme.colour("quiet"));
            g.drawString(row.when(), age - metrics.stringWidth(row.when()), baseline);
            int x = age + em * 3 / 4;
            g.setColor(ink());
            g.setFont(row.sort() == Sort.SPOILT ? font.deriveFont(Font.BOLD) : font);
            g.drawString(row.mark(), x, baseline);
            x += em;
            g.drawString(row.verdict(), x, baseline);
            x += verdictWidth + em * 3 / 4;
            g.setFont(new Font(Font.MONOSPACED, Font.PLAIN, 1).deriveFont(font.getSize2D() * 0.94f));
            g.setColor(row.sort() == Sort.READING ? Theme.colour("text") : ink());
            g.drawString(shortened(row.text(), g.getFontMetrics(), getWidth() - x - em / 2), x, baseline);
            g.dispose();
        }

        private java.awt.Color ink() {
            return switch (row.sort()) {
                case READING -> Theme.colour("chart.plan");
                case OTHER -> Theme.colour("quiet");
                case SPOILT -> Theme.colour("ember");
            };
        }

        private static String shortened(String text, FontMetrics metrics, int width) {
            if (metrics.stringWidth(text) <= width) {
                return text;
            }
            int length = text.length();
            while (length > 0 && metrics.stringWidth(text.substring(0, length) + "…") > width) {
                length--;
            }
            return text.substring(0, length) + "…";
        }
    }
}

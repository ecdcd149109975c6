package org.kilnside.desktop.kiln;

import com.formdev.flatlaf.FlatClientProperties;
import java.awt.Color;
import java.awt.Graphics;
import java.awt.Rectangle;
import java.awt.event.FocusAdapter;
import java.awt.event.FocusEvent;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntConsumer;
import javax.swing.JComponent;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTextArea;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.theme.Column;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.desktop.theme.Theme;

/** The sensors and what is known of each, below each other: arrows choose one, a bar at its side marks it. */
final class SensorList {
    private static final int BAR = 4;

    private final Column column =
            new Column(new MigLayout("insets 6 0 8 12, fillx, wrap 1, gap 3, novisualpadding", "[grow, fill]", ""));
    private final List<Row> rows = new ArrayList<>();
    private final IntConsumer choose;
    private final Runnable mend;
    private final Runnable strike;
    private List<SensorEntries.Lines> shown = List.of();
    private int chosen;

    SensorList(IntConsumer choose, Runnable mend, Runnable strike) {
        this.choose = choose;
        this.mend = mend;
        this.strike = strike;
    }

    JScrollPane scrolled() {
        return column.scrolled();
    }

    void named(String name) {
        column.getAccessibleContext().setAccessibleName(name);
    }

    void show(List<SensorEntries.Lines> lines, int which) {
        chosen = which;
        if (lines.equals(shown)) {
            rows.forEach(JComponent::repaint);
            return;
        }
        boolean had = rows.stream().anyMatch(JComponent::isFocusOwner);
        shown = List.copyOf(lines);
        rows.clear();
        column.removeAll();
        for (int i = 0; i < lines.size(); i++) {
            Row row = new Row(i, lines.get(i));
            rows.add(row);
            column.add(
                    row,
                    "growx, wmin 0" + (lines.get(i).head().isEmpty() ? ", gapleft 22" : i > 0 ? ", gaptop 8" : ""));
        }
        column.revalidate();
        column.repaint();
        if (had) {
            focusChosen();
        }
    }

    boolean isAnyShown() {
        return !shown.isEmpty();
    }

    /** Whether there is a row to go to. */
    boolean focusChosen() {
        if (chosen < 0 || chosen >= rows.size()) {
            return false;
        }
        rows.get(chosen).requestFocusInWindow();
        return true;
    }

    JComponent first() {
        return chosen >= 0 && chosen < rows.size() ? rows.get(chosen) : column;
    }

    private void focusRow(int to) {
        if (to >= 0 && to < rows.size()) {
            rows.get(to).requestFocusInWindow();
        }
    }

    private final class Row extends JPanel {
        private static final long serialVersionUID = 1L;
        private final int which;

        Row(int which, SensorEntries.Lines lines) {
            super(new MigLayout(
                    "insets 4 12 4 6, fillx, wrap 1, gap 2, hidemode 3, novisualpadding", "[grow, fill]", ""));
            this.which = which;
            setOpaque(false);
            setFocusable(true);
            getAccessibleContext().setAccessibleName(lines.spoken());
            if (!lines.head().isEmpty()) {
                add(line(lines.head(), "font: bold 115%; foreground: $Kilnside.text"), "growx, wmin 0");
            }
            add(
                    line(lines.text(), "foreground: $Kilnside." + (lines.head().isEmpty() ? "text" : "quiet")),
                    "growx, wmin 0");
            addFocusListener(new FocusAdapter() {
                @Override
                public void focusGained(FocusEvent event) {
                    chosen = which;
                    choose.accept(which);
                    scrollRectToVisible(new Rectangle(0, 0, getWidth(), getHeight()));
                    rows.forEach(JComponent::repaint);
                }

                @Override
                public void focusLost(FocusEvent event) {
                    repaint();
                }
            });
            KeyRow.bindHere(this, "DOWN", () -> focusRow(which + 1));
            KeyRow.bindHere(this, "UP", () -> focusRow(which - 1));
            KeyRow.bindHere(this, "ENTER", mend);
            KeyRow.bindHere(this, "DELETE", strike);
        }

        private JTextArea line(String text, String style) {
            JTextArea area = Labels.wrapping(text, style);
            area.putClientProperty(FlatClientProperties.STYLE, style);
            area.addMouseListener(new MouseAdapter() {
                @Override
                public void mousePressed(MouseEvent event) {
                    requestFocusInWindow();
                }
            });
            return area;
        }

        @Override
        protected void paintComponent(Graphics g) {
            super.paintComponent(g);
            if (which == chosen) {
                Color colour = Theme.colour(isFocusOwner() ? "ember" : "quiet");
                g.setColor(colour);
                g.fillRect(0, 2, BAR, getHeight() - 4);
            }
        }
    }
}

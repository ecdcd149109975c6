package org.kilnside.desktop.book;

import com.formdev.flatlaf.FlatClientProperties;
import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Component;
import java.awt.Dimension;
import java.awt.FontMetrics;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.awt.geom.Path2D;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Function;
import javax.swing.BorderFactory;
import javax.swing.JPanel;
import javax.swing.JTable;
import javax.swing.JToolTip;
import javax.swing.KeyStroke;
import javax.swing.ListSelectionModel;
import javax.swing.SwingConstants;
import javax.swing.table.AbstractTableModel;
import javax.swing.table.DefaultTableCellRenderer;
import javax.swing.table.JTableHeader;
import javax.swing.table.TableCellRenderer;
import org.kilnside.book.CurveSketch;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.wording.Words;

/** The firings as a table with small curves; sorted by a click on a head or by key. */
final class FiringsTable extends JTable {
    private static final long serialVersionUID = 1L;

    /** A column: its head, what it sorts by, how wide it is in lines of text, and what stands in it. */
    private enum Column {
        MARK("firings.column.number", FiringList.Order.WHEN, 4.2, line -> (line.marked() ? "✓ " : "") + line.number()),
        CURVE("firings.column.curve", FiringList.Order.WHEN, 7, line -> ""),
        WHEN("firings.column.when", FiringList.Order.WHEN, 6.8, FiringLine::when),
        KILN("firings.column.kiln", FiringList.Order.KILN, 6, FiringLine::kiln),
        PLAN("firings.column.plan", FiringList.Order.PLAN, 8, FiringLine::plan),
        CONE("firings.column.cone", FiringList.Order.CONE, 9, FiringLine::cone),
        PEAK("firings.column.peak", FiringList.Order.PEAK, 4.8, FiringLine::peak),
        DURATION("firings.column.duration", FiringList.Order.DURATION, 6.5, FiringLine::duration),
        LOAD("firings.column.load", FiringList.Order.WHEN, 8, FiringLine::load);

        private final String head;
        private final FiringList.Order order;
        private final double width;
        private final transient Function<FiringLine, String> text;

        Column(String head, FiringList.Order order, double width, Function<FiringLine, String> text) {
            this.head = head;
            this.order = order;
            this.width = width;
            this.text = text;
        }
    }

    /** The keys that do what a click on a head does: by the next one, and the other way round. */
    static final String NEXT_ORDER = "ctrl O";

    static final String TURN_ROUND = "ctrl shift O";

    /** How wide the table must be for all columns to say enough, in lines of text. */
    static final int LEAST_LINES = 52;

    private final Lines lines = new Lines();
    private transient Words words;
    private transient FiringList list = FiringList.EMPTY;

    FiringsTable(Words words, Consumer<FiringList.Order> sortBy, Runnable open) {
        this.words = words;
        setModel(lines);
        setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
        setShowGrid(false);
        setIntercellSpacing(new Dimension(0, 0));
        setFillsViewportHeight(true);
        setOpaque(false);
        setDefaultRenderer(Object.class, new Cell());
        putClientProperty(
                FlatClientProperties.STYLE,
                "selectionBackground: $Kilnside.key; selectionForeground: $Kilnside.text;"
                        + " selectionInactiveBackground: $Kilnside.key; selectionInactiveForeground: $Kilnside.text");
        getTableHeader().setReorderingAllowed(false);
        getTableHeader().setDefaultRenderer(new Head());
        getTableHeader().addMouseListener(new MouseAdapter() {
            @Override
            public void mouseClicked(MouseEvent event) {
                int column = columnAtPoint(event.getPoint());
                if (column >= 0) {
                    sortBy.accept(Column.values()[convertColumnIndexToModel(column)].order);
                }
            }
        });
        KeyRow.bind(getTableHeader(), NEXT_ORDER, () -> sortBy.accept(list.nextOrder()));
        KeyRow.bind(getTableHeader(), TURN_ROUND, () -> sortBy.accept(list.order()));
        addMouseListener(new MouseAdapter() {
            @Override
            public void mouseClicked(MouseEvent event) {
                if (event.getClickCount() == 2 && rowAtPoint(event.getPoint()) >= 0) {
                    open.run();
                }
            }
        });
        // The window's keys count here, too: the table's own meaning of them is edit and walk the heads.
        for (String key : new String[] {"F2", "F8", "ENTER", "shift ENTER", "TAB", "shift TAB", "ESCAPE", "SPACE"}) {
            getInputMap(WHEN_ANCESTOR_OF_FOCUSED_COMPONENT).put(KeyStroke.getKeyStroke(key), "none");
        }
        KeyRow.bindHere(this, "HOME", () -> stand(0));
        KeyRow.bindHere(this, "END", () -> stand(getRowCount() - 1));
        sizes();
    }

    void show(FiringList its, List<FiringLine> shown, Words language) {
        Optional<Long> before = selected();
        list = its;
        words = language;
        int wide = widestCone();
        lines.take(shown);
        if (widestCone() != wide) {
            sizes();
        }
        select(before);
        getAccessibleContext().setAccessibleName(words.text("firings.table", shown.size()));
        getTableHeader().repaint();
    }

    private void select(Optional<Long> number) {
        int row = 0;
        for (int i = 0; number.isPresent() && i < lines.shown.size(); i++) {
            row = lines.shown.get(i).number() == number.get() ? i : row;
        }
        if (!lines.shown.isEmpty()) {
            setRowSelectionInterval(row, row);
        }
    }

    private void stand(int row) {
        if (row >= 0 && row < getRowCount()) {
            setRowSelectionInterval(row, row);
            scrollRectToVisible(getCellRect(row, 0, true));
        }
    }

    /** The firing on which the person stands. */
    Optional<Long> selected() {
        int row = getSelectedRow();
        return row < 0 || row >= lines.shown.size()
                ? Optional.empty()
                : Optional.of(lines.shown.get(row).number());
    }

    private void sizes() {
        FontMetrics metrics = getFontMetrics(Theme.font(1));
        setRowHeight((int) (metrics.getHeight() * 2.2));
        for (Column column : Column.values()) {
            int width = (int) (column.width * metrics.getHeight());
            if (column == Column.CONE) {
                width = Math.max(width, widestCone());
            }
            getColumnModel().getColumn(column.ordinal()).setPreferredWidth(width);
            // Half a cone's temperature or half a date is worse than less of a name.
            boolean whole = column == Column.WHEN || column == Column.CONE;
            getColumnModel().getColumn(column.ordinal()).setMinWidth(whole ? width : 30);
            boolean fixed = column == Column.MARK || column == Column.CURVE || column == Column.PEAK;
            getColumnModel().getColumn(column.ordinal()).setMaxWidth(fixed ? width : Integer.MAX_VALUE);
        }
    }

    /** The longest of the cones, those of another kind and lower bounds have more words, with room around it. */
    private int widestCone() {
        FontMetrics metrics = getFontMetrics(Theme.font(1));
        return lines.shown.stream()
                        .mapToInt(line -> metrics.stringWidth(line.cone()))
                        .max()
                        .orElse(0)
                + metrics.getHeight();
    }

    @Override
    public void updateUI() {
        super.updateUI();
        if (lines != null) {
            sizes();
        }
    }

    /** In a place too narrow to say what stands in the columns they keep their width, and the table goes sideways. */
    @Override
    public boolean getScrollableTracksViewportWidth() {
        int line = getFontMetrics(Theme.font(1)).getHeight();
        return getParent() == null || getParent().getWidth() >= line * LEAST_LINES;
    }

    @Override
    public String getToolTipText(MouseEvent event) {
        int row = rowAtPoint(event.getPoint());
        return row < 0 ? null : lines.shown.get(row).spoken(words);
    }

    @Override
    public JToolTip createToolTip() {
        JToolTip tip = super.createToolTip();
        tip.putClientProperty("html.disable", true);
        return tip;
    }

    private static final class Lines extends AbstractTableModel {
        private static final long serialVersionUID = 1L;
        private transient List<FiringLine> shown = List.of();

        void take(List<FiringLine> others) {
            if (others.size() == shown.size()) {
                List<FiringLine> before = shown;
                shown = new ArrayList<>(others);
                fireTableRowsUpdated(0, Math.max(0, before.size() - 1));
            } else {
                shown = new ArrayList<>(others);
                fireTableDataChanged();
            }
        }

        @Override
        public int getRowCount() {
            return shown.size();
        }

        @Override
        public int getColumnCount() {
            return Column.values().length;
        }

        @Override
        public String getColumnName(int column) {
            return "";
        }

        @Override
        public Object getValueAt(int row, int column) {
            return Column.values()[column].text.apply(shown.get(row));
        }
    }

    private final class Head extends DefaultTableCellRenderer {
        private static final long serialVersionUID = 1L;

        @Override
        public Component getTableCellRendererComponent(
                JTable table, Object value, boolean selected, boolean focused, int row, int column) {
            Column its = Column.values()[table.convertColumnIndexToModel(column)];
            boolean sorted =
                    its.order == list.order() && (its != Column.MARK && its != Column.CURVE && its != Column.LOAD);
            setText(words.text(its.head) + (sorted ? (list.falling() ? " ▾" : " ▴") : ""));
            setFont(Theme.font(0.92));
            setForeground(Theme.colour(sorted ? "text" : "quiet"));
            setOpaque(false);
            setBorder(BorderFactory.createEmptyBorder(4, 8, 6, 4));
            setHorizontalAlignment(its == Column.PEAK ? SwingConstants.TRAILING : SwingConstants.LEADING);
            return this;
        }
    }

    private final class Cell implements TableCellRenderer {
        private final DefaultTableCellRenderer text = new DefaultTableCellRenderer();
        private final Spark spark = new Spark();

        Cell() {
            // What a person wrote is shown as it is, whatever it looks like.
            text.putClientProperty("html.disable", true);
        }

        @Override
        public Component getTableCellRendererComponent(
                JTable table, Object value, boolean selected, boolean focused, int row, int column) {
            FiringLine line = lines.shown.get(row);
            Column its = Column.values()[table.convertColumnIndexToModel(column)];
            Color ground = selected ? Theme.colour("key") : Theme.colour("card");
            if (its == Column.CURVE) {
                spark.show(line.sketch(), ground);
                return spark;
            }
            text.setText(String.valueOf(value));
            text.setFont(
                    its == Column.MARK && line.marked() ? Theme.font(1).deriveFont(java.awt.Font.BOLD) : Theme.font(1));
            boolean strong = its == Column.WHEN || its == Column.CONE || (its == Column.MARK && line.marked());
            text.setForeground(Theme.colour(its == Column.MARK && line.marked() ? "ember" : strong ? "text" : "quiet"));
            text.setOpaque(true);
            text.setBackground(ground);
            boolean stands = selected && table.isFocusOwner() && its == Column.MARK;
            text.setBorder(
                    stands
                            ? BorderFactory.createCompoundBorder(
                                    BorderFactory.createMatteBorder(0, 4, 0, 0, Theme.colour("ember")),
                                    BorderFactory.createEmptyBorder(0, 4, 0, 4))
                            : BorderFactory.createEmptyBorder(0, 8, 0, 4));
            text.setHorizontalAlignment(its == Column.PEAK ? SwingConstants.TRAILING : SwingConstants.LEADING);
            text.getAccessibleContext().setAccessibleName(line.spoken(words));
            return text;
        }
    }

    /** A curve in small: its shape, from the same zero and to the same height in every line, so that they compare. */
    private static final class Spark extends JPanel {
        private static final long serialVersionUID = 1L;
        private static final double HIGHEST_C = 1320;
        private transient Optional<CurveSketch> sketch = Optional.empty();
        private Color ground = Color.BLACK;

        void show(Optional<CurveSketch> its, Color behind) {
            sketch = its;
            ground = behind;
        }

        @Override
        protected void paintComponent(Graphics graphics) {
            graphics.setColor(ground);
            graphics.fillRect(0, 0, getWidth(), getHeight());
            Graphics2D g = (Graphics2D) graphics.create();
            if (sketch.isEmpty()) {
                // Being worked out: not the same as a firing without a curve.
                g.setColor(Theme.colour("quiet"));
                g.setFont(Theme.font(1));
                g.drawString("…", 8, getHeight() - 6);
                g.dispose();
                return;
            }
            g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
            g.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
            double left = 8;
            double width = getWidth() - 16.0;
            double floor = getHeight() - 6.0;
            double height = getHeight() - 12.0;
            Path2D line = new Path2D.Double();
            Path2D below = new Path2D.Double();
            boolean begun = false;
            double x = left;
            CurveSketch its = sketch.get();
            for (int column = 0; column < its.columns(); column++) {
                if (its.highestC(column).isEmpty()) {
                    continue;
                }
                x = left + width * column / (its.columns() - 1);
                double share = Math.max(0, Math.min(1, its.highestC(column).getAsDouble() / HIGHEST_C));
                double y = floor - height * share;
                if (begun) {
                    line.lineTo(x, y);
                } else {
                    line.moveTo(x, y);
                    below.moveTo(x, floor);
                    begun = true;
                }
                below.lineTo(x, y);
            }
            if (begun) {
                below.lineTo(x, floor);
                below.closePath();
                g.setPaint(Theme.colour("chart.glow"));
                g.fill(below);
                g.setPaint(Theme.colour("chart.curve"));
                g.setStroke(new BasicStroke(1.6f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
                g.draw(line);
            }
            g.dispose();
        }
    }

    @Override
    protected JTableHeader createDefaultTableHeader() {
        JTableHeader header = super.createDefaultTableHeader();
        header.setOpaque(false);
        return header;
    }
}

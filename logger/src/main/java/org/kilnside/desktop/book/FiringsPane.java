package org.kilnside.desktop.book;

import com.formdev.flatlaf.FlatClientProperties;
import java.awt.Component;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Supplier;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javax.swing.BorderFactory;
import javax.swing.DefaultListCellRenderer;
import javax.swing.JComboBox;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTextArea;
import javax.swing.JTextField;
import javax.swing.event.DocumentEvent;
import javax.swing.event.DocumentListener;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.Fold;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.wording.DayText;
import org.kilnside.wording.Words;

/** The list of firings with its search. Only shows; what is wished is told to the screen. */
final class FiringsPane extends JPanel {
    private static final long serialVersionUID = 1L;

    private final JTextField search = new JTextField();
    private final Choice kiln;
    private final Choice plan;
    private final Choice cone;
    private final JTextField when = new JTextField(13);
    private final transient Supplier<Instant> now;
    private transient Words words;
    private final FiringsTable table;
    private final JLabel count = Labels.quiet("");
    private final JLabel progress = Labels.quiet("");
    private final JTextArea trouble = Labels.wrapping("", "foreground: $Kilnside.text");
    private final Card troubleCard = new Card(new MigLayout("insets 8 14 8 14, fill", "[grow, fill]"));
    private final transient Consumer<FiringList.Filter> looked;
    private final MigLayout narrowing = new MigLayout();
    private final JPanel top = new JPanel(narrowing);
    private final transient Fold fold;
    private boolean quiet;

    /** One of the things a list is narrowed by; its first entry is all. */
    private static final class Choice extends JComboBox<String> {
        private static final long serialVersionUID = 1L;
        private transient List<String> values = List.of();
        private transient List<String> labels = List.of();

        Choice() {
            DefaultListCellRenderer plain = new DefaultListCellRenderer();
            // A name a person wrote is shown as it is, whatever it looks like.
            plain.putClientProperty("html.disable", true);
            setRenderer(plain);
        }

        /** Offers values, each said by a label of its own. */
        void offer(String all, Set<String> offered, UnaryOperator<String> label, String name) {
            List<String> said =
                    Stream.concat(Stream.of(all), offered.stream().map(label)).toList();
            getAccessibleContext().setAccessibleName(name);
            setToolTipText(name);
            if (said.equals(labels)) {
                return;
            }
            Optional<String> before = chosen();
            values = List.copyOf(offered);
            labels = said;
            removeAllItems();
            labels.forEach(this::addItem);
            setSelectedIndex(before.map(its -> values.indexOf(its) + 1).orElse(0));
        }

        Optional<String> chosen() {
            return getSelectedIndex() <= 0 || getSelectedIndex() > values.size()
                    ? Optional.empty()
                    : Optional.of(values.get(getSelectedIndex() - 1));
        }
    }

    /** @param now the time of day, by which "since May" is understood; never waits */
    FiringsPane(
            Words words,
            Supplier<Instant> now,
            Consumer<FiringList.Filter> look,
            Consumer<FiringList.Order> sortBy,
            Runnable open) {
        super(new MigLayout(
                "insets 8 16 8 16, fill, wrap 1, gap 10, hidemode 3", "[grow, fill]", "[][][grow, fill][]"));
        looked = look;
        setOpaque(false);
        kiln = new Choice();
        plan = new Choice();
        cone = new Choice();
        this.words = words;
        this.now = now;
        table = new FiringsTable(words, sortBy, open);
        top.setOpaque(false);
        top.add(search);
        top.add(when);
        for (Choice choice : List.of(kiln, plan, cone)) {
            top.add(choice);
            choice.addActionListener(event -> tell());
        }
        DocumentListener typed = new DocumentListener() {
            @Override
            public void insertUpdate(DocumentEvent event) {
                tell();
            }

            @Override
            public void removeUpdate(DocumentEvent event) {
                tell();
            }

            @Override
            public void changedUpdate(DocumentEvent event) {
                tell();
            }
        };
        for (JTextField field : List.of(search, when)) {
            field.getDocument().addDocumentListener(typed);
            KeyRow.bindHere(field, "DOWN", table::requestFocusInWindow);
            KeyRow.bindHere(field, "ENTER", table::requestFocusInWindow);
        }
        JScrollPane scroll = new JScrollPane(table);
        // Not null: a table gives its scroll pane a border where there is none.
        scroll.setBorder(BorderFactory.createEmptyBorder());
        scroll.setOpaque(false);
        scroll.getViewport().setOpaque(false);
        scroll.setColumnHeader(new javax.swing.JViewport());
        scroll.getColumnHeader().setOpaque(false);
        Card card = new Card(new MigLayout("insets 6 8 6 8, fill", "[grow, fill]", "[grow, fill]"));
        card.add(scroll, "wmin 0, hmin 0");
        troubleCard.ground("lookGround");
        trouble.putClientProperty(FlatClientProperties.STYLE, "foreground: $Kilnside.lookText");
        troubleCard.add(trouble, "growx, wmin 0");
        troubleCard.setVisible(false);
        JPanel bottom = new JPanel(new MigLayout("insets 0, fillx", "[grow, fill][]"));
        bottom.setOpaque(false);
        bottom.add(count, "growx, wmin 0");
        bottom.add(progress);
        add(top, "cell 0 0, growx, wmin 0");
        fold = new Fold(
                this, () -> getFontMetrics(Theme.font(1)).getHeight() * FiringsTable.LEAST_LINES, this::arrange);
        add(troubleCard, "cell 0 1, growx, wmin 0");
        add(card, "cell 0 2, grow, wmin 0, hmin 0");
        add(bottom, "cell 0 3, growx, wmin 0");
    }

    /** What a list is narrowed by: in one row, or the choices below what is written. */
    private void arrange(boolean narrow) {
        narrowing.setLayoutConstraints("insets 0, fillx, gap 8");
        narrowing.setColumnConstraints(
                narrow ? "[grow, fill, sg][grow, fill, sg][grow, fill, sg]" : "[grow, fill][][][][]");
        narrowing.setComponentConstraints(search, "cell 0 0" + (narrow ? " 2 1" : "") + ", growx, wmin 120");
        narrowing.setComponentConstraints(when, (narrow ? "cell 2 0" : "cell 1 0") + ", wmin 90");
        List<Choice> choices = List.of(kiln, plan, cone);
        for (int i = 0; i < choices.size(); i++) {
            narrowing.setComponentConstraints(
                    choices.get(i), narrow ? "cell " + i + " 1, wmin 60" : "cell " + (i + 2) + " 0, wmin 60, wmax 200");
        }
    }

    @Override
    public void doLayout() {
        fold.settle();
        super.doLayout();
    }

    private void tell() {
        if (!quiet) {
            looked.accept(filter());
        }
    }

    private FiringList.Filter filter() {
        return new FiringList.Filter(search.getText(), kiln.chosen(), plan.chosen(), cone.chosen(), days());
    }

    private Optional<DayText.Days> days() {
        return DayText.days(
                when.getText(),
                LocalDate.ofInstant(now.get(), words.preferences().zone()));
    }

    /** What is written there names no days, so that it narrows nothing: that is said, in place. */
    private boolean namesNoDays() {
        return !when.getText().isBlank() && days().isEmpty();
    }

    /**
     * Shows the list.
     *
     * @param busy what is being done, and how far it is; empty when nothing is
     * @param said what a person has to know; empty when all is well
     */
    void show(
            FiringList list,
            List<FiringLine> lines,
            Optional<String> busy,
            Optional<String> said,
            boolean read,
            Words language) {
        words = language;
        quiet = true;
        search.putClientProperty(FlatClientProperties.PLACEHOLDER_TEXT, words.text("firings.search_hint"));
        search.putClientProperty(FlatClientProperties.TEXT_FIELD_SHOW_CLEAR_BUTTON, true);
        search.getAccessibleContext().setAccessibleName(words.text("firings.search"));
        kiln.offer(words.text("firings.all_kilns"), list.kilns(), its -> its, words.text("firings.column.kiln"));
        plan.offer(words.text("firings.all_plans"), list.plans(), its -> its, words.text("firings.column.plan"));
        cone.offer(
                words.text("firings.all_cones"),
                list.cones(),
                its -> FiringLine.cone(its, words),
                words.text("firings.column.cone"));
        when.putClientProperty(FlatClientProperties.PLACEHOLDER_TEXT, words.text("firings.when_hint"));
        when.putClientProperty(FlatClientProperties.TEXT_FIELD_SHOW_CLEAR_BUTTON, true);
        when.putClientProperty(
                FlatClientProperties.OUTLINE, namesNoDays() ? FlatClientProperties.OUTLINE_WARNING : null);
        when.setToolTipText(words.text("firings.when_expected"));
        when.getAccessibleContext().setAccessibleName(words.text("firings.when"));
        when.getAccessibleContext().setAccessibleDescription(words.text("firings.when_expected"));
        quiet = false;
        table.show(list, lines, words);
        count.setText(namesNoDays() ? words.text("firings.when_expected") : counted(list, lines, read, words));
        progress.setText(busy.orElse(" "));
        troubleCard.setVisible(said.isPresent());
        trouble.setText(said.orElse(""));
    }

    private static String counted(FiringList list, List<FiringLine> lines, boolean read, Words words) {
        if (list.all().isEmpty()) {
            return words.text(read ? "firings.none_yet" : "firings.reading");
        }
        String all = lines.size() == list.all().size()
                ? lines.size() == 1 ? words.text("firings.one") : words.text("firings.count", lines.size())
                : words.text("firings.count_of", lines.size(), list.all().size());
        long marked = lines.stream().filter(FiringLine::marked).count();
        return Stream.of(all, marked == 0 ? "" : words.text("firings.marked_count", marked))
                .filter(part -> !part.isEmpty())
                .collect(Collectors.joining("  ·  "));
    }

    FiringsTable table() {
        return table;
    }

    void search() {
        search.requestFocusInWindow();
        search.selectAll();
    }

    boolean isSearching() {
        Component owner =
                java.awt.KeyboardFocusManager.getCurrentKeyboardFocusManager().getFocusOwner();
        return owner == search || owner == when;
    }

    /** Forgets what was looked for. */
    void clearSearch() {
        List<JComboBox<String>> choices = new ArrayList<>(List.of(kiln, plan, cone));
        quiet = true;
        search.setText("");
        when.setText("");
        choices.forEach(choice -> choice.setSelectedIndex(choice.getItemCount() > 0 ? 0 : -1));
        quiet = false;
        tell();
    }
}

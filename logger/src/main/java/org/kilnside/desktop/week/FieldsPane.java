package org.kilnside.desktop.week;

import java.awt.Component;
import java.awt.event.FocusAdapter;
import java.awt.event.FocusEvent;
import java.time.Instant;
import java.time.format.TextStyle;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import javax.swing.DefaultComboBoxModel;
import javax.swing.DefaultListCellRenderer;
import javax.swing.JCheckBox;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JTextArea;
import javax.swing.SwingUtilities;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.outlook.Ware;
import org.kilnside.week.Load;
import org.kilnside.week.Week;
import org.kilnside.wording.Words;

/** The fields of the week itself, or of the load chosen; each with its sentence when what is typed is no value. */
final class FieldsPane extends JPanel {
    private static final long serialVersionUID = 1L;

    /** What is written at some length. */
    private static final Set<WeekField> WIDE = EnumSet.of(WeekField.THERE, WeekField.AWAY);

    private final transient WeekModel model;
    private final transient Map<WeekField, JLabel> labels = new EnumMap<>(WeekField.class);
    private final transient Map<WeekField, JComponent> inputs = new EnumMap<>(WeekField.class);
    private final transient Map<WeekField, List<String>> options = new EnumMap<>(WeekField.class);
    private final JTextArea wrong = Labels.wrapping("", "foreground: $Kilnside.ember");
    private final transient MigLayout layout = new MigLayout("insets 0, fillx, gapx 8, gapy 3, hidemode 3", "", "");
    private final JPanel grid = new JPanel(layout);
    private boolean isLoad;
    private boolean isNarrow;
    private boolean filling;

    FieldsPane(WeekModel model) {
        super(new MigLayout("insets 8 12 8 12, fillx, wrap 1, gap 4, hidemode 3", "[grow, fill]", ""));
        this.model = model;
        setOpaque(false);
        grid.setOpaque(false);
        for (WeekField field : WeekField.values()) {
            labels.put(field, Labels.quiet(""));
            inputs.put(field, input(field));
            labels.get(field).setLabelFor(inputs.get(field));
            grid.add(labels.get(field));
            grid.add(inputs.get(field));
        }
        add(wrong, "growx, wmin 0");
        add(grid, "growx, wmin 0");
        arrange();
    }

    private JComponent input(WeekField field) {
        return switch (field.kind()) {
            case TEXT -> new WeekInput(model, new WeekModel.Place(field, 0));
            case CHOICE -> choice(field);
            case TICK -> tick(field);
        };
    }

    private JComponent choice(WeekField field) {
        JComboBox<String> box = new JComboBox<>();
        box.setRenderer(new Said(field));
        box.addActionListener(event -> {
            if (!filling && box.getSelectedItem() instanceof String value) {
                model.typed(place(field), value);
            }
        });
        settles(box);
        return box;
    }

    private JComponent tick(WeekField field) {
        JCheckBox box = new JCheckBox();
        box.setOpaque(false);
        box.addActionListener(event -> model.typed(place(field), box.isSelected() ? WeekTexts.YES : WeekTexts.NO));
        settles(box);
        return box;
    }

    private void settles(JComponent input) {
        input.addFocusListener(new FocusAdapter() {
            @Override
            public void focusGained(FocusEvent event) {
                input.scrollRectToVisible(new java.awt.Rectangle(0, 0, input.getWidth(), input.getHeight()));
            }

            @Override
            public void focusLost(FocusEvent event) {
                model.left();
            }
        });
    }

    private WeekModel.Place place(WeekField field) {
        return new WeekModel.Place(field, field.isOfALoad() ? model.selected() : 0);
    }

    /** The width at which two fields stand beside each other. */
    private int least() {
        int line = getFontMetrics(Theme.font(1)).getHeight();
        int label = labels.entrySet().stream()
                .filter(its ->
                        its.getKey().isOfALoad() == isLoad && its.getKey().kind() != WeekField.Kind.TICK)
                .mapToInt(its -> its.getValue().getPreferredSize().width)
                .max()
                .orElse(0);
        return 2 * (label + 9 * line) + 3 * line;
    }

    /** Where each stands; none is taken out and put in again, or what has the keyboard would lose it. */
    private void arrange() {
        layout.setColumnConstraints(isNarrow ? "[][grow, fill]" : "[][grow, fill, sg f]12[][grow, fill, sg f]");
        int column = 0;
        int row = 0;
        for (WeekField field : WeekField.values()) {
            boolean isIts = field.isOfALoad() == isLoad;
            labels.get(field).setVisible(isIts && field.kind() != WeekField.Kind.TICK);
            inputs.get(field).setVisible(isIts);
            boolean whole = isNarrow || field.kind() == WeekField.Kind.TICK || WIDE.contains(field);
            if (isIts && whole && column > 0) {
                column = 0;
                row++;
            }
            boolean tick = field.kind() == WeekField.Kind.TICK;
            layout.setComponentConstraints(labels.get(field), "cell " + column + " " + row);
            layout.setComponentConstraints(
                    inputs.get(field),
                    "cell " + (column + (tick ? 0 : 1)) + " " + row + " " + (whole ? tick ? 4 : 3 : 1) + " 1, wmin "
                            + (tick ? 0 : 60) + (tick ? "" : ", growx"));
            if (isIts) {
                column = whole || column > 0 ? 0 : 2;
                row += column == 0 ? 1 : 0;
            }
        }
        grid.revalidate();
        grid.repaint();
    }

    @Override
    public void doLayout() {
        boolean narrow = getWidth() < least();
        if (narrow != isNarrow) {
            isNarrow = narrow;
            arrange();
            // Its height is another now, which what is around it has to hear of.
            SwingUtilities.invokeLater(this::revalidate);
        }
        super.doLayout();
    }

    void show(Words words) {
        Optional<Week> week = model.week();
        if (week.isEmpty()) {
            return;
        }
        filling = true;
        boolean load = model.selected() > 0;
        boolean isOther = load != isLoad;
        isLoad = load;
        WeekTexts texts = new WeekTexts(words, model.now());
        List<String> problems = new ArrayList<>();
        for (WeekField field : WeekField.values()) {
            if (field.isOfALoad() == isLoad) {
                show(field, texts, week.get(), words);
                model.rejected(place(field))
                        .ifPresent(each -> problems.add(words.named("week.field", field) + ": " + each.sentence()));
            }
        }
        if (isOther) {
            // Now that they have their names: how wide those are says whether two stand beside each other.
            isNarrow = getWidth() < least();
            arrange();
        }
        wrong.setText(String.join("\n", problems));
        wrong.setVisible(!problems.isEmpty());
        filling = false;
    }

    private void show(WeekField field, WeekTexts texts, Week week, Words words) {
        String name = words.named("week.field", field);
        String value = field == WeekField.KILN ? kiln(week) : texts.of(field, model.selected(), week);
        labels.get(field).setText(name);
        JComponent input = inputs.get(field);
        boolean can = model.isOpen()
                && (field != WeekField.DRYING
                        || model.load().flatMap(Load::after).isPresent());
        input.setEnabled(can);
        if (input instanceof WeekInput typed) {
            typed.show(place(field), value, name, hint(field, words), weekday(field, week, words));
        } else if (input instanceof JCheckBox box) {
            box.setText(name);
            box.setSelected(value.equals(WeekTexts.YES));
        } else if (input instanceof JComboBox<?> box) {
            box.getAccessibleContext().setAccessibleName(name);
            fill(field, box, week, value);
        }
    }

    /** A week may name its kiln by what it is called inside. */
    private String kiln(Week week) {
        return model.kilns().stream()
                .filter(kiln -> kiln.title().equals(week.kiln()))
                .findFirst()
                .map(WeekShelf.KilnChoice::shortName)
                .orElse(week.kiln());
    }

    @SuppressWarnings("unchecked")
    private void fill(WeekField field, JComboBox<?> box, Week week, String value) {
        List<String> its = new ArrayList<>(choices(field, week));
        if (!its.contains(value)) {
            // A file may name what is not offered here, such as a plan by its path.
            its.add(0, value);
        }
        if (!its.equals(options.get(field))) {
            options.put(field, its);
            ((JComboBox<String>) box).setModel(new DefaultComboBoxModel<>(its.toArray(String[]::new)));
        }
        if (!value.equals(box.getSelectedItem())) {
            box.setSelectedItem(value);
        }
        box.repaint();
    }

    private List<String> choices(WeekField field, Week week) {
        return switch (field) {
            case KILN ->
                model.kilns().stream().map(WeekShelf.KilnChoice::shortName).toList();
            case PLAN ->
                model.plans().stream().map(WeekShelf.PlanChoice::shortName).toList();
            case WARE -> List.of("", Ware.State.RAW.name(), Ware.State.GLAZED.name());
            default -> {
                List<String> names = new ArrayList<>(List.of(""));
                names.addAll(WeekEdits.mayWaitFor(week, model.selected()));
                yield names;
            }
        };
    }

    private static String hint(WeekField field, Words words) {
        return switch (field) {
            case DUE -> words.text("week.hint.due");
            case THERE -> words.text("week.hint.there");
            case AWAY -> words.text("week.hint.away");
            case FREE -> words.text("week.hint.now");
            case READY -> words.text("week.hint.ready");
            case LOAD_DUE -> words.text("week.hint.load_due");
            case WEIGHT -> words.text("week.hint.weight");
            case THICKNESS -> words.text("week.hint.thickness");
            default -> "";
        };
    }

    /** A date is read sooner with its day beside it. */
    private String weekday(WeekField field, Week week, Words words) {
        Optional<Instant> moment = switch (field) {
            case DUE -> week.due();
            case FREE -> week.kilnFree();
            case READY -> model.load().flatMap(Load::ready);
            case LOAD_DUE -> model.load().flatMap(Load::due);
            default -> Optional.empty();
        };
        return moment.map(its -> its.atZone(week.zone())
                        .getDayOfWeek()
                        .getDisplayName(TextStyle.SHORT, words.language().locale()))
                .orElse("");
    }

    /** Hands on what is being written. */
    void commit() {
        inputs.values().forEach(input -> {
            if (input instanceof WeekInput typed && typed.isShowing()) {
                typed.commit();
            }
        });
    }

    /** To the first field. */
    void begin() {
        inputs.get(isLoad ? WeekField.LOAD_NAME : WeekField.NAME).requestFocusInWindow();
    }

    /** Choices in words. */
    private final class Said extends DefaultListCellRenderer {
        private static final long serialVersionUID = 1L;
        private final WeekField field;

        Said(WeekField field) {
            this.field = field;
        }

        @Override
        public Component getListCellRendererComponent(
                JList<?> its, Object value, int index, boolean isSelected, boolean hasFocus) {
            String said = said(field, value == null ? "" : String.valueOf(value));
            // Never empty: the box would be as low as nothing.
            return super.getListCellRendererComponent(its, said.isEmpty() ? " " : said, index, isSelected, hasFocus);
        }
    }

    private String said(WeekField field, String value) {
        Words words = model.words();
        return switch (field) {
            case KILN ->
                model.kilns().stream()
                        .filter(kiln -> kiln.shortName().equals(value))
                        .findFirst()
                        .map(WeekShelf.KilnChoice::title)
                        .orElse(value);
            case PLAN ->
                model.plans().stream()
                        .filter(plan -> plan.shortName().equals(value))
                        .findFirst()
                        .map(plan -> plan.plan().name())
                        .orElse(value);
            case WARE ->
                value.isEmpty()
                        ? words.text("plans.ware.unknown")
                        : words.text(value.equals("RAW") ? "plans.ware.RAW" : "plans.ware.GLAZED");
            default -> value.isEmpty() ? words.text("week.after_none") : value;
        };
    }
}

package org.kilnside.desktop.night;

import com.formdev.flatlaf.FlatClientProperties;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import javax.swing.JCheckBox;
import javax.swing.JLabel;
import javax.swing.JTextArea;
import javax.swing.JTextField;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.KeyButton;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.firing.Lighting;
import org.kilnside.firing.Lighting.Item;
import org.kilnside.quantity.Temperature;
import org.kilnside.wording.LightingWords;
import org.kilnside.wording.Words;

/** The list before lighting: ticked here, and written into the record as a whole with one key. */
final class ListPane extends Card {
    private static final long serialVersionUID = 1L;

    private final JLabel head = Labels.head("");
    private final Map<Item, JCheckBox> boxes = new EnumMap<>(Item.class);
    private final Map<Item, JTextArea> words = new EnumMap<>(Item.class);
    private final JTextField cutOut = new JTextField(10);
    private final JLabel cutOutHead = Labels.quiet("");
    private final JTextField attends = new JTextField(16);
    private final JLabel attendsHead = Labels.quiet("");
    private final JTextArea lastHeard = Labels.wrapping("", "foreground: $Kilnside.quiet");
    private final KeyButton note = new KeyButton();
    private final KeyButton skip = new KeyButton();
    private final JTextArea summary = Labels.wrapping("", "foreground: $Kilnside.quiet");
    private final transient Consumer<Lighting> taker;
    private final transient NightScreen.TypedTemperature reader;
    private transient Words language;
    private transient Optional<Lighting> shown = Optional.empty();

    /** @param taker takes the list; must return at once */
    ListPane(Consumer<Lighting> taker, NightScreen.TypedTemperature reader) {
        super(new MigLayout("insets 10 14 12 14, fillx, wrap 2, gap 6 5", "[][grow, fill]", ""));
        this.taker = taker;
        this.reader = reader;
        add(head, "span 2, gapbottom 4");
        for (Item item : Item.values()) {
            JCheckBox box = new JCheckBox();
            box.setOpaque(false);
            JTextArea text = Labels.wrapping("", "foreground: $Kilnside.text");
            boxes.put(item, box);
            words.put(item, text);
            add(box, "aligny top");
            add(text, "growx, wmin 0");
            if (item == Item.CUT_OUT) {
                beside(cutOutHead, cutOut);
            } else if (item == Item.ATTENDANCE) {
                beside(attendsHead, attends);
            } else if (item == Item.ALARM) {
                add(lastHeard, "skip 1, growx, wmin 0");
            }
        }
        note.addActionListener(event -> noteIt());
        skip.addActionListener(event -> skipIt());
        add(note, "span 2, split 2, growx 0, gaptop 6");
        add(skip, "growx 0");
        add(summary, "span 2, growx, wmin 0");
    }

    private void beside(JLabel label, JTextField field) {
        label.setLabelFor(field);
        add(label, "skip 1, split 2, growx 0");
        add(field, "growx, wmin 60");
    }

    void show(NightModel model, Words its) {
        language = its;
        LightingWords says = new LightingWords(its);
        head.setText(its.text("night.list"));
        for (Item item : Item.values()) {
            String text = says.item(item);
            if (!words.get(item).getText().equals(text)) {
                words.get(item).setText(text);
                boxes.get(item).getAccessibleContext().setAccessibleName(text);
            }
        }
        cutOutHead.setText(
                its.text("lighting.ask_cut_out_short", its.preferences().unit().symbol()));
        attendsHead.setText(its.text("lighting.ask_attends"));
        String heard = String.join("\n", model.lastHeard());
        if (!lastHeard.getText().equals(heard)) {
            lastHeard.setText(heard);
        }
        note.say(its.text("night.note"), "ctrl S", its);
        skip.say(its.text("night.skip"), "ctrl K", its);
        note.setEnabled(model.listOpen());
        skip.setEnabled(model.listOpen());
        String said = model.listOpen() ? model.summary() : model.summary() + " " + its.text("night.only_looking");
        if (!summary.getText().equals(said)) {
            summary.setText(said);
        }
        if (!model.noted().equals(shown)) {
            // Ticked on another copy, or by this one a moment ago: the record's word counts.
            shown = model.noted();
            shown.ifPresent(this::take);
        }
    }

    private void take(Lighting list) {
        boxes.forEach((item, box) -> box.setSelected(list.ticked().contains(item)));
        cutOut.setText(list.cutOut().map(language::temperature).orElse(""));
        attends.setText(list.attends().orElse(""));
    }

    private Lighting ticked() {
        Lighting list = Lighting.OPEN;
        for (Map.Entry<Item, JCheckBox> box : boxes.entrySet()) {
            list = list.with(box.getKey(), box.getValue().isSelected());
        }
        return list.withAttends(Optional.of(attends.getText()));
    }

    void noteIt() {
        if (!note.isEnabled()) {
            return;
        }
        try {
            Optional<Temperature> at = cutOutTyped();
            cutOut.putClientProperty(FlatClientProperties.OUTLINE, null);
            taker.accept(ticked().withCutOut(at));
        } catch (IllegalArgumentException e) {
            cutOut.putClientProperty(FlatClientProperties.OUTLINE, FlatClientProperties.OUTLINE_ERROR);
            summary.setText(e.getMessage());
            cutOut.requestFocusInWindow();
        }
    }

    void skipIt() {
        if (skip.isEnabled()) {
            taker.accept(ticked().skip());
        }
    }

    private Optional<Temperature> cutOutTyped() {
        String typed = cutOut.getText().strip();
        if (typed.isEmpty()) {
            return Optional.empty();
        }
        String withUnit = typed.matches("\\d+([.,]\\d+)?")
                ? typed + " " + language.preferences().unit().symbol()
                : typed;
        return Optional.of(reader.read(withUnit));
    }

    JCheckBox firstBox() {
        return boxes.get(Item.PROGRAM);
    }
}

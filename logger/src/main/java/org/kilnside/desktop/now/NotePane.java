package org.kilnside.desktop.now;

import com.formdev.flatlaf.FlatClientProperties;
import java.awt.event.ActionEvent;
import java.awt.event.InputEvent;
import java.awt.event.KeyEvent;
import java.util.List;
import java.util.function.Consumer;
import javax.swing.AbstractAction;
import javax.swing.Action;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JOptionPane;
import javax.swing.KeyStroke;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.KeyButton;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.wording.Opening;
import org.kilnside.wording.Words;

/** "I did": what a person did at the kiln, put into the record at this moment with one key. */
final class NotePane extends Card {
    private static final long serialVersionUID = 1L;
    private static final List<String> DEEDS =
            List.of("note.bung", "note.vent", "note.opening", "note.cone", "note.other");

    private final JLabel head = Labels.head("");
    private final JLabel keys = Labels.quiet("");
    private final KeyButton[] buttons = new KeyButton[DEEDS.size()];
    private final KeyButton hand = new KeyButton();
    private final transient Consumer<String> note;
    private final transient Consumer<NowModel.Hand> byHand;
    private transient Words words;
    private boolean heard = true;
    private NowModel.Hand handNow = NowModel.Hand.NOTHING;

    NotePane(Consumer<String> note, Consumer<NowModel.Hand> byHand) {
        super(new MigLayout("insets 7 14 8 14, fillx, wrap 2, gap 6 4", "[grow, fill, sg][grow, fill, sg]", ""));
        this.note = note;
        this.byHand = byHand;
        add(head, "span 2, split 2, growx 0");
        add(keys, "growx, pushx, wmin 0");
        for (int i = 0; i < buttons.length; i++) {
            int which = i;
            Action deed = new AbstractAction() {
                private static final long serialVersionUID = 1L;

                @Override
                public void actionPerformed(ActionEvent event) {
                    did(DEEDS.get(which));
                }
            };
            buttons[i] = new KeyButton();
            buttons[i].addActionListener(deed);
            buttons[i].putClientProperty(FlatClientProperties.STYLE, "margin: 3,6,3,6");
            KeyStroke key = KeyStroke.getKeyStroke(KeyEvent.VK_1 + i, InputEvent.CTRL_DOWN_MASK);
            getInputMap(JComponent.WHEN_IN_FOCUSED_WINDOW).put(key, DEEDS.get(i));
            getActionMap().put(DEEDS.get(i), deed);
            add(buttons[i], "wmin 0");
        }
        hand.addActionListener(event -> sayByHand());
        hand.putClientProperty(FlatClientProperties.STYLE, "margin: 3,6,3,6");
        add(hand, "wmin 0");
        KeyStroke key = KeyStroke.getKeyStroke(KeyEvent.VK_6, InputEvent.CTRL_DOWN_MASK);
        getInputMap(JComponent.WHEN_IN_FOCUSED_WINDOW).put(key, "hand");
        getActionMap().put("hand", new AbstractAction() {
            private static final long serialVersionUID = 1L;

            @Override
            public void actionPerformed(ActionEvent event) {
                sayByHand();
            }
        });
    }

    /** Whether what is said here reaches the record. */
    void hears(boolean now) {
        heard = now;
    }

    void show(NowModel.Hand its, Words language, boolean recording) {
        words = language;
        handNow = its;
        head.setText(words.text("note.head"));
        keys.setText(words.text(heard ? "key.ctrl_number" : "note.unheard"));
        hand.setEnabled(heard);
        for (int i = 0; i < buttons.length; i++) {
            buttons[i].sayBriefly(label(DEEDS.get(i)), "ctrl " + (i + 1), words);
            buttons[i].setEnabled(recording && heard);
        }
        hand.setVisible(its != NowModel.Hand.NOTHING);
        if (its != NowModel.Hand.NOTHING) {
            hand.sayBriefly(words.text(its == NowModel.Hand.IT_BEGINS ? "note.begins" : "note.over"), "ctrl 6", words);
        }
    }

    private String label(String deed) {
        if (deed.equals("note.opening")) {
            return words.text(words.preferences().opening() == Opening.LID ? "note.lid" : "note.door");
        }
        return words.text(deed);
    }

    private void did(String deed) {
        if (!buttons[0].isEnabled()) {
            return;
        }
        switch (deed) {
            case "note.cone" -> ask(words.text("note.cone_ask"), words.text("note.cone_written"));
            case "note.other" -> ask(words.text("note.other_ask"), "{0}");
            default -> note.accept(label(deed));
        }
    }

    private void ask(String question, String written) {
        String answer = JOptionPane.showInputDialog(this, question, words.text("note.head"), JOptionPane.PLAIN_MESSAGE);
        if (answer != null && !answer.isBlank()) {
            note.accept(written.replace("{0}", answer.strip()));
        }
    }

    private void sayByHand() {
        if (handNow == NowModel.Hand.NOTHING || !heard) {
            return;
        }
        String question = words.text(handNow == NowModel.Hand.IT_BEGINS ? "note.begins_ask" : "note.over_ask");
        Object[] answers = {
            words.text(handNow == NowModel.Hand.IT_BEGINS ? "note.begins" : "note.over"), words.text("window.not_now")
        };
        int answer = JOptionPane.showOptionDialog(
                this,
                question,
                words.text("note.head"),
                JOptionPane.DEFAULT_OPTION,
                JOptionPane.PLAIN_MESSAGE,
                null,
                answers,
                answers[1]);
        if (answer == 0) {
            byHand.accept(handNow);
        }
    }
}

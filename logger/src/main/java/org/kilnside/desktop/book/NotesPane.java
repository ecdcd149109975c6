package org.kilnside.desktop.book;

import java.awt.event.FocusAdapter;
import java.awt.event.FocusEvent;
import java.util.Optional;
import java.util.function.BiConsumer;
import javax.swing.BorderFactory;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTextArea;
import javax.swing.Timer;
import javax.swing.event.DocumentEvent;
import javax.swing.event.DocumentListener;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.wording.Words;

/** The potter's notes on the firing as a whole, saved a second after the last key and when the keyboard leaves. */
final class NotesPane extends JPanel {
    private static final long serialVersionUID = 1L;

    /** More than this is no note any more but a file. */
    private static final int LONGEST = 100_000;

    private final JTextArea area = new JTextArea();
    private final JTextArea wrong = Labels.wrapping("", "foreground: $Kilnside.ember");
    private final Timer later;
    private final transient BiConsumer<Optional<String>, Optional<String>> change;
    private transient Words words;
    private transient Optional<String> saved = Optional.empty();
    private long firing;
    private boolean filling;
    private boolean unsaved;

    NotesPane(Words words, BiConsumer<Optional<String>, Optional<String>> change) {
        super(new MigLayout("insets 0, fill, wrap 1, gap 6, hidemode 3", "[grow, fill]", "[grow, fill][]"));
        this.words = words;
        this.change = change;
        setOpaque(false);
        Labels.letterByLetter(area);
        area.setLineWrap(true);
        area.setWrapStyleWord(true);
        area.setBorder(BorderFactory.createEmptyBorder(8, 10, 8, 10));
        later = new Timer(1000, event -> save());
        later.setRepeats(false);
        area.getDocument().addDocumentListener(new DocumentListener() {
            @Override
            public void insertUpdate(DocumentEvent event) {
                touched();
            }

            @Override
            public void removeUpdate(DocumentEvent event) {
                touched();
            }

            @Override
            public void changedUpdate(DocumentEvent event) {
                touched();
            }
        });
        area.addFocusListener(new FocusAdapter() {
            @Override
            public void focusLost(FocusEvent event) {
                save();
            }
        });
        KeyRow.bindHere(area, "TAB", area::transferFocus);
        KeyRow.bindHere(area, "shift TAB", area::transferFocusBackward);
        JScrollPane scroll = new JScrollPane(area);
        add(scroll, "grow, wmin 0, hmin 0");
        add(wrong, "growx, wmin 0");
        wrong.setVisible(false);
    }

    private void touched() {
        if (!filling) {
            later.restart();
        }
    }

    void show(long number, Optional<String> notes, Words language) {
        words = language;
        area.getAccessibleContext().setAccessibleName(words.text("record.section.notes"));
        boolean other = number != firing;
        if (!other && !unsaved && notes.equals(saved)) {
            return;
        }
        boolean writing = !other && (unsaved || !written().equals(saved));
        unsaved = false;
        String mine = area.getText();
        firing = number;
        saved = notes;
        filling = true;
        area.setText(notes.orElse("") + (writing ? (notes.isPresent() ? "\n\n" : "") + mine : ""));
        filling = false;
        if (writing) {
            // Somebody else was there meanwhile: both are kept, this person's below.
            later.restart();
        } else {
            area.setCaretPosition(0);
        }
    }

    /** What was to be saved was not, as somebody else was there: it is written again below what stands there now. */
    void overtaken() {
        unsaved = true;
    }

    /** What was to be saved was not, as the book could not be written: it stays here, and is saved when that is tried again. */
    void refused(Optional<String> before) {
        saved = before;
    }

    /** The person leaves without what could not be saved. */
    void letGo() {
        saved = written();
    }

    private Optional<String> written() {
        return area.getText().isBlank() ? Optional.empty() : Optional.of(area.getText());
    }

    /** Saves what is written, where it differs from what is saved. */
    void save() {
        later.stop();
        Optional<String> now = written();
        boolean tooLong = now.isPresent() && now.get().length() > LONGEST;
        wrong.setVisible(tooLong);
        if (tooLong) {
            wrong.setText(words.text(
                    "load.too_long",
                    words.text("record.section.notes"),
                    now.get().length(),
                    LONGEST));
        } else if (!now.equals(saved)) {
            Optional<String> before = saved;
            saved = now;
            change.accept(before, now);
        }
    }

    JTextArea area() {
        return area;
    }
}

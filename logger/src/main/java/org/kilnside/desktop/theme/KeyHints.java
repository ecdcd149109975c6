package org.kilnside.desktop.theme;

import java.awt.BorderLayout;
import java.util.Arrays;
import java.util.List;
import javax.swing.JPanel;
import javax.swing.JTextArea;
import org.kilnside.wording.Words;

/** A quiet line below something that keys move, where buttons would say too much: what each key does there. */
public final class KeyHints extends JPanel {
    private static final long serialVersionUID = 1L;
    private final JTextArea line = Labels.wrapping("", "font: 88%; foreground: $Kilnside.quiet");
    private final String text;
    private final String[] strokes;

    /**
     * Builds it, still empty.
     *
     * @param text the key of the text, with a place for each of the keys' names
     * @param strokes the keys, as {@link KeyName} has them
     */
    public KeyHints(String text, String... strokes) {
        super(new BorderLayout());
        this.text = text;
        this.strokes = strokes.clone();
        setOpaque(false);
        add(line);
    }

    public void show(Words words) {
        line.setText(words.text(
                text,
                Arrays.stream(strokes).map(stroke -> KeyName.of(stroke, words)).toArray()));
    }

    /** Every stroke it tells of. */
    public List<String> strokes() {
        return Arrays.stream(strokes)
                .flatMap(stroke -> KeyName.strokes(stroke).stream())
                .toList();
    }
}

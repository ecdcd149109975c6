package org.kilnside.desktop.theme;

import static org.assertj.core.api.Assertions.assertThat;

import java.text.BreakIterator;
import javax.swing.JTextArea;
import org.junit.jupiter.api.Test;

/** Where words on the screen may be broken into lines. */
class LabelsTest {
    /** Text areas ask this for the places where a line may be broken. */
    private static String pieces(String words) {
        JTextArea area = Labels.wrapping(words, "");
        BreakIterator lines = BreakIterator.getLineInstance();
        lines.setText(area.getText());
        StringBuilder pieces = new StringBuilder();
        int from = lines.first();
        for (int to = lines.next(); to != BreakIterator.DONE; from = to, to = lines.next()) {
            pieces.append(area.getText(), from, to).append('|');
        }
        return pieces.toString().replace("\ufeff", "").replace('\u00a0', ' ');
    }

    @Test
    void aTimeOfDayIsNeverTornApart() {
        assertThat(pieces("Sa.\u00a009:56\u00a0– So.\u00a004:59")).isEqualTo("Sa. 09:56 – |So. 04:59|");
        assertThat(pieces("um 09:56, 14:15–14:53")).isEqualTo("um |09:56, |14:15–|14:53|");
    }

    @Test
    void aNumberStaysWithItsUnit() {
        assertThat(pieces("bei 50 °C: 62 % Leistung")).isEqualTo("bei |50 °C: |62 % |Leistung|");
    }
}

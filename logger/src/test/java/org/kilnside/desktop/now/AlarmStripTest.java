package org.kilnside.desktop.now;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.wording.Language;
import org.kilnside.wording.NowSentence;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;

/** How much of the window an alarm takes. */
class AlarmStripTest {
    private static final Words ENGLISH = Words.of(Language.ENGLISH, Preferences.of(java.util.Locale.UK));

    private static int height(boolean isOver) {
        AlarmStrip strip = new AlarmStrip(id -> {});
        AlarmStripModel model = new AlarmStripModel(
                "third-of-power-gone-1",
                isOver ? NowSentence.Tone.CALM : NowSentence.Tone.LOOK,
                isOver,
                "A third of the power is gone",
                "Look soon · since 02:10",
                Optional.of("Seen 67 %, expected 100 %"),
                "Look at the fuses.",
                List.of(),
                "I know",
                true);
        strip.show(Optional.of(model), ENGLISH);
        strip.setSize(1000, 300);
        strip.doLayout();
        return strip.getPreferredSize().height;
    }

    @Test
    void anAlarmThatIsOverTakesOneThinLine() {
        assertThat(height(true)).isLessThan(height(false) / 2);
    }
}

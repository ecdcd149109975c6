package org.kilnside.desktop.theme;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.ZoneId;
import org.junit.jupiter.api.Test;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.Language;
import org.kilnside.wording.Opening;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.TemperatureUnit;
import org.kilnside.wording.Words;

/** Keys by the names that stand on the keyboards of three languages (from memory). */
class KeyNameTest {
    @Test
    void aKeyIsCalledAsItStandsOnTheKeyboard() {
        assertThat(KeyName.of("ctrl S", words(Language.ENGLISH))).isEqualTo("Ctrl+S");
        assertThat(KeyName.of("ctrl shift T", words(Language.GERMAN))).isEqualTo("Strg+Umschalt+T");
        assertThat(KeyName.of("HOME", words(Language.GERMAN))).isEqualTo("Pos1");
        assertThat(KeyName.of("SPACE", words(Language.DUTCH))).isEqualTo("Spatie");
        assertThat(KeyName.of("F12", words(Language.DUTCH))).isEqualTo("F12");
        assertThat(KeyName.of("", words(Language.DUTCH))).isEmpty();
    }

    @Test
    void twoThatBelongTogetherStandTogether() {
        assertThat(KeyName.of("ctrl LEFT/RIGHT", words(Language.ENGLISH))).isEqualTo("Ctrl+← →");
        assertThat(KeyName.strokes("ctrl LEFT/RIGHT")).containsExactly("ctrl LEFT", "ctrl RIGHT");
        assertThat(KeyName.strokes("ctrl shift T")).containsExactly("ctrl shift T");
        assertThat(KeyName.strokes("+/-")).containsExactly("+", "-");
    }

    private static Words words(Language language) {
        return Words.of(
                language,
                new Preferences(
                        TemperatureUnit.CELSIUS,
                        ClockStyle.TWENTY_FOUR_HOURS,
                        ZoneId.of("Europe/Amsterdam"),
                        Opening.LID));
    }
}

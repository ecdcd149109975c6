package org.kilnside.desktop;

import java.time.ZoneId;
import java.util.List;
import java.util.Locale;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.Language;
import org.kilnside.wording.Opening;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.TemperatureUnit;
import org.kilnside.wording.Words;

/**
 * What a person chose for the window.
 *
 * @param theme light or dark
 * @param language of every text
 * @param unit of temperatures
 * @param clock of times
 * @param opening what closes the kiln
 * @param quartz whether the chart marks 573 °C
 * @param textPercent the size of all text, in percent of what fits the screen
 */
public record Settings(
        Theme theme,
        Language language,
        TemperatureUnit unit,
        ClockStyle clock,
        Opening opening,
        boolean quartz,
        int textPercent) {
    /** The sizes of text to choose from, in percent. */
    private static final List<Integer> TEXT_SIZES = List.of(100, 125, 150, 200);

    /** What a computer set up for this place most likely wants. */
    public static Settings of(Locale locale) {
        Preferences preferences = Preferences.of(locale);
        return new Settings(
                Theme.DARK,
                Language.of(locale),
                preferences.unit(),
                preferences.clock(),
                preferences.opening(),
                false,
                100);
    }

    public Words words() {
        return Words.of(language, new Preferences(unit, clock, ZoneId.systemDefault(), opening));
    }

    public Settings withTheme(Theme other) {
        return new Settings(other, language, unit, clock, opening, quartz, textPercent);
    }

    public Settings withLanguage(Language other) {
        return new Settings(theme, other, unit, clock, opening, quartz, textPercent);
    }

    public Settings withUnit(TemperatureUnit other) {
        return new Settings(theme, language, other, clock, opening, quartz, textPercent);
    }

    public Settings withClock(ClockStyle other) {
        return new Settings(theme, language, unit, other, opening, quartz, textPercent);
    }

    public Settings withQuartz(boolean shown) {
        return new Settings(theme, language, unit, clock, opening, shown, textPercent);
    }

    /** The next larger text; after the largest the usual one again. */
    public Settings withNextTextSize() {
        int next = TEXT_SIZES.stream()
                .filter(size -> size > textPercent)
                .findFirst()
                .orElse(TEXT_SIZES.get(0));
        return new Settings(theme, language, unit, clock, opening, quartz, next);
    }
}

package org.kilnside.wording;

import java.util.Locale;

/** The languages the program speaks. */
public enum Language {
    ENGLISH(Locale.ENGLISH),
    DUTCH(new Locale("nl")),
    GERMAN(Locale.GERMAN);

    private final Locale locale;

    Language(Locale locale) {
        this.locale = locale;
    }

    public Locale locale() {
        return locale;
    }

    /** The language's own name for itself. */
    public String ownName() {
        return locale.getDisplayLanguage(locale).substring(0, 1).toUpperCase(locale)
                + locale.getDisplayLanguage(locale).substring(1);
    }

    /** The language of a locale; English where the program does not speak it. */
    public static Language of(Locale locale) {
        for (Language language : values()) {
            if (language.locale.getLanguage().equals(locale.getLanguage())) {
                return language;
            }
        }
        return ENGLISH;
    }

    public Language next() {
        return values()[(ordinal() + 1) % values().length];
    }
}

package org.kilnside.wording;

import java.text.DecimalFormat;
import java.text.DecimalFormatSymbols;
import java.time.Duration;
import java.time.Instant;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.ResourceBundle;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.TemperatureDifference;

/**
 * One language and one person's preferences: says temperatures, rates, durations and times, and looks up texts.
 *
 * <p>Numbers carry their unit always. Temperatures are whole degrees without a thousands mark, as {@code 1.001 °C}
 * would be read as one degree; a minus is U+2212, as wide as a plus.
 */
public final class Words {
    private static final String MINUS = "\u2212";

    /** Below this a tenth of a degree an hour is told. */
    private static final double SLOW = 10;

    private static final double LEAST_TENTH = 0.05;

    private volatile Voice voice;

    private Words(Voice voice) {
        this.voice = voice;
    }

    /** All that hangs on the language and the preferences. */
    private record Voice(
            Language language,
            Preferences preferences,
            ResourceBundle texts,
            DecimalFormatSymbols symbols,
            DateTimeFormatter time,
            DateTimeFormatter timeWithSeconds,
            DateTimeFormatter dayAndTime,
            DateTimeFormatter day,
            DateTimeFormatter date) {
        static Voice of(Language language, Preferences preferences) {
            boolean whole = preferences.clock() == ClockStyle.TWENTY_FOUR_HOURS;
            String dayOfMonth = language == Language.GERMAN ? "d." : "d";
            return new Voice(
                    language,
                    preferences,
                    ResourceBundle.getBundle(
                            "org.kilnside.wording.texts",
                            language.locale(),
                            ResourceBundle.Control.getNoFallbackControl(ResourceBundle.Control.FORMAT_PROPERTIES)),
                    DecimalFormatSymbols.getInstance(language.locale()),
                    formatter(whole ? "HH:mm" : "h:mm a", language, preferences),
                    formatter(whole ? "HH:mm:ss" : "h:mm:ss a", language, preferences),
                    formatter(whole ? "EEE HH:mm" : "EEE h:mm a", language, preferences),
                    formatter("EEE " + dayOfMonth + " MMM", language, preferences),
                    formatter(dayOfMonth + " MMM yyyy", language, preferences));
        }

        private static DateTimeFormatter formatter(String pattern, Language language, Preferences preferences) {
            return DateTimeFormatter.ofPattern(pattern, language.locale()).withZone(preferences.zone());
        }
    }

    /** The words for a locale; English where the program does not speak its language. */
    public static Words of(Locale locale, Preferences preferences) {
        return of(Language.of(locale), preferences);
    }

    public static Words of(Language language, Preferences preferences) {
        return new Words(Voice.of(language, preferences));
    }

    /**
     * These become the other's, wherever they were handed. For the words in which a run speaks as long as it lasts, when
     * somebody chooses another language or unit in its window. From any thread.
     */
    public void become(Words other) {
        voice = other.voice;
    }

    public Language language() {
        return voice.language;
    }

    public Preferences preferences() {
        return voice.preferences;
    }

    /**
     * A text, its places {@code {0}}, {@code {1}} … filled.
     *
     * @throws java.util.MissingResourceException when no text has this key
     */
    public String text(String key, Object... filling) {
        String text = voice.texts.getString(key);
        for (int i = 0; i < filling.length; i++) {
            text = text.replace("{" + i + "}", String.valueOf(filling[i]));
        }
        return text;
    }

    /** The text for one of several cases, its key made of the family's name and the constant's. */
    public String named(String family, Enum<?> constant) {
        return text(family + "." + constant.name());
    }

    /** A text with a first capital letter, to begin a sentence with. */
    public String sentence(String text) {
        return text.isEmpty() ? text : text.substring(0, 1).toUpperCase(voice.language.locale()) + text.substring(1);
    }

    /** A text that stands by itself elsewhere, after a colon: {@code Do not trust this number: the sensor is gone}. */
    public String clause(String text) {
        return text.isEmpty() ? text : text.substring(0, 1).toLowerCase(voice.language.locale()) + text.substring(1);
    }

    /** Whole degrees with their unit: {@code 998 °C}. */
    public String temperature(Temperature temperature) {
        TemperatureUnit unit = voice.preferences.unit();
        return number(unit.of(temperature), 0) + " " + unit.symbol();
    }

    /** Whole degrees without their unit, for where the unit stands beside in another size. */
    public String degrees(Temperature temperature) {
        return number(voice.preferences.unit().of(temperature), 0);
    }

    public String unit() {
        return voice.preferences.unit().symbol();
    }

    /** A span with its sign: {@code +3 °C}. */
    public String difference(TemperatureDifference difference) {
        TemperatureUnit unit = voice.preferences.unit();
        return signed(unit.of(difference)) + " " + unit.symbol();
    }

    /** A span without a sign: {@code 3 °C}. */
    public String span(TemperatureDifference difference) {
        TemperatureUnit unit = voice.preferences.unit();
        return number(Math.abs(unit.of(difference)), 0) + " " + unit.symbol();
    }

    /** A rate with its sign: {@code +98 °C/h}. */
    public String rate(HeatingRate rate) {
        TemperatureUnit unit = voice.preferences.unit();
        return signed(unit.of(rate)) + " " + unit.symbol() + "/" + text("unit.hour");
    }

    /** A rate without its sign, where a word says the direction. */
    public String speed(HeatingRate rate) {
        TemperatureUnit unit = voice.preferences.unit();
        double speed = Math.abs(unit.of(rate));
        // Of a ramp as slow as that a tenth is told, where it has any: nobody plans 0 °C/h.
        boolean tenths = speed < SLOW && Math.abs(speed - Math.rint(speed)) >= LEAST_TENTH;
        return number(speed, tenths ? 1 : 0) + " " + unit.symbol() + "/" + text("unit.hour");
    }

    public String percent(Share share) {
        return number(share.percent(), 0) + " %";
    }

    /** A short duration: {@code 45 s}, {@code 4 min}, {@code 1 h 20 min}. The sign is left out. */
    public String duration(Duration duration) {
        long seconds = duration.abs().toSeconds();
        if (seconds < 60) {
            return seconds + " " + text("unit.second");
        }
        long minutes = Math.round(seconds / 60.0);
        if (minutes < 60) {
            return minutes + " " + text("unit.minute");
        }
        String hours = minutes / 60 + " " + text("unit.hour");
        return minutes % 60 == 0 ? hours : hours + " " + minutes % 60 + " " + text("unit.minute");
    }

    /** A duration in full words, for sentences: {@code 6 minutes}, {@code 1 hour 20 minutes}. The sign is left out. */
    public String durationInWords(Duration duration) {
        long minutes = Math.round(duration.abs().toSeconds() / 60.0);
        String rest = minutes % 60 == 1 ? text("words.minute") : text("words.minutes", minutes % 60);
        if (minutes < 60) {
            return rest;
        }
        String hours = minutes / 60 == 1 ? text("words.hour") : text("words.hours", minutes / 60);
        return minutes % 60 == 0 ? hours : hours + " " + rest;
    }

    /** How long ago: {@code 3 s ago}. */
    public String ago(Duration age) {
        return text("ago", duration(age));
    }

    /** A moment by the clock in a sentence: {@code at Thu 14:05}. */
    String atClock(String time) {
        return text("moment.on_clock", time);
    }

    /**
     * A moment where no clock is known, in a sentence: {@code after 5 h 1 min}. Never with the word a time of day has, or 21 h
     * 1 min is read as one.
     */
    public String after(Duration elapsed) {
        return text("moment.after", duration(elapsed));
    }

    /** A time of day: {@code 14:05} or {@code 2:05 PM}. */
    public String time(Instant instant) {
        return voice.time.format(instant);
    }

    public String timeWithSeconds(Instant instant) {
        return voice.timeWithSeconds.format(instant);
    }

    /** A time with its day: {@code Thu 14:05}. */
    public String dayAndTime(Instant instant) {
        return voice.dayAndTime.format(instant);
    }

    /** A day: {@code Thu 26 Nov}. */
    public String day(Instant instant) {
        return voice.day.format(instant);
    }

    /** A day with its year: {@code 26 Nov 2026}. */
    public String date(Instant instant) {
        return voice.date.format(instant);
    }

    /** The language's decimal mark: a point or a comma. */
    public char decimalMark() {
        return voice.symbols.getDecimalSeparator();
    }

    /** A number with the language's decimal mark and a true minus; no thousands mark. */
    public String number(double value, int decimals) {
        DecimalFormat format = new DecimalFormat(decimals == 0 ? "0" : "0." + "0".repeat(decimals), voice.symbols);
        String digits = format.format(Math.abs(value));
        boolean nothing = digits.chars().noneMatch(c -> c >= '1' && c <= '9');
        return value < 0 && !nothing ? MINUS + digits : digits;
    }

    private String signed(double value) {
        String digits = number(value, 0);
        return value > 0 && !digits.equals("0") ? "+" + digits : digits;
    }
}

package org.kilnside.desktop.kiln;

import java.util.Optional;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import org.kilnside.files.KilnSetting;
import org.kilnside.files.UnitText;
import org.kilnside.firing.Kiln;
import org.kilnside.quantity.Temperature;
import org.kilnside.wording.Words;

/**
 * Why a kiln cannot have what was typed, in the person's language and unit. The rules are those of the kiln's file, which
 * has refused it already: this says what they come to.
 */
final class KilnRefusal {
    private static final int LONGEST_NAME = 80;
    private static final int LONGEST_ISOLATOR = 120;
    private static final int LONGEST_QUOTED = 24;
    private static final Temperature LOWEST_TOP = Temperature.ofCelsius(100);
    private static final Temperature HIGHEST_TOP = Temperature.ofCelsius(1800);
    private static final Temperature LOWEST_OPENED = Temperature.ofCelsius(20);
    private static final Temperature HIGHEST_OPENED = Temperature.ofCelsius(400);
    private static final Pattern TWO_WAYS = Pattern.compile("\\s*[+-]?[1-9]\\d{0,2}[.,]\\d{3}(\\D.*)?");

    private final KilnSetting setting;
    private final String typed;
    private final Optional<String> value;
    private final Kiln kiln;

    /**
     * A refusal.
     *
     * @param typed as it stands in the field
     * @param value the same with its unit, as it was refused; empty where the setting was to be taken out
     * @param kiln as it was before
     */
    KilnRefusal(KilnSetting setting, String typed, Optional<String> value, Kiln kiln) {
        this.setting = setting;
        this.typed = typed;
        this.value = value;
        this.kiln = kiln;
    }

    /** The sentence; empty where it is not what was typed that stands in the way. */
    Optional<String> sentence(Words words) {
        if (value.isEmpty()) {
            return setting == KilnSetting.NAME ? Optional.of(words.text("kilns.bad.no_name")) : opening(words);
        }
        String its = value.get();
        if (its.chars().anyMatch(Character::isISOControl)) {
            return Optional.of(words.text("kilns.bad.sign"));
        }
        return switch (setting) {
            case NAME -> longer(its, LONGEST_NAME, words);
            case ISOLATOR -> longer(its, LONGEST_ISOLATOR, words);
            case VOLUME -> number(its, UnitText::volume, volume -> true, "kilns.bad.volume", 68, words);
            case POWER -> number(its, UnitText::power, power -> true, "kilns.bad.power", 5.6, words);
            case TARIFF -> number(its, UnitText::tariff, tariff -> true, "kilns.bad.tariff", 0.3, words);
            case RATE ->
                reads(its, UnitText::rate, rate -> rate.kelvinPerHour() > 0)
                        ? Optional.empty()
                        : twoWays(words)
                                .or(() -> Optional.of(words.text(
                                        "kilns.bad.rate",
                                        quoted(),
                                        "80 " + words.unit() + "/" + words.text("unit.hour"))));
            case TOP -> between(its, LOWEST_TOP, HIGHEST_TOP, "kilns.bad.temperature", words);
            case CUT_OUT -> between(its, LOWEST_TOP, HIGHEST_TOP, "kilns.bad.cut_out", words);
            case CRACK, UNLOAD ->
                between(its, LOWEST_OPENED, HIGHEST_OPENED, "kilns.bad.temperature", words)
                        .or(() -> opening(words));
            case WALL, OPENING, SERIES, FROM_MAKER -> opening(words);
        };
    }

    /** What the temperatures for the lid and for the ware must have to do with each other. */
    private Optional<String> opening(Words words) {
        Temperature crack =
                setting == KilnSetting.CRACK ? wished() : kiln.thresholds().crack();
        Temperature unload =
                setting == KilnSetting.UNLOAD ? wished() : kiln.thresholds().unload();
        if (unload.isAbove(crack)) {
            return Optional.of(
                    words.text("kilns.bad.unload_first", words.temperature(unload), words.temperature(crack)));
        }
        boolean fromMaker =
                kiln.thresholds().source() == Kiln.Thresholds.Source.MAKER || setting == KilnSetting.FROM_MAKER;
        boolean isAbout =
                setting == KilnSetting.FROM_MAKER || setting == KilnSetting.CRACK || setting == KilnSetting.UNLOAD;
        return fromMaker && isAbout ? Optional.of(words.text("kilns.bad.both_of_maker")) : Optional.empty();
    }

    private Temperature wished() {
        Kiln.Thresholds usual = Kiln.Thresholds.COMMON_PRACTICE;
        return value.map(UnitText::temperature).orElse(setting == KilnSetting.CRACK ? usual.crack() : usual.unload());
    }

    private Optional<String> longer(String text, int longest, Words words) {
        return text.length() > longest ? Optional.of(words.text("kilns.bad.long", longest)) : Optional.empty();
    }

    private <T> Optional<String> number(
            String text, Reading<T> reading, Predicate<T> fits, String key, double example, Words words) {
        if (reads(text, reading, fits)) {
            return Optional.empty();
        }
        int decimals = example == Math.rint(example) ? 0 : example < 1 ? 2 : 1;
        return twoWays(words).or(() -> Optional.of(words.text(key, quoted(), words.number(example, decimals))));
    }

    private Optional<String> between(String text, Temperature lowest, Temperature highest, String key, Words words) {
        boolean fits = reads(text, UnitText::temperature, found -> !lowest.isAbove(found) && !found.isAbove(highest));
        return fits
                ? Optional.empty()
                : twoWays(words)
                        .or(() -> Optional.of(
                                words.text(key, quoted(), words.temperature(lowest), words.temperature(highest))));
    }

    /** One comma and three digits are a thousand to some and one and a bit to others. */
    private Optional<String> twoWays(Words words) {
        return TWO_WAYS.matcher(typed).matches()
                ? Optional.of(words.text("kilns.bad.two_ways", quoted()))
                : Optional.empty();
    }

    private interface Reading<T> {
        T of(String text);
    }

    private static <T> boolean reads(String text, Reading<T> reading, Predicate<T> fits) {
        try {
            return fits.test(reading.of(text));
        } catch (UnitText.NotAQuantityException e) {
            return false;
        }
    }

    private String quoted() {
        String plain = typed.strip().replaceAll("\\p{Cntrl}", " ");
        return plain.codePointCount(0, plain.length()) <= LONGEST_QUOTED
                ? plain
                : plain.substring(0, plain.offsetByCodePoints(0, LONGEST_QUOTED - 1)) + "…";
    }
}

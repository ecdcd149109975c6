package org.kilnside.files;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import org.kilnside.firing.Kiln;

/** One thing a person may say of a kiln, by the word it has on the command line, and where it stands in the kiln's file. */
public enum KilnSetting {
    NAME("name", "", "name"),
    VOLUME("volume", "", "volume"),
    POWER("power", "", "power"),
    WALL("wall", "", "wall"),
    OPENING("opening", "", "opening"),
    ISOLATOR("isolator", "", "isolator"),
    TARIFF("tariff", "", "tariff"),
    CUT_OUT("cut-out", "", "cut_out"),
    SERIES("series", "", "series"),
    TOP("top", "limits", "temperature"),
    RATE("rate", "limits", "rate"),
    CRACK("crack", "thresholds", "crack"),
    UNLOAD("unload", "thresholds", "unload"),
    FROM_MAKER("from-maker", "thresholds", "from_maker");

    private final String word;
    private final String table;
    private final String key;

    KilnSetting(String word, String table, String key) {
        this.word = word;
        this.table = table;
        this.key = key;
    }

    public String word() {
        return word;
    }

    String table() {
        return table;
    }

    String key() {
        return key;
    }

    /** The setting of a word; empty when there is none. */
    public static Optional<KilnSetting> ofWord(String word) {
        String plain = word.strip().toLowerCase(Locale.ROOT).replace('_', '-');
        return Arrays.stream(values())
                .filter(setting -> setting.word.equals(plain))
                .findFirst();
    }

    /** What a kiln has, as its file says it; empty where nothing is said. */
    public Optional<String> of(Kiln kiln) {
        return switch (this) {
            case NAME -> Optional.of(kiln.name());
            case VOLUME -> kiln.volume().map(volume -> PlanText.number(volume.litres()) + " l");
            case POWER -> kiln.power().map(power -> PlanText.number(power.kilowatts()) + " kW");
            case WALL -> kiln.wall().map(wall -> wall.name().toLowerCase(Locale.ROOT));
            case OPENING -> Optional.of(kiln.opening().name().toLowerCase(Locale.ROOT));
            case ISOLATOR -> kiln.isolator();
            case TARIFF ->
                kiln.tariff().map(tariff -> PlanText.number(tariff.pricePerKwh()) + " " + tariff.currency() + "/kWh");
            case CUT_OUT ->
                kiln.cutOut()
                        .map(cutOut ->
                                cutOut.at().map(PlanText::temperature).orElse(cutOut.fitted() ? "fitted" : "none"));
            case SERIES -> Optional.of(kiln.series().word());
            case TOP -> kiln.limits().temperature().map(PlanText::temperature);
            case RATE -> kiln.limits().rate().map(PlanText::rate);
            case CRACK -> Optional.of(PlanText.temperature(kiln.thresholds().crack()));
            case UNLOAD -> Optional.of(PlanText.temperature(kiln.thresholds().unload()));
            case FROM_MAKER -> Optional.of(kiln.thresholds().source() == Kiln.Thresholds.Source.MAKER ? "yes" : "no");
        };
    }
}

package org.kilnside.files;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.kilnside.firing.AlarmThresholds;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Kiln;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Power;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.Volume;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.ThermocoupleType;

/** Kilns as TOML files a person edits by hand; the format is described in docs/plans.md. */
public final class KilnFiles {
    static final String KIND = "a kiln";
    private static final List<String> KEYS = List.of(
            "name",
            "volume",
            "power",
            "wall",
            "opening",
            "isolator",
            "tariff",
            "cut_out",
            "series",
            "limits",
            "thresholds",
            "alarms",
            "sensor");
    private static final Map<String, String> WORDS = Map.of(
            "litres",
            "volume",
            "size",
            "volume",
            "kw",
            "power",
            "watts",
            "power",
            "lining",
            "wall",
            "brick",
            "wall",
            "lid",
            "opening",
            "door",
            "opening",
            "switch",
            "isolator",
            "price",
            "tariff");
    private static final List<String> LIMIT_KEYS = List.of("temperature", "rate");
    private static final List<String> THRESHOLD_KEYS = List.of("crack", "unload", "from_maker");
    private static final List<String> SENSOR_KEYS = List.of("place", "type", "amplifier");

    private KilnFiles() {}

    /**
     * Reads a kiln.
     *
     * @throws FileRefusedException when the file is missing, unreadable or no kiln
     */
    public static Kiln read(Path path) {
        return parse(TextFile.read(path, KIND), path.toString());
    }

    /**
     * Reads a kiln from its text.
     *
     * @param text the file's text
     * @param file how the person knows the file; begins every message
     * @throws FileRefusedException when it is no kiln
     */
    public static Kiln parse(String text, String file) {
        TomlFields fields = TomlFields.parse(text, file, KIND);
        fields.refuseUnknown(KEYS, WORDS, KIND);
        Optional<String> name = fields.text("name", 80);
        if (name.isEmpty() && !fields.has("name")) {
            fields.problem("the kiln has no name; add a line such as name = \"Tall Drum\" at the top");
        }
        Optional<Volume> volume = fields.quantity("volume", UnitText::volume, "68 l");
        Optional<Power> power = fields.quantity("power", UnitText::power, "5.6 kW");
        Optional<Kiln.Wall> wall = oneOf(fields, "wall", Kiln.Wall.values());
        Optional<Kiln.Opening> opening = oneOf(fields, "opening", Kiln.Opening.values());
        Optional<String> isolator = fields.text("isolator", 120);
        Optional<Kiln.Tariff> tariff = fields.quantity("tariff", UnitText::tariff, "0.30 EUR/kWh");
        Optional<Kiln.CutOut> cutOut = cutOut(fields);
        Optional<ConeSeries> series = fields.word(
                        "series",
                        Arrays.stream(ConeSeries.values()).map(ConeSeries::word).toList())
                .flatMap(ConeSeries::ofWord);
        Kiln.Limits limits = fields.table("limits").map(KilnFiles::limits).orElse(Kiln.Limits.UNKNOWN);
        Kiln.Thresholds thresholds =
                fields.table("thresholds").map(KilnFiles::thresholds).orElse(Kiln.Thresholds.COMMON_PRACTICE);
        AlarmThresholds alarms = fields.table("alarms").map(KilnAlarms::read).orElse(AlarmThresholds.USUAL);
        List<Kiln.Sensor> sensors = new ArrayList<>();
        for (TomlFields sensor : fields.tables("sensor")) {
            sensors.add(sensor(sensor));
        }
        fields.source().refuseProblems();
        return new Kiln(
                name.orElseThrow().strip(),
                volume,
                power,
                wall,
                opening.orElse(Kiln.Opening.LID),
                isolator,
                tariff,
                limits,
                thresholds,
                sensors,
                cutOut,
                alarms,
                series.orElse(ConeSeries.USUAL));
    }

    private static Optional<Kiln.CutOut> cutOut(TomlFields fields) {
        Optional<String> word = fields.text("cut_out", 40);
        if (word.isEmpty() || word.get().strip().equalsIgnoreCase("none")) {
            return word.map(none -> Kiln.CutOut.NONE);
        }
        if (word.get().strip().equalsIgnoreCase("fitted")) {
            return Optional.of(new Kiln.CutOut(true, Optional.empty()));
        }
        return fields.quantity("cut_out", UnitText::temperature, "1290 °C\", \"fitted\" or \"none")
                .filter(value -> within(fields, "cut_out", value, 100, 1800))
                .map(value -> new Kiln.CutOut(true, Optional.of(value)));
    }

    /**
     * Writes a kiln, so that reading it back gives the same kiln.
     *
     * @throws FileRefusedException when it cannot be written
     */
    public static void write(Path path, Kiln kiln) {
        TextFile.write(path, KilnText.of(kiln));
    }

    /** A kiln as the text of its file. */
    public static String text(Kiln kiln) {
        return KilnText.of(kiln);
    }

    private static Kiln.Limits limits(TomlFields fields) {
        fields.refuseUnknown(LIMIT_KEYS, Map.of("top", "temperature", "max", "temperature"), "[limits]");
        Optional<Temperature> temperature = fields.quantity("temperature", UnitText::temperature, "1260 °C")
                .filter(value -> within(fields, "temperature", value, 100, 1800));
        Optional<HeatingRate> rate = fields.quantity("rate", UnitText::rate, "250 °C/h")
                .filter(value -> {
                    if (value.kelvinPerHour() > 0) {
                        return true;
                    }
                    fields.problem(
                            "rate", "\"rate\" is not above 0; write the fastest the maker allows, or remove the line");
                    return false;
                });
        return new Kiln.Limits(temperature, rate);
    }

    private static Kiln.Thresholds thresholds(TomlFields fields) {
        fields.refuseUnknown(
                THRESHOLD_KEYS, Map.of("lid", "crack", "open", "crack", "maker", "from_maker"), "[thresholds]");
        Kiln.Thresholds usual = Kiln.Thresholds.COMMON_PRACTICE;
        boolean fromMaker = fields.yesOrNo("from_maker").orElse(false);
        Optional<Temperature> crack = fields.quantity("crack", UnitText::temperature, "120 °C")
                .filter(value -> within(fields, "crack", value, 20, 400));
        Optional<Temperature> unload = fields.quantity("unload", UnitText::temperature, "50 °C")
                .filter(value -> within(fields, "unload", value, 20, 400));
        if (fromMaker && (crack.isEmpty() || unload.isEmpty())) {
            fields.problem(
                    "from_maker",
                    "the maker's \"crack\" or \"unload\" is not given; write both as in the maker's"
                            + " instructions, or from_maker = false");
        }
        Temperature lid = crack.orElse(usual.crack());
        Temperature ware = unload.orElse(usual.unload());
        if (ware.isAbove(lid)) {
            fields.problem("ware is unloaded at " + PlanText.temperature(ware) + ", expected below the "
                    + PlanText.temperature(lid) + " at which the lid is cracked; check both");
            return usual;
        }
        boolean asUsual = lid.equals(usual.crack()) && ware.equals(usual.unload());
        Kiln.Thresholds.Source source = fromMaker
                ? Kiln.Thresholds.Source.MAKER
                : asUsual ? Kiln.Thresholds.Source.COMMON_PRACTICE : Kiln.Thresholds.Source.POTTER;
        return new Kiln.Thresholds(lid, ware, source);
    }

    private static Kiln.Sensor sensor(TomlFields fields) {
        fields.refuseUnknown(SENSOR_KEYS, Map.of("position", "place", "chip", "amplifier"), "a sensor");
        Optional<ThermocoupleType> type = oneOf(fields, "type", ThermocoupleType.values());
        if (type.isEmpty() && !fields.has("type")) {
            fields.problem("the sensor has no \"type\"; add the thermocouple's letter, such as type = \"K\"");
        }
        Optional<Amplifier> amplifier = oneOf(fields, "amplifier", Amplifier.values());
        if (amplifier.isEmpty() && !fields.has("amplifier")) {
            fields.problem(
                    "the sensor has no \"amplifier\"; add amplifier = \"MAX31855\", or \"CELSIUS\" for a controller"
                            + " that works out °C itself");
        }
        Optional<String> place = fields.text("place", 120);
        return new Kiln.Sensor(
                new Probe(type.orElse(Probe.UNKNOWN.type()), amplifier.orElse(Probe.UNKNOWN.amplifier())), place);
    }

    private static boolean within(TomlFields fields, String key, Temperature value, double lowestC, double highestC) {
        if (value.celsius() >= lowestC && value.celsius() <= highestC) {
            return true;
        }
        fields.problem(
                key,
                "\"" + key + "\" is " + PlanText.number(value.celsius()) + " °C, expected " + PlanText.number(lowestC)
                        + " to " + PlanText.number(highestC) + " °C; check it");
        return false;
    }

    /** Words in the file are the enum's names; capitals do not matter. */
    private static <E extends Enum<E>> Optional<E> oneOf(TomlFields fields, String key, E[] values) {
        boolean capitals = key.equals("type") || key.equals("amplifier");
        List<String> words = Arrays.stream(values)
                .map(value -> capitals ? value.name() : value.name().toLowerCase(Locale.ROOT))
                .toList();
        return fields.word(key, words).map(word -> values[words.indexOf(word)]);
    }
}

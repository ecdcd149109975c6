package org.kilnside.desktop.kiln;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Calibration;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.wording.SensorWords;
import org.kilnside.wording.Words;

/** What a person fills in to note something of a sensor: the fields of one deed, what stands in them, and what is wrong there. */
final class SensorForm {
    private final Deed deed;
    private final Optional<SensorShelf.Known> sensor;
    private final Map<Field, String> texts = new EnumMap<>(Field.class);
    private final Map<Field, String> problems = new EnumMap<>(Field.class);

    /** What can be noted. */
    enum Deed {
        FIT(
                Field.NAME,
                Field.PLACE,
                Field.TYPE,
                Field.TOLERANCE,
                Field.AMPLIFIER,
                Field.SHOWS,
                Field.SINCE,
                Field.CHANNEL),
        MOVE(Field.PLACE, Field.SINCE),
        COMPARE(Field.READS, Field.TRUTH, Field.OFFSET, Field.WITHIN, Field.AGAINST),
        MEND(
                Field.NAME,
                Field.PLACE,
                Field.TYPE,
                Field.TOLERANCE,
                Field.AMPLIFIER,
                Field.SHOWS,
                Field.SINCE,
                Field.UNTIL,
                Field.CHANNEL);

        private final List<Field> fields;

        Deed(Field... fields) {
            this.fields = List.of(fields);
        }

        List<Field> fields() {
            return fields;
        }
    }

    /** One thing to fill in. */
    enum Field {
        NAME("sensors.field.NAME"),
        PLACE("sensors.field.PLACE"),
        TYPE("sensors.field.TYPE"),
        TOLERANCE("sensors.field.TOLERANCE"),
        AMPLIFIER("sensors.field.AMPLIFIER"),
        SHOWS("sensors.field.SHOWS"),
        SINCE("sensors.field.SINCE"),
        UNTIL("sensors.field.UNTIL"),
        CHANNEL("sensors.field.CHANNEL"),
        READS("sensors.field.READS"),
        TRUTH("sensors.field.TRUTH"),
        OFFSET("sensors.field.OFFSET"),
        WITHIN("sensors.field.WITHIN"),
        AGAINST("sensors.field.AGAINST");

        private final String label;

        Field(String label) {
            this.label = label;
        }

        String label(Words words) {
            return words.text(label);
        }
    }

    /** That the controller's number is the temperature, among what it can be. */
    static final String TRUTH = "TRUTH";

    private boolean touched;

    private SensorForm(Deed deed, Optional<SensorShelf.Known> sensor) {
        this.deed = deed;
        this.sensor = sensor;
    }

    /** A new sensor: as the one before it where there is one, as most are where there is none. */
    static SensorForm fit(Optional<SensorShelf.Known> before, Words words) {
        SensorForm form = new SensorForm(Deed.FIT, before);
        form.texts.put(Field.NAME, "");
        form.texts.put(Field.PLACE, before.map(its -> its.sensor().place()).orElse(""));
        form.texts.put(
                Field.TYPE,
                before.map(its -> its.sensor().probe().type())
                        .orElse(ThermocoupleType.K)
                        .name());
        form.texts.put(
                Field.TOLERANCE,
                String.valueOf(
                        before.map(its -> its.sensor().tolerance().ordinal()).orElse(1) + 1));
        form.texts.put(
                Field.AMPLIFIER,
                before.map(its -> its.sensor().probe().amplifier())
                        .orElse(Amplifier.MAX31855)
                        .name());
        form.texts.put(Field.SHOWS, before.map(SensorForm::shown).orElse(Amplifier.MAX31855.name()));
        form.texts.put(Field.SINCE, words.text("sensors.today"));
        form.texts.put(
                Field.CHANNEL,
                String.valueOf(before.map(its -> its.fitted().channel()).orElse(1)));
        return form;
    }

    static SensorForm move(SensorShelf.Known sensor, Words words) {
        SensorForm form = new SensorForm(Deed.MOVE, Optional.of(sensor));
        form.texts.put(Field.PLACE, sensor.sensor().place());
        form.texts.put(Field.SINCE, words.text("sensors.today"));
        return form;
    }

    static SensorForm compare(SensorShelf.Known sensor, String usualWithin) {
        SensorForm form = new SensorForm(Deed.COMPARE, Optional.of(sensor));
        form.texts.put(Field.WITHIN, usualWithin);
        form.texts.put(Field.AGAINST, Calibration.By.THERMOMETER.name());
        return form;
    }

    static SensorForm mend(SensorShelf.Known sensor, Words words) {
        SensorForm form = new SensorForm(Deed.MEND, Optional.of(sensor));
        form.texts.put(Field.NAME, sensor.sensor().sensor());
        form.texts.put(Field.PLACE, sensor.sensor().place());
        form.texts.put(Field.TYPE, sensor.sensor().probe().type().name());
        form.texts.put(
                Field.TOLERANCE, String.valueOf(sensor.sensor().tolerance().ordinal() + 1));
        form.texts.put(Field.AMPLIFIER, sensor.sensor().probe().amplifier().name());
        form.texts.put(Field.SHOWS, shown(sensor));
        form.texts.put(Field.SINCE, words.date(sensor.fitted().fittedAt()));
        form.texts.put(Field.UNTIL, sensor.fitted().removedAt().map(words::date).orElse(""));
        form.texts.put(Field.CHANNEL, String.valueOf(sensor.fitted().channel()));
        return form;
    }

    private static String shown(SensorShelf.Known sensor) {
        return sensor.fitted().sensor().uncorrected().map(Amplifier::name).orElse(TRUTH);
    }

    Deed deed() {
        return deed;
    }

    /** The sensor it is about; for a new one, the one it takes the place of, if any. */
    Optional<SensorShelf.Known> sensor() {
        return sensor;
    }

    String text(Field field) {
        return texts.getOrDefault(field, "");
    }

    /** What a person types or picks; what was wrong with it is forgotten. */
    void type(Field field, String text) {
        touched |= !text.equals(text(field));
        texts.put(field, text);
        problems.remove(field);
        if (field == Field.AMPLIFIER) {
            // What a controller shows follows from what it sends, until somebody says otherwise.
            Amplifier chip = Amplifier.valueOf(text);
            texts.put(Field.SHOWS, chip.linearises() ? TRUTH : chip.name());
            problems.remove(Field.SHOWS);
        }
    }

    /** Whether a person has put something into it that would be lost with it. */
    boolean isTouched() {
        return touched;
    }

    Optional<String> problem(Field field) {
        return Optional.ofNullable(problems.get(field));
    }

    void wrong(Field field, String sentence) {
        problems.putIfAbsent(field, sentence);
    }

    void allIsWell() {
        problems.clear();
    }

    boolean isWrong() {
        return !problems.isEmpty();
    }

    /** What can be picked; nothing for what is typed. */
    static List<String> options(Field field) {
        return switch (field) {
            case TYPE ->
                Arrays.stream(ThermocoupleType.values()).map(Enum::name).toList();
            case TOLERANCE -> List.of("1", "2", "3");
            case AMPLIFIER -> Arrays.stream(Amplifier.values()).map(Enum::name).toList();
            case SHOWS -> List.of(Amplifier.MAX31855.name(), Amplifier.MAX6675.name(), TRUTH);
            case CHANNEL -> List.of("1", "2", "3", "4");
            case AGAINST ->
                Arrays.stream(Calibration.By.values()).map(Enum::name).toList();
            default -> List.of();
        };
    }

    /** An option in words. */
    static String spoken(Field field, String option, Words words) {
        return switch (field) {
            case AMPLIFIER ->
                option.equals(Amplifier.CELSIUS.name())
                        ? words.text("sensors.sends_degrees")
                        : words.text("sensors.sends_codes", option);
            case SHOWS ->
                option.equals(TRUTH) ? words.text("sensors.shows_truth") : words.text("sensors.shows_chip", option);
            case AGAINST -> words.named("kilns.by", Calibration.By.valueOf(option));
            default -> option;
        };
    }

    /** What the form is for, with the sensor's name where it is about one. */
    String title(Words words) {
        String name = sensor.map(its -> SensorWords.name(its.sensor(), words)).orElse("");
        return switch (deed) {
            case FIT -> words.text("sensors.do.fit");
            case MOVE -> words.text("sensors.title.move", name);
            case COMPARE -> words.text("sensors.title.compare", name);
            case MEND -> words.text("sensors.title.mend", name);
        };
    }
}

package org.kilnside.desktop.kiln;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.book.ComparedPoint;
import org.kilnside.book.KilnHistory.OffsetOfFiring;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.TemperatureDifference;
import org.kilnside.sensor.Calibration;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.wording.SensorWords;
import org.kilnside.wording.Words;

/** The sensors' list in words. */
final class SensorEntries {
    /** Where a correction that is the same everywhere is named, °C. */
    private static final double USUAL_TOP_C = 1000;

    private SensorEntries() {}

    /**
     * What stands in one row.
     *
     * @param head in heavier type; empty for what is known of the sensor above
     * @param text below it
     */
    record Lines(String head, String text) {
        String spoken() {
            return head.isEmpty() ? text : head + ". " + text;
        }
    }

    static Lines of(SensorsModel.Entry entry, Words words) {
        if (entry.point().isPresent()) {
            ComparedPoint point = entry.point().get();
            return new Lines(
                    "",
                    SensorWords.compared(
                            point.number(),
                            point.readingC(),
                            point.correctionK(),
                            point.halfWidthK(),
                            point.by(),
                            words));
        }
        if (entry.offset().isPresent()) {
            OffsetOfFiring found = entry.sensor().offsets().get(entry.offset().get());
            return new Lines("", SensorWords.cones(found.firing(), found.offset(), words));
        }
        return sensor(entry.sensor(), words);
    }

    private static Lines sensor(SensorShelf.Known known, Words words) {
        SensorInPlace sensor = known.sensor();
        List<String> text = new ArrayList<>();
        text.add(words.text(
                known.isInPlace() ? "sensors.what" : "sensors.what_until",
                sensor.probe().type(),
                sensor.tolerance().ordinal() + 1,
                SensorForm.spoken(
                        SensorForm.Field.AMPLIFIER, sensor.probe().amplifier().name(), words),
                known.fitted().channel(),
                words.date(known.fitted().fittedAt()),
                known.fitted().removedAt().map(words::date).orElse("")));
        SensorWords.shows(sensor, known.fitted().sensor(), words).ifPresent(text::add);
        together(known, words).ifPresent(text::add);
        known.driftKPerFiring().ifPresent(drift -> text.add(SensorWords.drift(drift, words)));
        if (!known.isInPlace()) {
            text.add(words.text("sensors.ended"));
        } else if (sensor.calibration().points().isEmpty()) {
            text.add(words.text("sensors.nothing_known", sensor.tolerance().ordinal() + 1));
        }
        return new Lines(
                SensorWords.name(sensor, words) + " · " + SensorWords.place(sensor, words), String.join("\n", text));
    }

    /** Where more than one thing is known of it: what they come to. */
    private static Optional<String> together(SensorShelf.Known known, Words words) {
        Calibration calibration = known.sensor().calibration();
        if (known.points().size() + known.offsets().size() < 2
                || calibration.points().isEmpty()) {
            return Optional.empty();
        }
        double highestC =
                calibration.points().get(calibration.points().size() - 1).readingC();
        double atC = highestC > 0 ? highestC : USUAL_TOP_C;
        return Optional.of(words.text(
                "sensors.together",
                words.temperature(Temperature.ofCelsius(atC)),
                words.difference(TemperatureDifference.ofKelvin(calibration.correctedC(atC) - atC)),
                words.span(TemperatureDifference.ofKelvin(calibration.halfWidthC(atC)))));
    }
}

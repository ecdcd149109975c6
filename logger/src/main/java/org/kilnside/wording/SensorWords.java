package org.kilnside.wording;

import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.heatwork.WitnessOffset;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.TemperatureDifference;
import org.kilnside.sensor.Calibration;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.sensor.SensorUncertainty;

/** What is known of a kiln's sensor, said: which it is, where and since when, and what comparisons and cones say of it. */
public final class SensorWords {
    private SensorWords() {}

    /** What the potter calls it. */
    public static String name(SensorInPlace sensor, Words words) {
        return sensor.sensor().isEmpty() ? words.text("kilns.unnamed") : sensor.sensor();
    }

    /** Where its tip is. */
    public static String place(SensorInPlace sensor, Words words) {
        return sensor.place().isEmpty() ? words.text("kilns.place_not_said") : sensor.place();
    }

    /** All of it in one line. */
    public static String line(int channel, SensorInPlace sensor, Instant since, Optional<Instant> until, Words words) {
        return words.text(
                until.isPresent() ? "kilns.sensor_until" : "kilns.sensor",
                channel,
                name(sensor, words),
                place(sensor, words),
                sensor.probe().type(),
                sensor.probe().amplifier(),
                sensor.tolerance().ordinal() + 1,
                words.date(since),
                until.map(words::date).orElse(""));
    }

    /**
     * That the controller shows a chip's number as it is, or that nobody said whether it does; empty where it shows the
     * temperature.
     *
     * @param sensor as it is reckoned with
     * @param noted as the book noted it, with the chip whose number may be shown
     */
    public static Optional<String> shows(SensorInPlace sensor, SensorInPlace noted, Words words) {
        return sensor.uncorrected()
                .map(its -> words.text("kilns.shows_chip", its))
                .or(() -> noted.uncorrected().map(chip -> words.text("kilns.shows_not_said", chip)));
    }

    /**
     * A comparison.
     *
     * @param number its number in the book
     * @param readingC what the sensor read, °C; empty for one correction everywhere
     */
    public static String compared(
            long number,
            OptionalDouble readingC,
            double correctionK,
            double halfWidthK,
            Calibration.By by,
            Words words) {
        String correction = (correctionK < 0 ? "\u2212" : "+") + fine(correctionK, words);
        String within = fine(halfWidthK, words);
        String against = words.named("kilns.by", by);
        return readingC.isPresent()
                ? words.text(
                        "kilns.compared",
                        number,
                        words.temperature(Temperature.ofCelsius(readingC.getAsDouble())),
                        correction,
                        within,
                        against)
                : words.text("kilns.compared_everywhere", number, correction, within, against);
    }

    /** A comparison may be good to tenths of a degree. */
    private static String fine(double kelvin, Words words) {
        double value = Math.abs(words.preferences().unit().of(TemperatureDifference.ofKelvin(kelvin)));
        return words.number(value, value == Math.rint(value) ? 0 : 1) + " " + words.unit();
    }

    /** What the sensor alone leaves open at a temperature, and where its wire's class ends if that is below. */
    public static String alone(SensorUncertainty uncertainty, Temperature at, Words words) {
        String within = words.span(TemperatureDifference.ofKelvin(uncertainty.halfWidthC(at.celsius())));
        if (uncertainty.calibration().covers(at.celsius())) {
            return words.text("sensor.alone_calibrated", within, words.temperature(at));
        }
        int named = uncertainty.tolerance().ordinal() + 1;
        if (uncertainty.withinClass(at.celsius())) {
            return words.text(
                    "sensor.alone",
                    within,
                    words.temperature(at),
                    uncertainty.probe().type(),
                    named);
        }
        return uncertainty
                .tolerance()
                .endsAtC(uncertainty.probe().type())
                .map(end -> words.text(
                        "sensor.alone_outside",
                        within,
                        words.temperature(at),
                        uncertainty.probe().type(),
                        named,
                        words.temperature(Temperature.ofCelsius(end))))
                .orElseGet(() -> words.text(
                        "sensor.alone_no_class",
                        within,
                        words.temperature(at),
                        uncertainty.probe().type(),
                        named));
    }

    /** What the witness cones of a firing say. */
    public static String cones(long firing, WitnessOffset offset, Words words) {
        return words.text(
                offset.disagree() ? "kilns.cones_disagree" : "kilns.cones",
                firing,
                words.difference(TemperatureDifference.ofKelvin(offset.correctionK())),
                words.temperature(Temperature.ofCelsius(offset.atC())),
                words.span(TemperatureDifference.ofKelvin(offset.halfWidthK())));
    }

    /** That a sensor drifts, by so much a firing. */
    public static String drift(double kelvinPerFiring, Words words) {
        return words.text("kilns.drift", words.difference(TemperatureDifference.ofKelvin(kelvinPerFiring)));
    }
}

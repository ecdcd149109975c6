package org.kilnside.sensor;

import java.util.Objects;
import java.util.Optional;

/**
 * One sensor in one place of one kiln, and what is known of it. What is known ends with the sensor, its amplifier or its
 * place: a new sensor after a drifted one looks like sudden under-firing when the old correction is carried over.
 *
 * @param probe thermocouple, and the amplifier whose codes come over the wire
 * @param sensor what the potter calls this very sensor, such as "fitted in spring"
 * @param place where its tip is, such as "left wall, middle shelf"
 * @param tolerance the class of its wire
 * @param uncorrected the chip whose number the controller shows, and fires by, as it is; empty when the controller's
 *     number is the temperature. A controller that sends °C of its own may pass on such a chip's number: then it is
 *     corrected here
 * @param calibration what is known of it here
 */
public record SensorInPlace(
        Probe probe,
        String sensor,
        String place,
        ToleranceClass tolerance,
        Optional<Amplifier> uncorrected,
        Calibration calibration) {
    public SensorInPlace {
        Objects.requireNonNull(probe);
        Objects.requireNonNull(sensor);
        Objects.requireNonNull(place);
        Objects.requireNonNull(tolerance);
        Objects.requireNonNull(calibration);
        uncorrected.ifPresent(chip -> {
            if (chip.linearises()) {
                throw new IllegalArgumentException(
                        chip + " follows the thermocouple's curve itself: its number needs no correction");
            }
        });
    }

    /** A sensor of which nothing is known yet; a chip that does not linearise is taken to be shown as it is. */
    public static SensorInPlace uncalibrated(Probe probe, String sensor, String place, ToleranceClass tolerance) {
        return new SensorInPlace(probe, sensor, place, tolerance, shownAsItIs(probe), Calibration.NONE);
    }

    /** All there is to know when only the controller has said what it has. */
    public static SensorInPlace asSaid(Probe probe) {
        return uncalibrated(probe, "", "", ToleranceClass.CLASS_2);
    }

    private static Optional<Amplifier> shownAsItIs(Probe probe) {
        return probe.amplifier().linearises() ? Optional.empty() : Optional.of(probe.amplifier());
    }

    /** The same sensor in the same place, better known. */
    public SensorInPlace calibrated(Calibration known) {
        return new SensorInPlace(probe, sensor, place, tolerance, uncorrected, known);
    }

    /** The same sensor, with what the controller makes of its number. */
    public SensorInPlace shownBy(Optional<Amplifier> chip) {
        return new SensorInPlace(probe, sensor, place, tolerance, chip, calibration);
    }

    /** Another sensor in its place: nothing is known of it. */
    public SensorInPlace replacedBy(Probe newProbe, String newSensor, ToleranceClass newTolerance) {
        SensorInPlace fresh = uncalibrated(newProbe, newSensor, place, newTolerance);
        return newProbe.amplifier() == probe.amplifier() ? fresh.shownBy(uncorrected) : fresh;
    }

    /** The sensor in another place, where it says something else about the ware: nothing is known of that. */
    public SensorInPlace movedTo(String newPlace) {
        return newPlace.equals(place)
                ? this
                : new SensorInPlace(probe, sensor, newPlace, tolerance, uncorrected, Calibration.NONE);
    }

    /** Whether what is known here holds for another firing's sensor: the same one, on the same amplifier, in the same place. */
    public boolean isSameAs(SensorInPlace other) {
        return probe.equals(other.probe) && sensor.equals(other.sensor) && place.equals(other.place);
    }

    /**
     * Whether this can be the sensor a controller says it has: the same amplifier, and the same thermocouple where the
     * amplifier has to know it. A controller that works out °C itself says nothing of its thermocouple.
     */
    public boolean fits(Probe said) {
        return probe.amplifier() == said.amplifier()
                && (probe.type() == said.type() || said.amplifier() == Amplifier.CELSIUS);
    }

    public SensorUncertainty uncertainty() {
        return new SensorUncertainty(read(), tolerance, calibration, probe.amplifier() == Amplifier.MAX31855);
    }

    /** The thermocouple and the chip that reads it, the one behind a controller's own °C where that is known. */
    Probe read() {
        return probe.amplifier() == Amplifier.CELSIUS
                ? uncorrected.map(chip -> new Probe(probe.type(), chip)).orElse(probe)
                : probe;
    }
}

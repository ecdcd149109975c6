package org.kilnside.sensor;

import java.util.Objects;

/**
 * One sensor in one place of one kiln, and what is known of it. What is known ends with the sensor, its amplifier or its
 * place: a new sensor after a drifted one looks like sudden under-firing when the old correction is carried over.
 *
 * @param probe thermocouple and amplifier
 * @param sensor what the potter calls this very sensor, such as "fitted in spring"
 * @param place where its tip is, such as "left wall, middle shelf"
 * @param tolerance the class of its wire
 * @param calibration what is known of it here
 */
public record SensorInPlace(
        Probe probe, String sensor, String place, ToleranceClass tolerance, Calibration calibration) {
    public SensorInPlace {
        Objects.requireNonNull(probe);
        Objects.requireNonNull(sensor);
        Objects.requireNonNull(place);
        Objects.requireNonNull(tolerance);
        Objects.requireNonNull(calibration);
    }

    /** A sensor of which nothing is known yet. */
    public static SensorInPlace uncalibrated(Probe probe, String sensor, String place, ToleranceClass tolerance) {
        return new SensorInPlace(probe, sensor, place, tolerance, Calibration.NONE);
    }

    /** The same sensor in the same place, better known. */
    public SensorInPlace calibrated(Calibration known) {
        return new SensorInPlace(probe, sensor, place, tolerance, known);
    }

    /** Another sensor in its place: nothing is known of it. */
    public SensorInPlace replacedBy(Probe newProbe, String newSensor, ToleranceClass newTolerance) {
        return uncalibrated(newProbe, newSensor, place, newTolerance);
    }

    /** The sensor in another place, where it says something else about the ware: nothing is known of that. */
    public SensorInPlace movedTo(String newPlace) {
        return newPlace.equals(place) ? this : uncalibrated(probe, sensor, newPlace, tolerance);
    }

    /** Whether what is known here holds for another firing's sensor: the same one, on the same amplifier, in the same place. */
    public boolean isSameAs(SensorInPlace other) {
        return probe.equals(other.probe) && sensor.equals(other.sensor) && place.equals(other.place);
    }

    public SensorUncertainty uncertainty() {
        return new SensorUncertainty(probe, tolerance, calibration);
    }
}

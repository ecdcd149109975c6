package org.kilnside.session;

import java.util.Optional;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.Reading;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.CalibratedThermometer;
import org.kilnside.sensor.Calibration;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.SensorInPlace;

/**
 * The sensor that guides, as far as it is known: what the book was told of it, unless the controller says that it has
 * another. Confined to the session's thread.
 */
final class GuidingSensor {
    private Optional<SensorInPlace> told;
    private Probe said = Probe.UNKNOWN;
    private CalibratedThermometer thermometer;
    private SteeringNumber steering = new SteeringNumber();

    GuidingSensor(Optional<SensorInPlace> told) {
        this.told = told;
        this.thermometer = CalibratedThermometer.of(inForce());
    }

    /** The controller says what it has. */
    void said(Probe probe) {
        said = probe;
        thermometer = CalibratedThermometer.of(inForce());
    }

    /** A person or the book says more; true when this changes what a reading means. */
    boolean told(Optional<SensorInPlace> sensor) {
        SensorInPlace before = inForce();
        told = sensor;
        SensorInPlace now = inForce();
        if (now.equals(before)) {
            return false;
        }
        thermometer = CalibratedThermometer.of(now);
        return true;
    }

    /** What is told is of no use where the controller has another sensor: every calibration ends with a change. */
    SensorInPlace inForce() {
        return told.filter(sensor -> sensor.fits(said)).orElseGet(() -> SensorInPlace.asSaid(said));
    }

    /** The truth behind a reading of the guiding channel, as far as it is known; empty where there is none. */
    Optional<Temperature> truth(Reading reading) {
        return reading instanceof Reading.Measured measured
                ? thermometer.corrects()
                        ? thermometer.temperature(reading.first().raw())
                        : Optional.of(measured.temperature())
                : Optional.empty();
    }

    /**
     * What the controller reports, its set-point as the temperature it comes to: it is held against the truth, not
     * against the number the controller shows.
     */
    ControllerReport report(Reading.Measured reading, double truthC) {
        ControllerReport report = reading.controller();
        if (report.setpoint().isEmpty()) {
            return report;
        }
        Temperature said = report.setpoint().get();
        Temperature corrected = inForce().calibration().corrected(said);
        Optional<Temperature> asItIs = inForce().uncorrected().isEmpty()
                ? Optional.empty()
                : thermometer.behind(said, reading.first().raw());
        if (asItIs.isPresent() && !isToldSo()) {
            steering.take(
                    reading.elapsedMs(),
                    truthC,
                    corrected.celsius(),
                    asItIs.get().celsius());
        }
        boolean usesAsItIs = asItIs.isPresent() && (isToldSo() || steering.answer() == SteeringNumber.Answer.AS_IT_IS);
        Temperature meant = usesAsItIs ? asItIs.get() : corrected;
        return meant.equals(said)
                ? report
                : new ControllerReport(report.output(), Optional.of(meant), report.segment());
    }

    /** A controller whose °C were said to be a chip's; one that sends the chip's codes may yet correct them for itself. */
    private boolean isToldSo() {
        return inForce().probe().amplifier() == Amplifier.CELSIUS;
    }

    /** Follows from the beginning. */
    void reset() {
        steering = new SteeringNumber();
    }

    /** The number the controller shows and fires by; empty where it is the temperature itself, or none. */
    Optional<Temperature> shown(Reading reading) {
        SensorInPlace sensor = inForce();
        boolean same = sensor.uncorrected().isEmpty() && !thermometer.corrects()
                || steering.answer() == SteeringNumber.Answer.CORRECTED
                        && sensor.calibration().equals(Calibration.NONE);
        return same || !(reading instanceof Reading.Measured)
                ? Optional.empty()
                : thermometer.shown(reading.first().raw());
    }
}

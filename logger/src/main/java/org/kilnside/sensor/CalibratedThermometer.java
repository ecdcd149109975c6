package org.kilnside.sensor;

import java.util.Optional;
import java.util.OptionalInt;
import org.kilnside.quantity.Temperature;

/**
 * From what an amplifier said to the truth at a sensor's tip, with all that is known of this sensor, and between the
 * truth and the number the controller shows. Where a controller fires by an uncorrected number, a person is told both:
 * the truth for the ware, and the controller's for what has to be keyed in. Immutable.
 */
public final class CalibratedThermometer {
    /** Corrections change by hundredths of a degree per degree: a few rounds find the reading behind a truth. */
    private static final int ROUNDS = 12;

    private final SensorInPlace sensor;
    private final Thermometer wire;
    private final Optional<Thermometer> behindShown;

    private CalibratedThermometer(SensorInPlace sensor) {
        this.sensor = sensor;
        this.wire = Thermometer.of(sensor.probe());
        this.behindShown = sensor.uncorrected()
                .map(chip -> Thermometer.of(new Probe(sensor.probe().type(), chip)));
    }

    public static CalibratedThermometer of(SensorInPlace sensor) {
        return new CalibratedThermometer(sensor);
    }

    public SensorInPlace sensor() {
        return sensor;
    }

    /** Whether a temperature worked out from the wire alone is changed here. */
    public boolean corrects() {
        return !sensor.calibration().equals(Calibration.NONE) || passesOnAChipsNumber();
    }

    private boolean passesOnAChipsNumber() {
        return sensor.probe().amplifier() == Amplifier.CELSIUS && behindShown.isPresent();
    }

    /** The truth at the tip; empty when the signal is unknown, faulted, or outside what the thermocouple can give. */
    public Optional<Temperature> temperature(RawSignal signal) {
        Optional<Temperature> read = passesOnAChipsNumber()
                ? wire.temperature(signal)
                        .flatMap(shown -> behindShown.orElseThrow().behind(shown, board(signal)))
                : wire.temperature(signal);
        return read.map(sensor.calibration()::corrected);
    }

    /** The number the controller shows and fires by; empty when the signal is unknown or faulted. */
    public Optional<Temperature> shown(RawSignal signal) {
        return sensor.uncorrected().isPresent() ? wire.shown(signal) : wire.temperature(signal);
    }

    /** The truth behind a number the controller shows, such as its set-point; empty outside what the chip can give. */
    public Optional<Temperature> behind(Temperature shown, Temperature coldJunction) {
        Optional<Temperature> read =
                behindShown.isPresent() ? behindShown.get().behind(shown, coldJunction) : Optional.of(shown);
        return read.map(sensor.calibration()::corrected);
    }

    /** The same with the board as warm as a reading says, or as assumed where it does not. */
    public Optional<Temperature> behind(Temperature shown, RawSignal signal) {
        return behind(shown, board(signal));
    }

    /** The number the controller will show at a truth: what to key in. Empty outside what the chip can give. */
    public Optional<Temperature> shownAt(Temperature truth, Temperature coldJunction) {
        double readC = truth.celsius();
        for (int i = 0; i < ROUNDS; i++) {
            readC += truth.celsius() - sensor.calibration().correctedC(readC);
        }
        Temperature read = Temperature.ofCelsius(Math.max(-Temperature.ZERO_CELSIUS_K, readC));
        return behindShown.isPresent() ? behindShown.get().shownAt(read, coldJunction) : Optional.of(read);
    }

    private Temperature board(RawSignal signal) {
        OptionalInt code = signal.coldJunction();
        return code.isPresent()
                ? wire.coldJunction(signal).orElse(Thermometer.ASSUMED_COLD_JUNCTION)
                : Thermometer.ASSUMED_COLD_JUNCTION;
    }
}

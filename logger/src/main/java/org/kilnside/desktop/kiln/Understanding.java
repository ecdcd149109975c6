package org.kilnside.desktop.kiln;

import java.util.Optional;
import org.kilnside.files.LinePattern;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.sensor.ThermocoupleType;

/**
 * How a controller's lines are understood: by a pattern of their own or as the protocol has it, and whether its number is
 * a chip's as it is.
 */
final class Understanding {
    private Optional<LinePattern> pattern = Optional.empty();

    /** What the person said of the guiding sensor and its chip. */
    private Optional<SensorInPlace> told = Optional.empty();

    private boolean asked;

    /** Another port: nothing is known of its lines. */
    void forget() {
        pattern = Optional.empty();
        told = Optional.empty();
        asked = false;
    }

    void forgetPattern() {
        pattern = Optional.empty();
    }

    void propose(Optional<LinePattern> proposed) {
        pattern = proposed;
    }

    Optional<LinePattern> pattern() {
        return pattern;
    }

    Optional<SensorInPlace> told() {
        return told;
    }

    /** The temperatures are in the other unit. */
    void inUnit(String unit) {
        pattern = pattern.map(its -> its.in(unit));
    }

    /** Another number of the lines is the temperature. */
    void temperatureAt(String place) {
        pattern = pattern.map(its -> its.withTemperatureAt(place));
    }

    /** The guiding channel's probe, as the controller said in its hello; a pattern's is the person's own word. */
    Optional<Probe> said(OpenPort port) {
        return pattern.isPresent()
                ? Optional.empty()
                : port.heard()
                        .flatMap(Wire.Heard::hello)
                        .flatMap(hello -> hello.probes().stream().findFirst());
    }

    /** Without a pattern: what the controller's own number is. */
    void isShownBy(Amplifier amplifier, OpenPort port) {
        asked = true;
        told = said(port)
                .filter(probe -> amplifier != Amplifier.CELSIUS)
                .map(probe -> SensorInPlace.asSaid(probe).shownBy(Optional.of(amplifier)));
    }

    /** Whether the number may be a chip's as it is, and nobody was asked yet. */
    boolean isToBeAsked(OpenPort port) {
        return !asked
                && said(port)
                        .filter(probe -> probe.amplifier() != Amplifier.MAX31856)
                        .isPresent();
    }

    /** The pattern as it is to be saved, for the amplifier whose number the controller passes on. */
    LinePattern named(Amplifier amplifier) {
        return pattern.orElseThrow()
                .named("my controller")
                .from(amplifier == Amplifier.CELSIUS ? Probe.UNKNOWN : new Probe(ThermocoupleType.K, amplifier));
    }
}

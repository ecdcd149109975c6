package org.kilnside.command;

import java.util.Locale;
import java.util.Optional;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.sensor.ThermocoupleType;
import picocli.CommandLine.Option;

/** What the °C of a controller are that works them out itself (a mixin). */
final class ShownNumber {
    @Option(
            names = "--shows",
            paramLabel = "CHIP|TRUTH",
            description =
                    "For a controller that sends °C of its own: whether they are the number of a MAX31855 or MAX6675"
                            + " as it is, which at a glaze firing's top is some 20 °C low, or the temperature.")
    private Optional<String> shows = Optional.empty();

    @Option(
            names = "--sensor",
            paramLabel = "TYPE",
            defaultValue = "K",
            description = "With --shows: the thermocouple's type (${DEFAULT-VALUE}, unless given).")
    private ThermocoupleType type;

    /** The sensor as far as the command line says; empty when it says nothing. */
    Optional<SensorInPlace> sensor() {
        return shows.map(
                word -> SensorInPlace.asSaid(new Probe(type, Amplifier.CELSIUS)).shownBy(chip("--shows", word)));
    }

    /** The chip whose number a controller shows as it is; empty when it shows the temperature. */
    static Optional<Amplifier> chip(String option, String word) {
        return switch (word.strip().toUpperCase(Locale.ROOT)) {
            case "TRUTH" -> Optional.empty();
            case "MAX31855" -> Optional.of(Amplifier.MAX31855);
            case "MAX6675" -> Optional.of(Amplifier.MAX6675);
            default ->
                throw new Complaint(
                        Complaint.ExitCode.USAGE,
                        option + " knows MAX31855, MAX6675 and TRUTH, found \"" + word
                                + "\": other chips follow the thermocouple's curve themselves.");
        };
    }
}

package org.kilnside.command;

import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.files.FileRefusedException;
import org.kilnside.files.Log;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Calibration;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.ReferenceFunction;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.sensor.SensorUncertainty;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.sensor.Thermometer;
import org.kilnside.sensor.ToleranceClass;
import picocli.CommandLine.Option;

/** What is known of the sensor that wrote a log (a mixin). */
final class SensorOptions {
    @Option(names = "--sensor", paramLabel = "TYPE", description = "The thermocouple's type (K, unless given).")
    private Optional<String> type = Optional.empty();

    @Option(
            names = "--class",
            paramLabel = "1|2",
            defaultValue = "2",
            description =
                    "The tolerance class of the thermocouple's wire, IEC 60584-1 (${DEFAULT-VALUE}, unless given).")
    private int tolerance;

    @Option(
            names = "--uncorrected",
            paramLabel = "CHIP",
            description =
                    "max31855 or max6675: log and controller show this chip's own number as it is. It is corrected here.")
    private Optional<String> uncorrected = Optional.empty();

    @Option(
            names = "--offset",
            paramLabel = "°C",
            description = "What to add to the sensor's readings, °C, known from a calibration or witness cones.")
    private Optional<Double> offset = Optional.empty();

    /** How far a calibration by hand may be off: nobody said, so as a pair of witness cones. */
    private static final double OFFSET_HALF_WIDTH_C = 5;

    /** A sensor that is farther off is to be changed, not calibrated. */
    private static final double FARTHEST_OFFSET_C = 200;

    /** A logger rounds to whole degrees at the coarsest. */
    private static final double BEYOND_ROUNDING_C = 1;

    /** How far a temperature may be off where nobody says how warm the amplifier is. */
    SensorUncertainty uncertainty() {
        return new SensorUncertainty(probe(), toleranceClass(), calibration(), false);
    }

    /** How far a log's temperatures may be off. */
    SensorUncertainty uncertainty(Log log) {
        boolean told = true;
        for (int i = 0; told && i < log.trace().size(); i++) {
            told = log.coldJunction().celsius(i).isPresent();
        }
        return new SensorUncertainty(probe(), toleranceClass(), calibration(), told);
    }

    /** That a temperature is none this type of thermocouple gives; empty where it is one. */
    Optional<String> outOfRange(Temperature peak) {
        Temperature highest = ReferenceFunction.of(probe().type()).highest();
        return peak.celsius() > highest.celsius() + BEYOND_ROUNDING_C
                ? Optional.of(String.format(
                        Locale.ROOT,
                        "the log goes to %.0f °C, and a thermocouple of type %s to %.0f °C: what the answer says of the"
                                + " sensor is not this one's; check --sensor, and whether the log is in °F",
                        peak.celsius(),
                        probe().type(),
                        highest.celsius()))
                : Optional.empty();
    }

    /** Refuses a question about a temperature that no thermocouple of this type gets to. */
    void mustReach(Temperature wanted) {
        Temperature highest = ReferenceFunction.of(probe().type()).highest();
        if (wanted.celsius() > highest.celsius() + BEYOND_ROUNDING_C) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE,
                    String.format(
                            Locale.ROOT,
                            "it takes %.0f °C, and a thermocouple of type %s%s goes to %.0f °C: name the one there is with"
                                    + " --sensor",
                            wanted.celsius(),
                            probe().type(),
                            type.isPresent() ? "" : ", which is taken where nobody names one,",
                            highest.celsius()));
        }
    }

    /** The sensor as the command line says; a chip named as uncorrected is one whose number the controller shows. */
    SensorInPlace sensor() {
        return SensorInPlace.uncalibrated(probe(), "", "", toleranceClass()).calibrated(calibration());
    }

    /**
     * The sensor a plan is fired by: the kiln's own where it is known, unless more is said here; else one that is said, or
     * taken, here, which has to get as far.
     */
    SensorInPlace firing(Optional<SensorInPlace> known, Schedule plan) {
        Optional<SensorInPlace> own = known.filter(guide -> !saysMore());
        if (own.isEmpty()) {
            mustReach(plan.top());
        }
        return own.orElseGet(this::sensor);
    }

    /** Whether anything was said by which the controller's numbers part from the truth. */
    private boolean saysMore() {
        return uncorrected.isPresent() || offset.isPresent();
    }

    /** A log's curve as the truth behind it: corrected for the chip, then for the calibration. */
    Trace truth(Log log, String file) {
        if (uncorrected.isEmpty() && offset.isEmpty()) {
            return log.trace();
        }
        Thermometer thermometer = Thermometer.of(probe());
        Trace.Builder corrected = new Trace.Builder();
        for (int i = 0; i < log.trace().size(); i++) {
            Temperature shown = Temperature.ofCelsius(log.trace().temperatureC(i));
            Temperature cold = log.coldJunction().celsius(i).isPresent()
                    ? Temperature.ofCelsius(log.coldJunction().celsius(i).getAsDouble())
                    : Thermometer.ASSUMED_COLD_JUNCTION;
            Optional<Temperature> truth = truth(shown, thermometer, cold);
            if (truth.isPresent()) {
                corrected.add(
                        log.trace().elapsedMs(i),
                        truth.get().celsius(),
                        log.trace().output(i),
                        setpointC(log.trace().setpointC(i), thermometer, cold));
            }
        }
        if (corrected.size() < 2) {
            throw new FileRefusedException(FileRefusedException.Problem.of(
                    file,
                    "hardly any number in it can come from a " + uncorrected.orElse("") + " with type " + probe().type()
                            + "; check --uncorrected and --sensor"));
        }
        return corrected.view();
    }

    /** What of a log this amplifier and thermocouple cannot give, and was left out for it, for a person. */
    Optional<String> leftOut(Log log, Trace truth) {
        int beyond = log.trace().size() - truth.size();
        return beyond == 0
                ? Optional.empty()
                : Optional.of("left out " + beyond + (beyond == 1 ? " number" : " numbers")
                        + " that this amplifier and thermocouple cannot give; check --uncorrected and --sensor");
    }

    private Optional<Temperature> truth(Temperature shown, Thermometer thermometer, Temperature cold) {
        boolean beyond = shown.celsius() > thermometer.probe().amplifier().highestC() + BEYOND_ROUNDING_C;
        if (uncorrected.isPresent() && beyond) {
            return Optional.empty();
        }
        Optional<Temperature> read = uncorrected.isEmpty() ? Optional.of(shown) : thermometer.behind(shown, cold);
        return read.map(calibration()::corrected);
    }

    /** A set-point is in the same numbers as the temperature beside it. */
    private OptionalDouble setpointC(OptionalDouble shown, Thermometer thermometer, Temperature cold) {
        Optional<Temperature> truth = shown.isPresent()
                ? truth(Temperature.ofCelsius(shown.getAsDouble()), thermometer, cold)
                : Optional.empty();
        return truth.isPresent() ? OptionalDouble.of(truth.get().celsius()) : OptionalDouble.empty();
    }

    private Calibration calibration() {
        Numbers.within("--offset", offset, -FARTHEST_OFFSET_C, FARTHEST_OFFSET_C, "°C");
        return offset.isEmpty()
                ? Calibration.NONE
                : Calibration.offset(offset.get(), OFFSET_HALF_WIDTH_C, Calibration.By.WITNESS_CONES);
    }

    private Probe probe() {
        ThermocoupleType known;
        try {
            known = type.map(named -> ThermocoupleType.valueOf(named.strip().toUpperCase(Locale.ROOT)))
                    .orElse(ThermocoupleType.K);
        } catch (IllegalArgumentException e) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE,
                    "--sensor: there is no thermocouple type \"" + type.orElse("")
                            + "\": name one of K, N, S, R, B, J, T or E");
        }
        Amplifier amplifier = uncorrected
                .map(chip -> switch (chip.toLowerCase(Locale.ROOT)) {
                    case "max31855" -> Amplifier.MAX31855;
                    case "max6675" -> Amplifier.MAX6675;
                    default ->
                        throw new Complaint(
                                Complaint.ExitCode.USAGE,
                                "--uncorrected knows max31855 and max6675, found \"" + chip
                                        + "\": other amplifiers correct by themselves");
                })
                .orElse(Amplifier.CELSIUS);
        if (!amplifier.isMadeFor(known)) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE,
                    "there is no " + amplifier + " for type " + known + ": name the chip or the thermocouple there is");
        }
        return new Probe(known, amplifier);
    }

    private ToleranceClass toleranceClass() {
        return switch (tolerance) {
            case 1 -> ToleranceClass.CLASS_1;
            case 2 -> ToleranceClass.CLASS_2;
            default ->
                throw new Complaint(
                        Complaint.ExitCode.USAGE,
                        "--class knows 1 and 2, found " + tolerance + ": class 3 is for the cold, below 40 °C");
        };
    }
}

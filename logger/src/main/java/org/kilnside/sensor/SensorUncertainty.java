package org.kilnside.sensor;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.TemperatureDifference;

/**
 * The uncertainty budget of a sensor: what may part its reading from the truth, in °C, at any temperature.
 *
 * <p>Limits of making are taken as limits (the truth may lie anywhere inside), and independent parts are added as the
 * root of their squares. Not in it, because nobody can give a number: the ageing of the wire. Witness cones can.
 *
 * @param probe what stands behind the channel
 * @param tolerance the class of its wire
 * @param calibration what is known of this sensor in its place
 * @param boardTold whether it is known how warm the amplifier was; where a correction has to assume it, that is a part
 */
public record SensorUncertainty(Probe probe, ToleranceClass tolerance, Calibration calibration, boolean boardTold) {
    /** A controller that works out its own °C does so through some amplifier; as good as a good one. */
    private static final double ANY_AMPLIFIER_C = 2;

    /** A fraction of the coarsest step. */
    private static final double AT_END_K = 0.1;

    /** Nothing known of the sensor: type K of class 2, not calibrated. */
    public static final SensorUncertainty UNKNOWN =
            new SensorUncertainty(Probe.UNKNOWN, ToleranceClass.CLASS_2, Calibration.NONE);

    /** Of these chips the MAX31855 tells how warm it is with every reading. */
    public SensorUncertainty(Probe probe, ToleranceClass tolerance, Calibration calibration) {
        this(probe, tolerance, calibration, probe.amplifier() == Amplifier.MAX31855);
    }

    /** One line of the budget. */
    public record Part(Source source, TemperatureDifference halfWidth) {}

    /** Where an uncertainty comes from. */
    public enum Source {
        /** How far a new wire of its class may be off. */
        WIRE,
        /** How far its wire may be off above the end of its class: at least this. */
        WIRE_OUTSIDE_CLASS,
        AMPLIFIER,
        /** Nobody says how warm the chip is; 25 °C are assumed, 15 °C either way. */
        ASSUMED_COLD_JUNCTION,
        /** What a calibration leaves open, in place of the wire and the amplifier. */
        CALIBRATION
    }

    /** The budget at a temperature in °C, largest parts first. */
    public List<Part> parts(double celsius) {
        List<Part> parts = new ArrayList<>();
        if (calibration.covers(celsius)) {
            parts.add(part(Source.CALIBRATION, calibration.halfWidthC(celsius)));
        } else {
            ToleranceClass.Limit wire = tolerance.limit(probe.type(), celsius);
            parts.add(new Part(wire.withinClass() ? Source.WIRE : Source.WIRE_OUTSIDE_CLASS, wire.halfWidth()));
            parts.add(part(Source.AMPLIFIER, amplifierC(celsius)));
            OptionalDouble nominal = probe.amplifier().nominalMvPerK(probe.type());
            if (!boardTold && nominal.isPresent()) {
                parts.add(part(Source.ASSUMED_COLD_JUNCTION, assumedColdJunctionC(celsius, nominal.getAsDouble())));
            }
        }
        parts.sort((one, other) -> other.halfWidth().compareTo(one.halfWidth()));
        return List.copyOf(parts);
    }

    /** The truth lies within this of the reading, in °C, as far as the parts of the budget go. */
    public double halfWidthC(double celsius) {
        double squares = 0;
        for (Part part : parts(celsius)) {
            squares += part.halfWidth().kelvin() * part.halfWidth().kelvin();
        }
        return Math.sqrt(squares);
    }

    /** Whether the class of the wire still promises anything at a temperature in °C. */
    public boolean withinClass(double celsius) {
        return calibration.covers(celsius)
                || tolerance.limit(probe.type(), celsius).withinClass();
    }

    /**
     * Whether this is the highest temperature the sensor can read, °C: a number it stands at there stands for that or
     * anything hotter. A controller that gives its own °C and said no more may have a MAX6675 behind it, which ends at a
     * number nobody else ends at.
     */
    public boolean endsAt(double celsius) {
        double chipsEndC = (probe.amplifier() == Amplifier.CELSIUS ? Amplifier.MAX6675 : probe.amplifier()).highestC();
        return Thermometer.of(probe)
                .behind(Temperature.ofCelsius(chipsEndC), Thermometer.ASSUMED_COLD_JUNCTION)
                .map(end -> Math.abs(calibration.correctedC(end.celsius()) - celsius) < AT_END_K)
                .orElse(false);
    }

    /**
     * MAX31855: ±2 °C to 700 °C (Maxim 19-5793, read), ±4 °C above (from memory). MAX6675: 8 steps of 0.25 °C to
     * 700 °C (Maxim 19-2235, read), 5 °C above (from memory). MAX31856: cold junction ±0.7 °C (Maxim 19-7534, read)
     * and 0.15 % of full scale, 2 °C (from memory).
     */
    private double amplifierC(double celsius) {
        return switch (probe.amplifier()) {
            case MAX31855 -> celsius <= 700 ? 2 : 4;
            case MAX6675 -> celsius <= 700 ? 2 : 5;
            case MAX31856 -> 2.1;
            case CELSIUS -> ANY_AMPLIFIER_C;
        };
    }

    /** 15 °C more or less on the board than assumed, after chip and correction have taken out nearly the same. */
    private double assumedColdJunctionC(double celsius, double nominalMvPerK) {
        ReferenceFunction function = ReferenceFunction.of(probe.type());
        double atC = Math.min(
                function.highest().celsius(),
                Math.max(function.lowestInvertible().celsius(), celsius));
        double left = Math.abs(function.sensitivityMvPerK(Thermometer.ASSUMED_COLD_JUNCTION.celsius()) - nominalMvPerK);
        return 15 * left / function.sensitivityMvPerK(atC);
    }

    private static Part part(Source source, double halfWidthC) {
        return new Part(source, TemperatureDifference.ofKelvin(halfWidthC));
    }
}

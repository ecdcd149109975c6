package org.kilnside.sensor;

import java.util.ArrayList;
import java.util.List;
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
 */
public record SensorUncertainty(Probe probe, ToleranceClass tolerance, Calibration calibration) {
    /** A controller that works out its own °C does so through some amplifier; as good as a good one. */
    private static final double ANY_AMPLIFIER_C = 2;

    /** Nothing known of the sensor: type K of class 2, not calibrated. */
    public static final SensorUncertainty UNKNOWN =
            new SensorUncertainty(Probe.UNKNOWN, ToleranceClass.CLASS_2, Calibration.NONE);

    /** One line of the budget. */
    public record Part(Source source, TemperatureDifference halfWidth) {}

    /** Where an uncertainty comes from. */
    public enum Source {
        /** How far a new wire of its class may be off. */
        WIRE,
        /** How far its wire may be off above the end of its class: at least this. */
        WIRE_OUTSIDE_CLASS,
        AMPLIFIER,
        /** The chip does not say how warm it is; 25 °C are assumed, 15 °C either way. */
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
            if (probe.amplifier() == Amplifier.MAX6675) {
                parts.add(part(Source.ASSUMED_COLD_JUNCTION, assumedColdJunctionC(celsius)));
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
    private double assumedColdJunctionC(double celsius) {
        ReferenceFunction function = ReferenceFunction.of(probe.type());
        double atC = Math.min(
                function.highest().celsius(),
                Math.max(function.lowestInvertible().celsius(), celsius));
        double left = Math.abs(function.sensitivityMvPerK(Thermometer.ASSUMED_COLD_JUNCTION.celsius())
                - probe.amplifier().nominalMvPerK(probe.type()).orElseThrow());
        return 15 * left / function.sensitivityMvPerK(atC);
    }

    private static Part part(Source source, double halfWidthC) {
        return new Part(source, TemperatureDifference.ofKelvin(halfWidthC));
    }
}

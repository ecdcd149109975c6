package org.kilnside.sensor;

import java.util.Optional;
import org.kilnside.quantity.TemperatureDifference;

/**
 * How far a new wire may lie from its reference function, by IEC 60584-1:2013. A limit of making: no wire of the class
 * lies outside it, and it says nothing of an aged one.
 *
 * <p>Types K, N, R and S from reprints of the standard that agree on these rows; B, E, J and T from memory.
 */
public enum ToleranceClass {
    CLASS_1,
    /** What is sold where nothing is said. */
    CLASS_2,
    CLASS_3;

    private static final double RS_CLASS_1_BEND_C = 1100;

    private static final double NO_BEND = Double.POSITIVE_INFINITY;

    /**
     * The limit at a temperature.
     *
     * @param halfWidth the truth lies no further than this from the reading, or, outside the class, may well lie further
     * @param withinClass whether the class covers this temperature
     */
    public record Limit(TemperatureDifference halfWidth, boolean withinClass) {}

    /**
     * The limit of this class for a type at a temperature in °C. Above the top of class 1 the limit of class 2 is
     * taken, and beyond that its law carried on, both marked as outside the class: at least that much.
     */
    public Limit limit(ThermocoupleType type, double celsius) {
        Optional<Law> own = law(type);
        if (own.isPresent() && own.get().covers(celsius)) {
            return new Limit(TemperatureDifference.ofKelvin(own.get().at(celsius)), true);
        }
        Law widest = CLASS_2.law(type).orElseThrow();
        return new Limit(TemperatureDifference.ofKelvin(widest.at(celsius)), false);
    }

    /** Where this class ends for a type, in °C; empty where the standard has no such class. */
    public Optional<Double> endsAtC(ThermocoupleType type) {
        return law(type).map(Law::toC);
    }

    private Optional<Law> law(ThermocoupleType type) {
        return switch (this) {
            case CLASS_1 ->
                switch (type) {
                    case K, N -> Optional.of(new Law(-40, 1000, 1.5, 0.004, NO_BEND));
                    case R, S -> Optional.of(new Law(0, 1600, 1.0, 0, RS_CLASS_1_BEND_C));
                    case J -> Optional.of(new Law(-40, 750, 1.5, 0.004, NO_BEND));
                    case E -> Optional.of(new Law(-40, 800, 1.5, 0.004, NO_BEND));
                    case T -> Optional.of(new Law(-40, 350, 0.5, 0.004, NO_BEND));
                    case B -> Optional.empty();
                };
            case CLASS_2 ->
                switch (type) {
                    case K, N -> Optional.of(new Law(-40, 1200, 2.5, 0.0075, NO_BEND));
                    case R, S -> Optional.of(new Law(0, 1600, 1.5, 0.0025, NO_BEND));
                    case J -> Optional.of(new Law(-40, 750, 2.5, 0.0075, NO_BEND));
                    case E -> Optional.of(new Law(-40, 900, 2.5, 0.0075, NO_BEND));
                    case T -> Optional.of(new Law(-40, 350, 1.0, 0.0075, NO_BEND));
                    case B -> Optional.of(new Law(600, 1700, 1.5, 0.0025, NO_BEND));
                };
            case CLASS_3 ->
                switch (type) {
                    case K, N, E -> Optional.of(new Law(-200, 40, 2.5, 0.015, NO_BEND));
                    case T -> Optional.of(new Law(-200, 40, 1.0, 0.015, NO_BEND));
                    case B -> Optional.of(new Law(600, 1700, 4.0, 0.005, NO_BEND));
                    case R, S, J -> Optional.empty();
                };
        };
    }

    /** max(fixed, share · |t|), or for class 1 of R and S fixed up to a bend and 0.003 · (t − bend) more above it. */
    private record Law(double fromC, double toC, double fixedC, double share, double bendC) {
        boolean covers(double celsius) {
            return celsius >= fromC && celsius <= toC;
        }

        double at(double celsius) {
            if (bendC < NO_BEND) {
                return fixedC + 0.003 * Math.max(0, celsius - bendC);
            }
            return Math.max(fixedC, share * Math.abs(celsius));
        }
    }
}

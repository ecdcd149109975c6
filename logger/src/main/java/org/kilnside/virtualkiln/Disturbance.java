package org.kilnside.virtualkiln;

import java.util.function.Consumer;

/**
 * Something that happens in mid-firing, once.
 *
 * @param when what sets it off
 * @param what what it does
 */
public record Disturbance(Trigger when, Happening what) {
    /** Sets a disturbance off. */
    public sealed interface Trigger permits At, Rising, Falling, Cooling {}

    /** At a time, seconds after the controller was switched on. */
    public record At(double elapsedS) implements Trigger {}

    /** When the guiding sensor's junction first rises through a temperature. */
    public record Rising(double temperatureC) implements Trigger {}

    /** When it first falls through a temperature, having been well above it. */
    public record Falling(double temperatureC) implements Trigger {}

    /** A while after its highest temperature, once it has cooled well below that. */
    public record Cooling(double afterS) implements Trigger {}

    /** What happens: something is done to the kiln, a sensor, the controller or the mains. */
    @FunctionalInterface
    public interface Happening extends Consumer<VirtualFiring> {}

    public static Disturbance at(double elapsedS, Happening what) {
        return new Disturbance(new At(elapsedS), what);
    }

    public static Disturbance rising(double temperatureC, Happening what) {
        return new Disturbance(new Rising(temperatureC), what);
    }

    public static Disturbance falling(double temperatureC, Happening what) {
        return new Disturbance(new Falling(temperatureC), what);
    }
}

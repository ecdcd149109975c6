package org.kilnside.tracking;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import org.kilnside.firing.ControllerReport;
import org.kilnside.quantity.Share;

/**
 * Finds a firing's start, cooling and end from the curve alone, with the element output where the controller says it.
 * The numbers below are common practice, tried on simulated firings: no standard names them.
 */
final class FiringDetector {
    private static final long MINUTE_MS = 60_000;
    private static final long HOUR_MS = 60 * MINUTE_MS;

    /** A cold kiln has been lit when it is this much above the last hour's lowest: a studio that warms up is slower. */
    private static final double LIT_RISE_K = 6;
    /** Less will do where the controller says that the elements are on, and more is asked where it says they are off. */
    private static final double LIT_RISE_OUTPUT_ON_K = 2;

    private static final double LIT_RISE_OUTPUT_OFF_K = 15;
    /** Above this a kiln is warm from before: a lid that is shut again makes its reading rebound. */
    private static final double WARM_C = 50;

    private static final double LIT_RISE_WARM_K = 10;
    private static final double LIT_RISE_AFTER_COOLING_K = 25;
    private static final long LIT_RISE_AFTER_COOLING_MS = 40 * MINUTE_MS;
    /** A kiln first seen below this and falling is left over from the last firing; above it, a firing is on. */
    private static final double LEFT_OVER_C = 200;

    private static final double OUTPUT_ON = 0.02;

    /** At full output for so long, a curve grown level is no hold: the kiln has no more to give. */
    private static final double OUTPUT_FULL = 0.97;

    private static final long FULL_FOR_MS = 10 * MINUTE_MS;
    private static final double FLAT_K_PER_H = 8;
    private static final double RISING_K_PER_H = 15;
    private static final double FALLING_K_PER_H = -12;
    private static final double COOLING_DROP_K = 15;
    private static final long COOLING_LASTS_MS = 10 * MINUTE_MS;
    /** Below this a firing is over; below the second, it is when the temperature has stopped falling. */
    private static final double ENDED_C = 45;

    private static final double ENDED_WHEN_FLAT_C = 60;
    private static final double ENDED_FLAT_K_PER_H = -1.5;

    private FiringStage stage = FiringStage.WAITING_TO_START;
    private boolean decided;
    private boolean joined;
    private boolean litAgain;
    private boolean wasCooling;
    private OptionalLong litMs = OptionalLong.empty();
    private double litC;
    private OptionalLong outputOnSinceMs = OptionalLong.empty();
    private OptionalLong outputFullSinceMs = OptionalLong.empty();
    private double output;
    private boolean outputKnown;
    private double highestC = Double.NEGATIVE_INFINITY;
    private double peakC = Double.NEGATIVE_INFINITY;
    private long nearPeakMs;
    private OptionalLong fallingSinceMs = OptionalLong.empty();
    private double lowestCoolingC;
    private final OpenLid lid = new OpenLid();

    FiringStage stage() {
        return stage;
    }

    /** When heat began to go in; empty while it has not. */
    OptionalLong litMs() {
        return litMs;
    }

    /** The kiln's temperature when it was lit, °C; meaningful once {@link #litMs()} is there. */
    double litC() {
        return litC;
    }

    /** Whether recording began in the middle of the firing, so that its start is not known. */
    boolean joined() {
        return joined;
    }

    /** Whether the kiln was lit again after this firing's cooling: what follows is another firing. */
    boolean litAgain() {
        return litAgain;
    }

    /** When the temperature was last near its peak: cooling began then, as soon as it is seen to cool. */
    long nearPeakMs() {
        return nearPeakMs;
    }

    /** Whether the controller says that the elements are on; empty when it does not say. */
    Optional<Boolean> elementsOn() {
        return outputKnown ? Optional.of(output > OUTPUT_ON) : Optional.empty();
    }

    /** A person says that the firing begins now. */
    void beginsByHand(long elapsedMs, double celsius) {
        if (litMs.isEmpty()) {
            lit(elapsedMs, celsius);
        }
    }

    /** The plan knows that the firing is not over, whatever the curve looked like. */
    void goesOn() {
        stage = FiringStage.HEATING;
        litAgain = false;
        wasCooling = false;
        fallingSinceMs = OptionalLong.empty();
        peakC = Double.NEGATIVE_INFINITY;
    }

    void endsByHand() {
        stage = FiringStage.ENDED;
    }

    /** Takes what each reading says of the output. */
    void output(long elapsedMs, ControllerReport controller, long sinceLastMs) {
        Optional<Share> said = controller.output();
        if (said.isEmpty()) {
            return;
        }
        double fraction = said.get().fraction();
        double weight = outputKnown ? (double) sinceLastMs / (sinceLastMs + MINUTE_MS) : 1;
        output += (fraction - output) * weight;
        outputKnown = true;
        if (output < OUTPUT_FULL) {
            outputFullSinceMs = OptionalLong.empty();
        } else if (outputFullSinceMs.isEmpty()) {
            outputFullSinceMs = OptionalLong.of(elapsedMs);
        }
        if (output <= OUTPUT_ON) {
            outputOnSinceMs = OptionalLong.empty();
        } else if (outputOnSinceMs.isEmpty()) {
            outputOnSinceMs = OptionalLong.of(elapsedMs);
        }
    }

    /** Takes a temperature between two full half minutes: for the peak alone. */
    void reading(long elapsedMs, double smoothC) {
        highestC = Math.max(highestC, smoothC);
        if (smoothC >= peakC - 3) {
            nearPeakMs = elapsedMs;
            peakC = Math.max(peakC, smoothC);
        }
    }

    /** Looks at the curve when another half minute of it is full. */
    void look(TemperatureTrend trend) {
        if (!decided) {
            decide(trend);
            return;
        }
        switch (stage) {
            case WAITING_TO_START -> lookForStart(trend, wasCooling);
            case HEATING, HOLDING -> lookHot(trend);
            case COOLING -> lookCooling(trend);
            case ENDED -> litAgain |= risen(trend, true).isPresent();
        }
    }

    /** What is going on when the first minutes have been seen. */
    private void decide(TemperatureTrend trend) {
        double now = trend.celsius(0);
        if (now < WARM_C) {
            decided = true;
            return;
        }
        long needed = now < LEFT_OVER_C ? 15 * MINUTE_MS : 5 * MINUTE_MS;
        stage = now < LEFT_OVER_C ? FiringStage.WAITING_TO_START : FiringStage.HEATING;
        OptionalDouble slope = trend.slope(needed);
        if (slope.isEmpty()) {
            return;
        }
        decided = true;
        double perHour = slope.getAsDouble();
        boolean on = elementsOn().orElse(perHour > (now < LEFT_OVER_C ? -2.5 : FALLING_K_PER_H));
        if (on || perHour > RISING_K_PER_H) {
            joined = true;
            stage = perHour > RISING_K_PER_H ? FiringStage.HEATING : FiringStage.HOLDING;
            begin(trend.ms(trend.size() - 1), trend.celsius(trend.size() - 1));
        } else if (now >= LEFT_OVER_C) {
            joined = true;
            begin(trend.ms(trend.size() - 1), trend.celsius(trend.size() - 1));
            cools(trend);
        } else {
            stage = FiringStage.WAITING_TO_START;
        }
    }

    private void lookForStart(TemperatureTrend trend, boolean afterCooling) {
        risen(trend, afterCooling).ifPresent(from -> lit(trend.ms(from), trend.celsius(from)));
    }

    /** The half minute, counted back, from which the temperature has risen as it does when a kiln is lit. */
    private Optional<Integer> risen(TemperatureTrend trend, boolean afterCooling) {
        int lowest = trend.lowest(HOUR_MS);
        double base = trend.celsius(lowest);
        double rise = trend.celsius(0) - base;
        double needed = afterCooling && elementsOn().isEmpty()
                ? LIT_RISE_AFTER_COOLING_K
                : base >= WARM_C ? LIT_RISE_WARM_K : LIT_RISE_K;
        if (elementsOn().isPresent()) {
            needed = elementsOn().get() ? LIT_RISE_OUTPUT_ON_K : LIT_RISE_OUTPUT_OFF_K;
        }
        if (rise < needed || trend.slope(2 * MINUTE_MS).orElse(1) <= 0) {
            return Optional.empty();
        }
        if (afterCooling && elementsOn().isEmpty() && trend.ms(0) - trend.ms(lowest) < LIT_RISE_AFTER_COOLING_MS) {
            return Optional.empty();
        }
        // The rise began where the temperature last was as low as the lowest, but for a noise of ±1 °C.
        int from = 0;
        while (from < lowest && trend.celsius(from) > base + Math.min(1.5, rise / 3)) {
            from++;
        }
        if (outputOnSinceMs.isPresent()) {
            while (from < lowest && trend.ms(from) > outputOnSinceMs.getAsLong()) {
                from++;
            }
        }
        return Optional.of(from);
    }

    private void lit(long elapsedMs, double celsius) {
        decided = true;
        stage = FiringStage.HEATING;
        begin(elapsedMs, celsius);
    }

    private void begin(long elapsedMs, double celsius) {
        litMs = OptionalLong.of(elapsedMs);
        litC = celsius;
        peakC = celsius;
        nearPeakMs = elapsedMs;
    }

    private void lookHot(TemperatureTrend trend) {
        OptionalDouble slope = trend.slope(10 * MINUTE_MS);
        double perHour = slope.orElse(0);
        if (slope.isPresent() && perHour < FALLING_K_PER_H && trend.celsius(0) < peakC - COOLING_DROP_K) {
            if (fallingSinceMs.isEmpty()) {
                fallingSinceMs = OptionalLong.of(trend.ms(0));
            } else if (trend.ms(0) - fallingSinceMs.getAsLong() >= COOLING_LASTS_MS) {
                cools(trend);
            }
            return;
        }
        fallingSinceMs = OptionalLong.empty();
        if (slope.isPresent()) {
            if (Math.abs(perHour) < FLAT_K_PER_H) {
                stage = hasNoMoreToGive(trend.ms(0)) ? FiringStage.HEATING : FiringStage.HOLDING;
            } else if (perHour > RISING_K_PER_H) {
                stage = FiringStage.HEATING;
            }
        }
    }

    private boolean hasNoMoreToGive(long nowMs) {
        return outputFullSinceMs.isPresent() && nowMs - outputFullSinceMs.getAsLong() >= FULL_FOR_MS;
    }

    private void cools(TemperatureTrend trend) {
        stage = FiringStage.COOLING;
        wasCooling = true;
        lowestCoolingC = trend.celsius(0);
        fallingSinceMs = OptionalLong.empty();
    }

    private void lookCooling(TemperatureTrend trend) {
        double now = trend.celsius(0);
        lowestCoolingC = Math.min(lowestCoolingC, now);
        double perHour = trend.slope(10 * MINUTE_MS).orElse(FALLING_K_PER_H);
        if (now >= LEFT_OVER_C) {
            if (now > lowestCoolingC + COOLING_DROP_K && perHour > RISING_K_PER_H) {
                stage = FiringStage.HEATING;
                peakC = now;
            } else if (Math.abs(perHour) < FLAT_K_PER_H / 2) {
                stage = FiringStage.HOLDING;
                peakC = now;
            }
            return;
        }
        lid.look(trend);
        boolean airs = lid.wareC(trend.ms(0)).isPresent();
        // Under an open lid it is the air that has become cold.
        double wareC = Math.max(now, lid.wareC(trend.ms(0)).orElse(now));
        if (wareC < ENDED_C
                || (!airs
                        && now < ENDED_WHEN_FLAT_C
                        && trend.slope(HOUR_MS).orElse(FALLING_K_PER_H) > ENDED_FLAT_K_PER_H
                        && perHour <= 0)) {
            stage = FiringStage.ENDED;
        } else if (isHeatOn() || !lid.explains(trend.ms(0), now)) {
            lookForHeatAgain(trend);
        }
    }

    private boolean isHeatOn() {
        return elementsOn().orElse(false);
    }

    private void lookForHeatAgain(TemperatureTrend trend) {
        if (risen(trend, true).isPresent()) {
            if (highestC < LEFT_OVER_C) {
                // No more than candling so far: heat that comes back belongs to it.
                goesOn();
            } else {
                stage = FiringStage.ENDED;
                litAgain = true;
            }
        }
    }
}

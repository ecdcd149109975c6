package org.kilnside.alarm;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The temperature falls while the kiln should be heated. A kiln without power falls ever on: what it lost in the first
 * minute it loses again in the second. A sensor that slips out, or whose wires touch, falls at once to another place's
 * temperature and stays near it. The numbers are common practice, tried on simulated kilns of brick and fibre.
 */
final class FallWatch {
    private static final long MINUTE_MS = 60_000;
    private static final double FALLEN_K = 5;
    private static final double FALLS_K_PER_H = -20;
    private static final double UNDER_PLAN_K = 6;
    private static final double ASKS_MUCH = 0.6;
    private static final long LASTS_MS = 90_000;

    /** Below this a slipped sensor moves less than a thermostat swings. */
    private static final double SLIP_SEEN_FROM_C = 150;

    private static final double SLIP_K = 22;
    private static final double FLATTENS = 1.35;
    private static final double NEW_GROUND_K = 8;

    private static final long HUNGRY_MS = 15 * MINUTE_MS;
    private static final double HUNGRY = 0.6;
    private static final double HUNGRY_BELOW_C = 250;
    private static final double HUNGRY_K_PER_H = 110;

    /** A cold kiln that can be fired at all rises by more than this at full power. */
    private static final double WEAKEST_K_PER_H = 140;

    private static final double HALF_HUNGRY = 0.3;
    private static final double COLD_C = 150;

    private int hungry;
    private long fallingSinceMs = Long.MIN_VALUE;
    private boolean gone;
    private Optional<Finding> slipped = Optional.empty();
    private double beforeSlipC;
    private double afterSlipC;

    /**
     * Looks for power that is gone.
     *
     * @param wantedC the least that set-point or plan want now; empty when it may be off
     */
    Optional<Finding> lookForPower(Beats beats, OptionalDouble wantedC) {
        if (wantedC.isEmpty()) {
            gone = false;
            fallingSinceMs = Long.MIN_VALUE;
            return Optional.empty();
        }
        long nowMs = beats.nowMs();
        Beats.Peak highest = beats.highest(15 * MINUTE_MS);
        double slope = beats.slope(3 * MINUTE_MS).orElse(0);
        boolean asks = beats.meanOutput(2 * MINUTE_MS, 0).orElse(1) >= ASKS_MUCH;
        boolean falls = highest.celsius() - beats.nowC() >= FALLEN_K
                && slope <= FALLS_K_PER_H
                && beats.nowC() < wantedC.getAsDouble() - UNDER_PLAN_K
                && asks;
        if (!falls) {
            fallingSinceMs = Long.MIN_VALUE;
            if (gone && slope > 0) {
                gone = false;
            }
        } else if (fallingSinceMs == Long.MIN_VALUE) {
            fallingSinceMs = nowMs;
        } else if (nowMs - fallingSinceMs >= LASTS_MS) {
            gone = true;
        }
        return gone
                ? Optional.of(Finding.since(
                                highest.atMs(),
                                Measure.ofKelvinPerHour(slope),
                                Measure.ofCelsius(wantedC.getAsDouble()))
                        .withBadness((wantedC.getAsDouble() - beats.nowC()) / 100))
                : Optional.empty();
    }

    /**
     * Looks for a sensor that slipped out or is shorted, while the kiln is heated. Once found it stays, however harmless
     * the number becomes, until the number comes back as fast as it went.
     */
    Optional<Finding> lookForSlip(Beats beats, boolean heated) {
        if (slipped.isPresent()) {
            boolean back = beats.slope(MINUTE_MS + 30_000).orElse(0) / 40 > 0.5 * (beforeSlipC - afterSlipC)
                    && beats.nowC() > afterSlipC + 0.5 * (beforeSlipC - afterSlipC);
            slipped = back ? Optional.empty() : slipped;
            return slipped;
        }
        if (!heated) {
            return Optional.empty();
        }
        OptionalDouble first = beats.offLine(5 * MINUTE_MS, 2 * MINUTE_MS, MINUTE_MS);
        OptionalDouble second = beats.offLine(5 * MINUTE_MS, 2 * MINUTE_MS, 0);
        double beforeC = beats.meanC(2 * MINUTE_MS + 20_000, 2 * MINUTE_MS).orElse(0);
        if (first.isEmpty() || second.isEmpty() || beforeC < SLIP_SEEN_FROM_C) {
            return Optional.empty();
        }
        double firstK = -first.getAsDouble();
        double secondK = -second.getAsDouble();
        // A lone kiln without power loses up to 20 K in its first minute, a fibre one white-hot.
        boolean abrupt = firstK > 25 + 0.03 * beforeC;
        boolean flattens = firstK > SLIP_K && secondK < FLATTENS * firstK && secondK > 0.4 * firstK;
        // A thermostat's swing comes back to where it has been; a sensor that moved is where the kiln was not.
        boolean newGround = beats.nowC() < beats.lowestBetween(8 * MINUTE_MS, 2 * MINUTE_MS) - NEW_GROUND_K;
        if (newGround && (abrupt || flattens)) {
            beforeSlipC = beforeC;
            afterSlipC = beats.nowC();
            slipped = Optional.of(Finding.since(
                    beats.nowMs() - 2 * MINUTE_MS, Measure.ofCelsius(beats.nowC()), Measure.ofCelsius(beforeC)));
        }
        return slipped;
    }

    /**
     * Looks for a kiln that takes most of its power while the number is low and hardly rises: a kiln that can be fired at
     * all takes less than a quarter for that. The wire is of another type than the amplifier takes it for, or shorted, or
     * the elements do not heat.
     */
    Optional<Finding> lookForHungryKiln(Beats beats) {
        OptionalDouble takes = beats.meanOutput(HUNGRY_MS, 0);
        OptionalDouble early = beats.meanOutput(HUNGRY_MS + 5 * MINUTE_MS, HUNGRY_MS);
        OptionalDouble rate = beats.slope(HUNGRY_MS);
        hungry = takes.isPresent()
                        && early.isPresent()
                        && rate.isPresent()
                        && beats.nowC() < HUNGRY_BELOW_C
                        && (takes.getAsDouble() > HUNGRY && rate.getAsDouble() < HUNGRY_K_PER_H
                                || takes.getAsDouble() > HALF_HUNGRY
                                        && rate.getAsDouble() < WEAKEST_K_PER_H * takes.getAsDouble()
                                        && beats.nowC() < COLD_C)
                ? hungry + 1
                : 0;
        return hungry > 30
                ? Optional.of(Finding.since(
                        beats.nowMs() - HUNGRY_MS, Measure.ofShare(takes.getAsDouble()), Measure.ofShare(0.25)))
                : Optional.empty();
    }
}

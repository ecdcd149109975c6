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
    private static final double FALLS_ON_SHARE = 0.3;
    private static final double UNDER_PLAN_K = 6;
    private static final double ASKS_MUCH = 0.6;
    private static final long LASTS_MS = 90_000;

    /** A thermostat that does not say when it is off lets a kiln fall for minutes, and each time about as far. */
    private static final long LASTS_UNTOLD_MS = 240_000;

    private static final double SWINGS_BELOW_C = 250;
    private static final double DEEPER = 1.6;

    /** Below this a slipped sensor moves less than a thermostat swings. */
    private static final double SLIP_SEEN_FROM_C = 150;

    /** A wire that opens or shorts is gone from one reading to the next; air and sensor take longer for half their height. */
    private static final double CUT_SEEN_FROM_C = 55;

    private static final double CUT_LEAST_K = 28;
    private static final double CUT_SHARE = 0.5;
    private static final long CUT_MS = 40_000;
    private static final double COLD_C = 10;

    private static final double SLIP_K = 22;
    private static final double FLATTENS = 1.35;
    private static final double NEW_GROUND_K = 8;

    /** A lone kiln without power loses up to 20 K in its first minute, a fibre one white-hot: above this none does, K. */
    private static final double ABRUPT_K = 25;

    private static final double ABRUPT_SHARE = 0.03;

    /** Elements that go dark take a bare sensor near them along for so long. */
    private static final long GOES_DARK_MS = 4 * MINUTE_MS;

    /** A number that is off its line by more when the elements go off fell before that, K. */
    private static final double FELL_BEFORE_K = 6;

    private static final double OUTPUT_ON = 0.05;
    private static final double OUTPUT_OFF = 0.005;

    /** What a shut kiln does for so long no sensor that slipped does: a wall's hole takes up and gives off in minutes. */
    private static final long PLAIN_FOR_MS = 60 * MINUTE_MS;

    private static final double PLAIN_FALL_K = 50;
    private static final double PLAIN_SLOWS = 1.05;

    private double crestC = Double.NEGATIVE_INFINITY;
    private double troughC = Double.POSITIVE_INFINITY;
    private double usualFallK;
    private long fallingSinceMs = Long.MIN_VALUE;
    private boolean gone;
    private Optional<Finding> slipped = Optional.empty();
    private double beforeSlipC;
    private double afterSlipC;
    private long slippedMs;

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
        OptionalDouble output = beats.meanOutput(2 * MINUTE_MS, 0);
        boolean asks = output.orElse(1) >= ASKS_MUCH;
        seeSwings(beats.nowC());
        boolean swings = output.isEmpty() && beats.nowC() < SWINGS_BELOW_C;
        double leastK = swings ? Math.max(FALLEN_K, DEEPER * usualFallK) : FALLEN_K;
        boolean falls = highest.celsius() - beats.nowC() >= leastK
                && slope <= FALLS_K_PER_H
                && fallsOn(beats)
                && beats.nowC() < wantedC.getAsDouble() - UNDER_PLAN_K
                && asks;
        if (!falls) {
            fallingSinceMs = Long.MIN_VALUE;
            if (gone && slope > 0) {
                gone = false;
            }
        } else if (fallingSinceMs == Long.MIN_VALUE) {
            fallingSinceMs = nowMs;
        } else if (nowMs - fallingSinceMs >= (swings ? LASTS_UNTOLD_MS : LASTS_MS)) {
            gone = true;
        }
        return gone
                ? Optional.of(Finding.since(
                                highest.atMs(),
                                Measure.ofCelsius(beats.nowC()),
                                Measure.ofCelsius(wantedC.getAsDouble()))
                        .withBadness((wantedC.getAsDouble() - beats.nowC()) / 100))
                : Optional.empty();
    }

    /** A controller that a false reading had switch off for moments lets its kiln fall too, but not on and on. */
    private static boolean fallsOn(Beats beats) {
        double last = beats.slope(MINUTE_MS).orElse(0);
        double before = beats.slope(2 * MINUTE_MS, MINUTE_MS).orElse(0);
        return last <= Math.min(FALLS_K_PER_H, FALLS_ON_SHARE * before);
    }

    /** The deepest fall of late that was made good again. */
    private void seeSwings(double nowC) {
        if (nowC > crestC) {
            usualFallK = Math.max(usualFallK * 0.999, crestC - troughC);
            crestC = nowC;
            troughC = nowC;
        } else {
            troughC = Math.min(troughC, nowC);
        }
    }

    /**
     * Looks for a sensor that slipped out or is shorted, while the kiln is heated. Once found it stays, however harmless
     * the number becomes, until the number comes back as fast as it went; or until one that fell by no more than a kiln
     * without power can has cooled for an hour as one does, with nothing on.
     */
    Optional<Finding> lookForSlip(Beats beats, boolean heated) {
        if (slipped.isPresent()) {
            boolean back = beats.slope(MINUTE_MS + 30_000).orElse(0) / 40 > 0.5 * (beforeSlipC - afterSlipC)
                    && beats.nowC() > afterSlipC + 0.5 * (beforeSlipC - afterSlipC);
            slipped = back || isExplained(beats, heated) ? Optional.empty() : slipped;
            return slipped;
        }
        if (!heated) {
            return Optional.empty();
        }
        OptionalDouble uncut = beats.meanC(CUT_MS + 9_000, CUT_MS);
        if (uncut.isPresent() && isCut(beats, uncut.getAsDouble())) {
            slip(beats, uncut.getAsDouble(), CUT_MS);
            return slipped;
        }
        OptionalDouble first = beats.offLine(5 * MINUTE_MS, 2 * MINUTE_MS, MINUTE_MS);
        OptionalDouble second = beats.offLine(5 * MINUTE_MS, 2 * MINUTE_MS, 0);
        double beforeC = beats.meanC(2 * MINUTE_MS + 20_000, 2 * MINUTE_MS).orElse(0);
        if (first.isEmpty() || second.isEmpty() || beforeC < SLIP_SEEN_FROM_C) {
            return Optional.empty();
        }
        double firstK = -first.getAsDouble();
        double secondK = -second.getAsDouble();
        boolean abrupt = firstK > abruptK(beforeC);
        boolean flattens = firstK > SLIP_K
                && secondK < FLATTENS * firstK
                && secondK > 0.4 * firstK
                && !fellAsElementsWentDark(beats);
        // A thermostat's swing comes back to where it has been; a sensor that moved is where the kiln was not.
        boolean newGround = beats.nowC() < beats.lowestBetween(8 * MINUTE_MS, 2 * MINUTE_MS) - NEW_GROUND_K;
        if (newGround && (abrupt || flattens)) {
            slip(beats, beforeC, 2 * MINUTE_MS);
        }
        return slipped;
    }

    private static double abruptK(double beforeC) {
        return ABRUPT_K + ABRUPT_SHARE * beforeC;
    }

    /** Whether the controller went from on to off some minutes ago and the number was still on its line then. */
    private static boolean fellAsElementsWentDark(Beats beats) {
        long offMs = switchedOffMs(beats);
        if (offMs < MINUTE_MS || offMs > GOES_DARK_MS) {
            return false;
        }
        OptionalDouble off = beats.offLine(offMs + 5 * MINUTE_MS, offMs + Beats.BEAT_MS, offMs);
        return off.isPresent() && off.getAsDouble() > -FELL_BEFORE_K;
    }

    /** For how long the controller has been off that was on before, ms: by its output, or where it tells none by a set-point taken away; else 0. */
    private static long switchedOffMs(Beats beats) {
        if (beats.meanOutput(MINUTE_MS, 0).isPresent()) {
            long offMs = beats.unpoweredMs();
            boolean wasOn =
                    beats.meanOutput(offMs + MINUTE_MS, offMs + Beats.BEAT_MS).orElse(0) > OUTPUT_ON;
            return wasOn ? offMs : 0;
        }
        long agoMs = 0;
        while (agoMs <= GOES_DARK_MS && beats.setpointC(agoMs).isEmpty()) {
            agoMs += Beats.BEAT_MS;
        }
        return agoMs;
    }

    /** Whether the doubt is gainsaid by an hour of plain cooling with nothing on. */
    private boolean isExplained(Beats beats, boolean heated) {
        boolean lasts = beats.nowMs() - slippedMs > PLAIN_FOR_MS;
        if (!lasts || beforeSlipC - afterSlipC > abruptK(beforeSlipC)) {
            return false;
        }
        OptionalDouble output = beats.meanOutput(PLAIN_FOR_MS, 0);
        boolean off = output.isPresent() ? output.getAsDouble() < OUTPUT_OFF : !heated;
        return off && coolsPlainly(beats);
    }

    /** Whether each third of the last hour fell, and by no more than the one before. */
    private static boolean coolsPlainly(Beats beats) {
        double fell = 0;
        double before = Double.POSITIVE_INFINITY;
        for (int third = 3; third > 0; third--) {
            OptionalDouble slope = beats.slope(PLAIN_FOR_MS / 3 * third, PLAIN_FOR_MS / 3 * (third - 1));
            double perHour = -slope.orElse(0);
            if (perHour <= 0 || perHour > PLAIN_SLOWS * before) {
                return false;
            }
            fell += perHour / 3;
            before = perHour;
        }
        return fell > PLAIN_FALL_K;
    }

    private void slip(Beats beats, double fromC, long agoMs) {
        beforeSlipC = fromC;
        afterSlipC = beats.nowC();
        slippedMs = beats.nowMs();
        slipped = Optional.of(
                Finding.since(beats.nowMs() - agoMs, Measure.ofCelsius(beats.nowC()), Measure.ofCelsius(fromC)));
    }

    private static boolean isCut(Beats beats, double uncutC) {
        double leastK = Math.max(CUT_LEAST_K, CUT_SHARE * (uncutC - COLD_C));
        double lately = beats.highestBetween(CUT_MS / 2, 0);
        return uncutC >= CUT_SEEN_FROM_C && uncutC - lately > leastK;
    }
}

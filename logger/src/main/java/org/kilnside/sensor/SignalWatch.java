package org.kilnside.sensor;

import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Set;

/**
 * Watches what one sensor says for signs that it cannot be trusted, though the chip reports no fault. Each sign is a
 * suspicion with the time it began; none is a proof, and none found proves nothing.
 *
 * <p>A function of the readings alone, so the same live and replayed. Confined to one thread. The limits are common
 * practice unless another source is named.
 */
public final class SignalWatch {
    private static final double HOT_COLD_JUNCTION_C = 60;
    private static final long HOT_FOR_MS = 60_000;

    private static final double KILN_IS_HOT_K = 50;
    private static final long FROZEN_COARSE_MS = 600_000;
    private static final long FROZEN_FINE_MS = 120_000;

    /** Degrees a controller works out may be rounded or smoothed: how long they may stand, their signal alone does not tell. */
    private static final long FROZEN_CELSIUS_MS = Long.MAX_VALUE;

    private static final double FINE_STEP_C = 0.05;
    private static final int FROZEN_LEAST = 10;

    private static final int SATURATED_LEAST = 3;

    private static final Set<ThermocoupleType> TABLES_THAT_END_BEYOND_KILNS =
            EnumSet.of(ThermocoupleType.K, ThermocoupleType.S, ThermocoupleType.R, ThermocoupleType.B);

    private static final double REVERSED_BELOW_BOARD_K = 15;
    private static final double REVERSED_FALL_K = 10;

    /** No kiln stands where it is colder than this. */
    private static final double NO_STUDIO_C = -20;

    private static final long SPAN_MS = 3_600_000;
    private static final double FULL_OUTPUT = 0.9;
    private static final double TOO_SLOW_K = 60;

    /**
     * What full power is left to climb with falls by this for each kelvin further up, K in the hour: weak elements that win
     * 60 K an hour at 200 °C win 45 at 350.
     */
    private static final double SLOWER_K_PER_K = 0.12;

    private static final double ROOM_C = 20;
    private static final double TOO_SLOW_BELOW_C = 400;

    private static final long FAST_SPAN_MS = 300_000;
    private static final double TOO_FAST_K_PER_H = 1500;

    /** A rise back to where it has been, such as a lid closed again, may be fast. */
    private static final double NEW_GROUND_K = 20;

    private final Probe probe;
    private final Thermometer thermometer;
    private final double highestCode;
    private final long frozenMs;
    private final Map<Suspicion, Long> since = new EnumMap<>(Suspicion.class);

    private final CoolingAtFullOutput cooling = new CoolingAtFullOutput();
    private boolean begun;
    private int lastCode;
    private int lastColdCode;
    private long sameSinceMs;
    private int sameCount;
    private int saturatedCount;
    private long hotSinceMs;
    private boolean hot;
    private double highestC;
    private long spanBeganMs;
    private double spanBeganC;
    private boolean spanAtFullOutput;
    private long fastBeganMs;
    private double fastBeganC;
    private double fastHighestC;

    public SignalWatch(Probe probe) {
        this.probe = probe;
        this.thermometer = Thermometer.of(probe);
        this.highestCode = probe.amplifier().highestC() / probe.amplifier().thermocoupleStepC();
        if (probe.amplifier() == Amplifier.CELSIUS) {
            this.frozenMs = FROZEN_CELSIUS_MS;
        } else {
            this.frozenMs = probe.amplifier().thermocoupleStepC() < FINE_STEP_C ? FROZEN_FINE_MS : FROZEN_COARSE_MS;
        }
    }

    /** What may be wrong. */
    public enum Suspicion {
        /** The same code again and again, while the kiln is hot or heating: the number is not a measurement any more. */
        FROZEN,
        /** The chip's or the wire's highest number: the truth is this or more, and a controller aiming higher heats on. */
        SATURATED,
        /** The reading fell below the board's own temperature: the thermocouple's leads are exchanged. */
        REVERSED_LEADS,
        /**
         * An hour at full output and hardly any rise: another type of wire than the amplifier is set to, a shorted or
         * slipped sensor, or elements that do not heat. Do not trust the number. Not where it has cooled for hours at that
         * output: then the output is none.
         */
        READS_FAR_TOO_LOW,
        /** It rises faster than any kiln heats: another type of wire than the amplifier is set to. */
        RISES_TOO_FAST,
        /** The amplifier's terminals are above 60 °C: too near the kiln; above 85 °C the chips promise nothing. */
        HOT_COLD_JUNCTION
    }

    /**
     * Takes the next signal.
     *
     * @param elapsedMs ms on the recording's clock, rising
     * @param signal what the chip said; unknown or faulted signals leave all suspicions as they are
     * @param output element output 0 … 1; empty when the controller does not say
     */
    public void offer(long elapsedMs, RawSignal signal, OptionalDouble output) {
        if (signal.thermocouple().isEmpty() || signal.faultBits() != 0) {
            return;
        }
        int code = signal.thermocouple().getAsInt();
        int coldCode = signal.coldJunction().orElse(0);
        OptionalDouble celsius = thermometer
                .temperature(signal)
                .map(tip -> OptionalDouble.of(tip.celsius()))
                .orElse(OptionalDouble.empty());
        OptionalDouble boardC = thermometer
                .coldJunction(signal)
                .map(board -> OptionalDouble.of(board.celsius()))
                .orElse(OptionalDouble.empty());
        if (!begun) {
            begin(elapsedMs, celsius.orElse(0));
        }
        watchFrozen(elapsedMs, code, coldCode, celsius, boardC, output);
        watchSaturated(elapsedMs, code, celsius);
        watchColdJunction(elapsedMs, boardC);
        if (celsius.isPresent()) {
            double tipC = celsius.getAsDouble();
            highestC = Math.max(highestC, tipC);
            watchReversed(elapsedMs, tipC, boardC);
            cooling.offer(elapsedMs, tipC, output);
            watchRise(elapsedMs, tipC, output);
            watchFast(elapsedMs, tipC);
        }
        lastCode = code;
        lastColdCode = coldCode;
    }

    /** Since when something is suspected, ms on the recording's clock; empty when it is not. */
    public OptionalLong since(Suspicion suspicion) {
        Long from = since.get(suspicion);
        return from == null ? OptionalLong.empty() : OptionalLong.of(from);
    }

    /** All that is suspected now, with the time each began. */
    public Map<Suspicion, Long> suspicions() {
        return Map.copyOf(since);
    }

    private void begin(long elapsedMs, double celsius) {
        begun = true;
        highestC = celsius;
        sameSinceMs = elapsedMs;
        startSpan(elapsedMs, celsius);
        fastBeganMs = elapsedMs;
        fastBeganC = celsius;
        fastHighestC = celsius;
    }

    private void watchFrozen(
            long elapsedMs,
            int code,
            int coldCode,
            OptionalDouble celsius,
            OptionalDouble boardC,
            OptionalDouble output) {
        if (code != lastCode || coldCode != lastColdCode || sameCount == 0) {
            sameSinceMs = elapsedMs;
            sameCount = 1;
            since.remove(Suspicion.FROZEN);
            return;
        }
        sameCount++;
        double aroundC = boardC.orElse(Thermometer.ASSUMED_COLD_JUNCTION.celsius());
        boolean mustMove = celsius.orElse(aroundC) - aroundC > KILN_IS_HOT_K || output.orElse(0) >= 0.5;
        if (mustMove && sameCount >= FROZEN_LEAST && elapsedMs - sameSinceMs >= frozenMs) {
            since.putIfAbsent(Suspicion.FROZEN, sameSinceMs);
        }
    }

    private void watchSaturated(long elapsedMs, int code, OptionalDouble celsius) {
        double wireEndC = ReferenceFunction.of(probe.type()).highest().celsius();
        boolean atEnd = code >= highestCode
                || celsius.isPresent()
                        && probe.amplifier() != Amplifier.CELSIUS
                        && celsius.getAsDouble() >= wireEndC - 1
                || probe.amplifier() == Amplifier.CELSIUS && showsAnEnd(code);
        saturatedCount = atEnd ? saturatedCount + 1 : 0;
        set(Suspicion.SATURATED, saturatedCount >= SATURATED_LEAST, elapsedMs);
    }

    /**
     * A controller that gives its own °C still cannot show more than the chip behind it, nor more than the table it reads
     * by. The tables' ends that a kiln may be held at (N 1300, J 1200, E 1000, T 400 °C) are no sign of it.
     */
    private boolean showsAnEnd(int code) {
        double shownC = code * probe.amplifier().thermocoupleStepC();
        return isAt(shownC, Amplifier.MAX6675.highestC())
                || TABLES_THAT_END_BEYOND_KILNS.stream()
                        .mapToDouble(
                                type -> ReferenceFunction.of(type).highest().celsius())
                        .anyMatch(endC -> isAt(shownC, endC) || isAt(shownC, Math.floor(endC)));
    }

    private static boolean isAt(double shownC, double endC) {
        return Math.abs(shownC - endC) < 0.006;
    }

    private void watchColdJunction(long elapsedMs, OptionalDouble boardC) {
        boolean nowHot = boardC.orElse(0) > HOT_COLD_JUNCTION_C;
        if (nowHot && !hot) {
            hotSinceMs = elapsedMs;
        }
        hot = nowHot;
        set(Suspicion.HOT_COLD_JUNCTION, hot && elapsedMs - hotSinceMs >= HOT_FOR_MS, hotSinceMs);
    }

    /**
     * A kiln in a frosty studio is colder than its board too, but it does not fall while it is fired. Where no board's
     * temperature is told, only a number says so that no studio comes to.
     */
    private void watchReversed(long elapsedMs, double tipC, OptionalDouble boardC) {
        double aroundC = boardC.orElse(NO_STUDIO_C + REVERSED_BELOW_BOARD_K);
        boolean reversed = tipC < aroundC - REVERSED_BELOW_BOARD_K
                && tipC < highestC - REVERSED_FALL_K
                && highestC < boardC.orElse(Thermometer.ASSUMED_COLD_JUNCTION.celsius()) + KILN_IS_HOT_K;
        set(Suspicion.REVERSED_LEADS, reversed, elapsedMs);
    }

    private void watchRise(long elapsedMs, double tipC, OptionalDouble output) {
        spanAtFullOutput &= output.orElse(0) >= FULL_OUTPUT && cooling.sinceMs().isEmpty();
        if (!spanAtFullOutput) {
            startSpan(elapsedMs, tipC);
            spanAtFullOutput = output.orElse(0) >= FULL_OUTPUT;
            since.remove(Suspicion.READS_FAR_TOO_LOW);
        } else if (elapsedMs - spanBeganMs >= SPAN_MS) {
            double tooSlowK = TOO_SLOW_K - SLOWER_K_PER_K * Math.max(0, spanBeganC - ROOM_C);
            boolean low = tipC < TOO_SLOW_BELOW_C && tipC - spanBeganC < tooSlowK;
            set(Suspicion.READS_FAR_TOO_LOW, low, spanBeganMs);
            startSpan(elapsedMs, tipC);
            spanAtFullOutput = true;
        }
    }

    private void startSpan(long elapsedMs, double tipC) {
        spanBeganMs = elapsedMs;
        spanBeganC = tipC;
    }

    private void watchFast(long elapsedMs, double tipC) {
        long apartMs = elapsedMs - fastBeganMs;
        if (apartMs >= FAST_SPAN_MS) {
            double rate = (tipC - fastBeganC) / (apartMs / 3_600_000.0);
            boolean newGround = fastBeganC >= fastHighestC - NEW_GROUND_K;
            set(Suspicion.RISES_TOO_FAST, newGround && rate > TOO_FAST_K_PER_H, fastBeganMs);
            fastBeganMs = elapsedMs;
            fastBeganC = tipC;
            fastHighestC = highestC;
        }
    }

    private void set(Suspicion suspicion, boolean suspected, long fromMs) {
        if (suspected) {
            since.putIfAbsent(suspicion, fromMs);
        } else {
            since.remove(suspicion);
        }
    }
}

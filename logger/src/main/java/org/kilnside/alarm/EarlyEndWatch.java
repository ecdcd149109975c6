package org.kilnside.alarm;

import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.quantity.Temperature;

/**
 * The controller says itself that it heats no more, and the plan is not there yet: its program ended, was another one, or somebody
 * ended it. A kiln lit again while it is hot loses little; found in the morning the load is lost. Said once: whoever ended it knows.
 * Power that is asked for and does not come is {@link FallWatch}'s.
 */
final class EarlyEndWatch {
    private static final long MINUTE_MS = 60_000;

    /** A thermostat is off for minutes too, and its kiln falls by some kelvins. */
    private static final long OFF_FOR_MS = 3 * MINUTE_MS;

    private static final double FALLEN_K = 8;

    /** Under the least the plan wants now. */
    private static final double UNDER_PLAN_K = 6;

    /** Under a set-point that still stands: no controller that regulates lets its kiln come so far. */
    private static final double UNDER_SETPOINT_K = 30;

    /** Some controllers say 0 where they want nothing, °C. */
    private static final double WANTS_NOTHING_C = 40;

    private static final double RISES_K = 5;

    private boolean told;
    private double lowestC;

    /**
     * Looks.
     *
     * @param wantedC the least the plan wants now; empty where all its heating may be over, or is near its top
     * @param top the plan's
     * @param highestC so far
     */
    void look(Beats beats, OptionalDouble wantedC, Optional<Temperature> top, double highestC, AlarmLedger ledger) {
        double nowC = beats.nowC();
        if (told) {
            lowestC = Math.min(lowestC, nowC);
            if (nowC > lowestC + RISES_K && beats.unpoweredMs() == 0) {
                told = false;
                ledger.clear(AlarmKind.ENDED_EARLY, beats.nowMs());
            }
            return;
        }
        if (wantedC.isEmpty() || ledger.isActive(AlarmKind.POWER_GONE)) {
            return;
        }
        long offMs = beats.unpoweredMs();
        double setpointC = beats.setpointC().orElse(0);
        boolean stands = setpointC > WANTS_NOTHING_C;
        double underK = (stands ? setpointC : wantedC.getAsDouble()) - nowC;
        boolean fell = beats.highest(offMs + MINUTE_MS).celsius() - nowC >= FALLEN_K;
        if (offMs >= OFF_FOR_MS && fell && underK > (stands ? UNDER_SETPOINT_K : UNDER_PLAN_K)) {
            told = true;
            lowestC = nowC;
            ledger.raise(
                    AlarmKind.ENDED_EARLY,
                    new Finding(
                            beats.nowMs() - offMs,
                            0,
                            Optional.of(Measure.ofCelsius(highestC)),
                            top.map(Measure.OfTemperature::new)),
                    beats.nowMs());
        }
    }
}

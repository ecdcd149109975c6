package org.kilnside.alarm;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import java.util.function.IntToDoubleFunction;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.ControllerReport;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.tracking.PlanPosition;

/** Outputs on lines that come once a minute. */
class RelayMomentsTest {
    private static final long MINUTE_MS = 60_000;
    private static final Schedule PLAN = new Schedule(
            "Even",
            List.of(
                    new Segment.Ramp(
                            HeatingRate.ofKelvinPerHour(100), Temperature.ofCelsius(1000), Duration.ofMinutes(10)),
                    new Segment.FreeCooling()));

    private static ControllerReport told(double output) {
        return new ControllerReport(Optional.of(new Share(output)), Optional.empty(), OptionalInt.empty());
    }

    private static Beats beats(int minutes, IntToDoubleFunction output) {
        Beats beats = new Beats();
        for (int minute = 0; minute <= minutes; minute++) {
            beats.add(minute * MINUTE_MS, 20 + minute * 100 / 60.0, told(output.applyAsDouble(minute)));
        }
        return beats;
    }

    /** A kiln that climbs by 100 K/h all along: whether a third of its power is said to be gone. */
    private static boolean saysPowerIsGone(IntToDoubleFunction output) {
        Beats beats = new Beats();
        PowerWatch watch = new PowerWatch();
        PlanClock clock = new PlanClock(PLAN);
        clock.lit(0, 20);
        PlanPosition position = new PlanPosition(
                1,
                2,
                PlanPosition.Leg.RAMP,
                PlanPosition.KnownFrom.CURVE,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                OptionalInt.empty(),
                Temperature.ofCelsius(1000),
                List.of());
        boolean says = false;
        for (int minute = 0; minute < 560; minute++) {
            double celsius = 20 + minute * 100 / 60.0;
            if (beats.add(minute * MINUTE_MS, celsius, told(output.applyAsDouble(minute)))) {
                clock.advance(beats.nowMs(), beats.nowC(), position);
                says |= watch.look(beats, clock, true).isPresent();
            }
        }
        return says;
    }

    @Test
    void aRelaysMomentsAreWorthWhatSoManyThrowsOfACoinAre() {
        assertThat(RelayMoments.noise(beats(26, minute -> minute % 2), 25 * MINUTE_MS, 0))
                .isCloseTo(0.1, within(0.01));
        assertThat(RelayMoments.noise(beats(26, minute -> minute % 2 == 0 ? 0.4 : 0), 25 * MINUTE_MS, 0))
                .isZero();
    }

    @Test
    void chanceInARelaysMomentsIsNoLossOfPower() {
        for (int seed = 0; seed < 8; seed++) {
            Random random = new Random(seed);
            assertThat(saysPowerIsGone(minute -> random.nextDouble() < 0.2 + minute / 1400.0 ? 1 : 0))
                    .as("seed %d", seed)
                    .isFalse();
        }
    }
}

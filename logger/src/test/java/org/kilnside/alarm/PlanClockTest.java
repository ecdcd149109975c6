package org.kilnside.alarm;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlannedCurve.Kind;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.tracking.PlanPosition;

/** What a plan allows a kiln that comes late to its top; curves drawn by hand. */
class PlanClockTest {
    private static final double TOP_C = 1222;
    private static final Schedule PLAN =
            new Schedule("Driven down", List.of(ramp(150, TOP_C, 10), ramp(160, 1040, 0), new Segment.FreeCooling()));

    /** Up to here it keeps to its plan, then it climbs at 70 K/h. */
    private static final double TIRES_C = 1202;

    private static final double TIRES_S = (TIRES_C - 20) / 150 * 3600;

    private static Segment ramp(double kelvinPerHour, double toC, long holdMinutes) {
        return new Segment.Ramp(
                HeatingRate.ofKelvinPerHour(kelvinPerHour),
                Temperature.ofCelsius(toC),
                Duration.ofMinutes(holdMinutes));
    }

    private static double kilnC(double s, double levelC) {
        return s < TIRES_S ? 20 + s / 3600 * 150 : Math.min(levelC, TIRES_C + (s - TIRES_S) / 3600 * 70);
    }

    /** The clock so long after the kiln began to lag. */
    private static PlanClock after(double minutes, double levelC) {
        PlanClock clock = new PlanClock(PLAN);
        clock.lit(0, 20);
        PlanPosition position = new PlanPosition(
                1,
                3,
                PlanPosition.Leg.RAMP,
                PlanPosition.KnownFrom.CURVE,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                OptionalInt.empty(),
                Temperature.ofCelsius(TOP_C),
                List.of());
        for (double s = 10; s <= TIRES_S + minutes * 60; s += 10) {
            clock.advance(Math.round(s * 1000), kilnC(s, levelC), position);
        }
        return clock;
    }

    @Test
    void aHoldIsNotOverBeforeTheKilnHasBeenThereForIt() {
        // 1222 °C is reached after 17 minutes; the hold may last until 27.
        assertThat(after(25.5, TOP_C).ceilingC()).isEqualTo(TOP_C);
        assertThat(after(23, TOP_C).leg().kind()).isEqualTo(Kind.HOLD);
    }

    @Test
    void theDrivenCoolingBringsTheCeilingDown() {
        assertThat(after(45, TOP_C).ceilingC()).isLessThan(TOP_C - 10);
    }

    @Test
    void aKilnThatStaysALittleBelowItsHoldIsHeldAllTheSame() {
        // Six kelvins below for more than twenty minutes and then the hold's ten.
        assertThat(after(60, TOP_C - 6).ceilingC()).isLessThan(TOP_C - 10);
    }
}

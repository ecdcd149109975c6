package org.kilnside.desktop.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.wording.TemperatureUnit;

class PlanCornerTest {
    private final Schedule plan = new Schedule(
            "a plan",
            List.of(
                    new Segment.Ramp(
                            HeatingRate.ofKelvinPerHour(100), Temperature.ofCelsius(620), Duration.ofMinutes(30)),
                    new Segment.Ramp(HeatingRate.ofKelvinPerHour(50), Temperature.ofCelsius(1000), Duration.ZERO),
                    new Segment.FreeCooling()));

    private static Segment.Ramp ramp(Schedule its, int number) {
        return (Segment.Ramp) its.segments().get(number - 1);
    }

    @Test
    void everyRampAndHoldEndsInACorner() {
        assertThat(PlanCorner.of(plan))
                .containsExactly(
                        new PlanCorner(1, false, 6 * 3_600_000L, 620),
                        new PlanCorner(1, true, 6 * 3_600_000L + 1_800_000, 620),
                        new PlanCorner(2, false, 6 * 3_600_000L + 1_800_000 + 27_360_000, 1000));
    }

    @Test
    void upChangesTheTemperatureInFiveDegreesAndLeavesTheRate() {
        PlanCorner corner = PlanCorner.of(plan).get(2);
        Schedule pulled = corner.pulledTo(plan, corner.atMs(), 1013.2, TemperatureUnit.CELSIUS)
                .orElseThrow();
        assertThat(ramp(pulled, 2).to().celsius()).isEqualTo(1015);
        assertThat(ramp(pulled, 2).rate().kelvinPerHour()).isEqualTo(50);
    }

    @Test
    void alongTheTimeChangesTheRateInWholeDegrees() {
        PlanCorner corner = PlanCorner.of(plan).get(0);
        Schedule pulled = corner.pulledTo(plan, 8 * 3_600_000L, 620, TemperatureUnit.CELSIUS)
                .orElseThrow();
        assertThat(ramp(pulled, 1).rate().kelvinPerHour()).isEqualTo(75);
        assertThat(ramp(pulled, 1).hold()).isEqualTo(Duration.ofMinutes(30));
    }

    @Test
    void alongTheTimeChangesAHoldInFiveMinutes() {
        PlanCorner corner = PlanCorner.of(plan).get(1);
        Schedule pulled = corner.pulledTo(plan, corner.atMs() + 1_000_000, 620, TemperatureUnit.CELSIUS)
                .orElseThrow();
        assertThat(ramp(pulled, 1).hold()).isEqualTo(Duration.ofMinutes(45));
        assertThat(ramp(corner.pulledTo(plan, 0, 620, TemperatureUnit.CELSIUS).orElseThrow(), 1)
                        .hold())
                .isZero();
    }

    @Test
    void pulledBeyondWhatAPlanMayHoldItStaysWhereItIs() {
        PlanCorner corner = PlanCorner.of(plan).get(2);
        assertThat(corner.pulledTo(plan, corner.atMs(), 2400, TemperatureUnit.CELSIUS))
                .isEmpty();
        Schedule steep = corner.pulledTo(plan, 0, 1000, TemperatureUnit.CELSIUS).orElseThrow();
        assertThat(ramp(steep, 2).rate().kelvinPerHour()).isPositive();
    }

    @Test
    void inFahrenheitTheNumbersAreRoundInFahrenheit() {
        PlanCorner corner = PlanCorner.of(plan).get(2);
        Schedule pulled = corner.pulledTo(plan, corner.atMs(), 1003, TemperatureUnit.FAHRENHEIT)
                .orElseThrow();
        assertThat(ramp(pulled, 2).to().fahrenheit() % 10).isCloseTo(0, org.assertj.core.api.Assertions.within(1e-6));
    }
}

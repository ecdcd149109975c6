package org.kilnside.schedule;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlannedCurve.Kind;
import org.kilnside.schedule.PlannedCurve.Leg;

/** Expected numbers are independent: worked out by hand from rate, span and hold. */
class ScheduleTest {
    private static final Schedule SLOW_COOL = new Schedule(
            "Slow cool",
            List.of(ramp(100, 620, 30), ramp(200, 1220, 15), ramp(90, 1040, 60), new Segment.FreeCooling()));

    @Test
    void topIsTheHighestTargetWhereverItStands() {
        assertThat(SLOW_COOL.top()).isEqualTo(Temperature.ofCelsius(1220));
        assertThat(SLOW_COOL.topSegment()).isEqualTo(2);
    }

    @Test
    void aLowerTargetIsControlledCooling() {
        assertThat(List.of(1, 2, 3, 4))
                .filteredOn(SLOW_COOL::isControlledCooling)
                .containsExactly(3);
        assertThat(SLOW_COOL.endsInFreeCooling()).isTrue();
    }

    @Test
    void theCurveHasAStraightLegForEachRampAndEachHold() {
        PlannedCurve curve = SLOW_COOL.curveFrom(Temperature.ofCelsius(20));
        // 600 K at 100 K/h = 6 h; 30 min; 600 K at 200 K/h = 3 h; 15 min; 180 K at 90 K/h = 2 h; 1 h
        assertThat(curve.legs())
                .containsExactly(
                        new Leg(1, Kind.RAMP, 0, min(360), 20, 620),
                        new Leg(1, Kind.HOLD, min(360), min(390), 620, 620),
                        new Leg(2, Kind.RAMP, min(390), min(570), 620, 1220),
                        new Leg(2, Kind.HOLD, min(570), min(585), 1220, 1220),
                        new Leg(3, Kind.CONTROLLED_COOLING, min(585), min(705), 1220, 1040),
                        new Leg(3, Kind.HOLD, min(705), min(765), 1040, 1040));
        assertThat(curve.duration()).isEqualTo(Duration.ofMinutes(765));
        assertThat(curve.timeToTop()).isEqualTo(Duration.ofMinutes(570));
    }

    @Test
    void theCurveSaysTheTemperatureAtATimeAndNothingInFreeCooling() {
        PlannedCurve curve = SLOW_COOL.curveFrom(Temperature.ofCelsius(20));
        assertThat(curve.temperatureC(min(90)).orElseThrow()).isEqualTo(170);
        assertThat(curve.temperatureC(min(375)).orElseThrow()).isEqualTo(620);
        assertThat(curve.temperatureC(min(645)).orElseThrow()).isEqualTo(1130);
        assertThat(curve.temperatureC(min(765)).orElseThrow()).isEqualTo(1040);
        assertThat(curve.temperatureC(min(765) + 1)).isEqualTo(OptionalDouble.empty());
        assertThat(curve.temperatureC(-1)).isEqualTo(OptionalDouble.empty());
    }

    @Test
    void aWarmKilnShortensTheFirstRampAndOneAboveItsTargetSkipsIt() {
        assertThat(SLOW_COOL.curveFrom(Temperature.ofCelsius(120)).legs().get(0).durationMs())
                .isEqualTo(min(300));
        Leg skipped = SLOW_COOL.curveFrom(Temperature.ofCelsius(700)).legs().get(0);
        assertThat(skipped).isEqualTo(new Leg(1, Kind.RAMP, 0, 0, 620, 620));
    }

    @Test
    void refusesWhatIsNoSchedule() {
        assertThatThrownBy(() -> new Schedule("x", List.of())).hasMessageContaining("at least one segment");
        assertThatThrownBy(() -> new Schedule("x", List.of(new Segment.FreeCooling())))
                .hasMessageContaining("begins with a ramp");
        assertThatThrownBy(() -> new Schedule("x", List.of(ramp(1, 2, 0), new Segment.FreeCooling(), ramp(1, 2, 0))))
                .hasMessageContaining("free cooling is the last");
        assertThatThrownBy(() -> ramp(0, 600, 0)).hasMessageContaining("above 0 °C/h");
        assertThatThrownBy(() -> ramp(1, 600, -1)).hasMessageContaining("not negative");
    }

    private static Segment ramp(double kelvinPerHour, double toC, long holdMinutes) {
        return new Segment.Ramp(
                HeatingRate.ofKelvinPerHour(kelvinPerHour),
                Temperature.ofCelsius(toC),
                Duration.ofMinutes(holdMinutes));
    }

    private static long min(long minutes) {
        return minutes * 60_000;
    }
}

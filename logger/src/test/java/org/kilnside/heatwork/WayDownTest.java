package org.kilnside.heatwork;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;

class WayDownTest {
    private static Segment to(double rate, double celsius, long minutes) {
        return new Segment.Ramp(
                HeatingRate.ofKelvinPerHour(rate), Temperature.ofCelsius(celsius), Duration.ofMinutes(minutes));
    }

    private static Trace down(double topC, Segment... afterTop) {
        List<Segment> segments = new ArrayList<>(List.of(to(150, 1222, 10)));
        segments.addAll(List.of(afterTop));
        Schedule plan = new Schedule("a plan", segments);
        return WayDown.of(
                topC, PlanHeat.afterTop(plan.curveFrom(Temperature.ofCelsius(20))), FreeFall.USUAL, topC - 320);
    }

    private static double at(Trace line, double minutes) {
        int i = line.indexAt(Math.round(minutes * 60_000));
        double part = (minutes * 60_000 - line.elapsedMs(i)) / (line.elapsedMs(i + 1) - line.elapsedMs(i));
        return line.temperatureC(i) + part * (line.temperatureC(i + 1) - line.temperatureC(i));
    }

    @Test
    void aCoolingSlowerThanTheKilnsOwnIsThePlans() {
        Trace line = down(1222, to(60, 1100, 30), new Segment.FreeCooling());
        assertThat(at(line, 0)).isEqualTo(1222);
        assertThat(at(line, 60)).isCloseTo(1162, within(0.1));
        assertThat(at(line, 122 + 15)).isCloseTo(1100, within(0.1));
        assertThat(at(line, 122 + 60)).isLessThan(1050);
    }

    @Test
    void aCoolingFasterThanTheKilnsOwnIsTheKilnsAndItsHoldWaits() {
        Trace fast = down(1222, to(900, 1100, 30), new Segment.FreeCooling());
        Trace alone = down(1222, new Segment.FreeCooling());
        assertThat(at(fast, 10)).isCloseTo(at(alone, 10), within(0.01));
        assertThat(at(fast, 50)).isCloseTo(1100, within(0.5));
    }

    @Test
    void aKilnThatIsHeatedOnceMoreIsFollowed() {
        Trace line = down(1222, to(900, 850, 0), to(200, 1100, 20), new Segment.FreeCooling());
        double highest = 0;
        for (int i = 0; i < line.size(); i++) {
            highest = Math.max(highest, line.elapsedMs(i) > 3_600_000 ? line.temperatureC(i) : 0);
        }
        assertThat(highest).isCloseTo(1100, within(0.1));
    }

    @Test
    void aKilnThatNeverGotToThePlansTopIsNotHeatedOnItsWayDown() {
        Trace line = down(1150, to(60, 1000, 0), new Segment.FreeCooling());
        for (int i = 0; i < line.size(); i++) {
            assertThat(line.temperatureC(i)).isLessThanOrEqualTo(1150.001);
        }
    }

    @Test
    void aPlanThatCoolsToBelowTheRoomEnds() {
        assertThat(down(300, to(100, 5, 0)).size()).isLessThan(5000);
    }
}

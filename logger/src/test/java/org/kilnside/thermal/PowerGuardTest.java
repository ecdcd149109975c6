package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.thermal.PowerGuard.Finding;
import org.kilnside.thermal.PowerGuard.Kind;
import org.kilnside.virtualkiln.ControllerSpec;
import org.kilnside.virtualkiln.Disturbance;
import org.kilnside.virtualkiln.Happenings;
import org.kilnside.virtualkiln.Load;
import org.kilnside.virtualkiln.Population;
import org.kilnside.virtualkiln.Programs;
import org.kilnside.virtualkiln.Specimen;
import org.kilnside.virtualkiln.VirtualFiring;

/** Asked once a minute through whole firings of virtual kilns, which are independent of the model. */
class PowerGuardTest {
    private static final Specimen KILN = new Population(Population.Family.LIGHT_BRICK, 5).specimen(1);
    private static final Schedule GLAZE = Programs.glaze(1222, 70);

    private static VirtualTrial fire(VirtualFiring.Builder firing, Schedule plan, double hours) {
        return VirtualTrial.run(firing.interval(10).start(), plan, 900, hours * 3600);
    }

    private static VirtualTrial glaze(double hours, Disturbance... happening) {
        return fire(KILN.glazeFiring(GLAZE, 0).disturbances(happening), GLAZE, hours);
    }

    private static KilnMemory nothing() {
        return KilnMemory.none(Optional.empty());
    }

    /** Asks once a minute up to the end of the heating, and gives what was found with when. */
    private static List<TimedFinding> watch(VirtualTrial trial, KilnMemory memory, double untilS) {
        PowerGuard guard = PowerGuard.of(memory, OptionalDouble.of(trial.roomC()));
        java.util.ArrayList<TimedFinding> found = new java.util.ArrayList<>();
        for (double at = 600; at < untilS; at += 60) {
            double now = at;
            guard.check(trial.until(at, true)).ifPresent(finding -> found.add(new TimedFinding(now, finding)));
        }
        return found;
    }

    private record TimedFinding(double atS, Finding finding) {}

    private static Set<Kind> kinds(List<TimedFinding> found) {
        Set<Kind> kinds = EnumSet.noneOf(Kind.class);
        found.forEach(each -> kinds.add(each.finding().kind()));
        return kinds;
    }

    @Test
    void findsNothingInACleanGlazeFiring() {
        VirtualTrial clean = glaze(20);
        assertThat(watch(clean, nothing(), clean.offS())).isEmpty();
    }

    @Test
    void doesNotTakeTheBoundWaterOfRawClayForMissingPower() {
        Schedule bisque = Programs.bisque(1000);
        VirtualTrial raw = fire(KILN.bisqueFiring(bisque, 0), bisque, 20);
        assertThat(kinds(watch(raw, nothing(), raw.offS()))).isEmpty();
    }

    /** A stack that lags gives off its water while the sensor is past 690 °C; a ring lost later is still seen. */
    @Test
    void doesNotTakeTheWaterOfALaggingStackForALostRingAndStillSeesOneThatIsLost() {
        Specimen fibre = new Population(Population.Family.FIBRE, 9).specimen(0);
        Schedule bisque = new Schedule(
                "bisque",
                List.of(
                        new Segment.Ramp(
                                HeatingRate.ofKelvinPerHour(70), Temperature.ofCelsius(120), Duration.ofHours(1)),
                        new Segment.Ramp(
                                HeatingRate.ofKelvinPerHour(110), Temperature.ofCelsius(1000), Duration.ZERO)));
        VirtualFiring.Builder raw = fibre.bisqueFiring(bisque, 0).controller(ControllerSpec.waiting());
        VirtualTrial sound = fire(raw, bisque, 20);
        for (double askedC = 560; askedC < 900; askedC += 15) {
            assertThat(missing(sound, sound.aboveS(askedC)))
                    .as("at %.0f °C", askedC)
                    .isFalse();
        }
        VirtualTrial lost = fire(
                fibre.bisqueFiring(bisque, 0)
                        .controller(ControllerSpec.waiting())
                        .disturbances(Disturbance.rising(740, Happenings.ringLost(1))),
                bisque,
                20);
        assertThat(missing(lost, lost.aboveS(739) + 3600)).isTrue();
    }

    private static boolean missing(VirtualTrial firing, double seconds) {
        return Forecaster.forecast(
                        ForecastQuestion.about(firing.until(seconds, true)).withTarget(Temperature.ofCelsius(1000)))
                .remarks()
                .stream()
                .anyMatch(each -> each.kind() == Forecast.Remark.Kind.POWER_MISSING);
    }

    @Test
    void findsWithinFiveMinutesThatTheSensorSlippedOutALittle() {
        VirtualTrial slipped = glaze(14, Disturbance.rising(640, Happenings.sensorSlips(0.85)));
        double at = slipped.aboveS(639);
        List<TimedFinding> found = watch(slipped, nothing(), at + 3600);
        assertThat(found.get(0).finding().kind()).isEqualTo(Kind.FELL_TOO_FAST);
        assertThat(found.get(0).finding().distrustsSensor()).isTrue();
        assertThat(found.get(0).atS()).isBetween(at, at + 300);
        assertThat(found.get(0).finding().found())
                .isLessThan(found.get(0).finding().expected());
    }

    @Test
    void findsARingLostAndHowMuchPowerIsLeft() {
        VirtualTrial lost = glaze(14, Disturbance.rising(750, Happenings.ringLost(1)));
        double at = lost.aboveS(749);
        List<TimedFinding> found = watch(lost, nothing(), at + 5400);
        assertThat(kinds(found)).containsExactly(Kind.POWER_MISSING);
        assertThat(found.get(0).atS()).isBetween(at, at + 1800);
        Finding settled = found.get(found.size() - 1).finding();
        assertThat(settled.sinceS()).isBetween(at - 900, at + 900);
        assertThat(settled.expected() / settled.found()).isBetween(0.55, 0.8);
    }

    @Test
    void findsThatAllPowerIsGone() {
        VirtualTrial gone = glaze(14, Disturbance.rising(750, Happenings.kilnPowerCut()));
        double at = gone.aboveS(749);
        List<TimedFinding> found = watch(gone, nothing(), at + 3600);
        assertThat(kinds(found)).containsExactly(Kind.POWER_MISSING);
        assertThat(found.get(found.size() - 1).finding().expected()).isLessThan(0.2);
    }

    @Test
    void findsWaterStillLeavingInAKilnItHasSeenDry() {
        Schedule bisque = Programs.bisque(1000);
        VirtualTrial dry = fire(KILN.glazeFiring(GLAZE, 1), GLAZE, 20);
        KilnMemory memory =
                KilnMemory.of(List.of(dry.until(1e9, true)), Optional.empty(), OptionalDouble.of(dry.roomC()));
        VirtualFiring.Builder wet = KILN.bisqueFiring(bisque, 0)
                .load(Load.raw(0.7 * KILN.usualKg(), 0.3 * KILN.usualKg()).withWater(0.05 * KILN.usualKg()));
        VirtualTrial raw = fire(wet, bisque, 5);
        assertThat(kinds(watch(raw, memory, raw.aboveS(128)))).containsExactly(Kind.WATER_LEAVING);
        VirtualTrial glaze = glaze(5);
        assertThat(watch(glaze, memory, glaze.aboveS(160))).isEmpty();
    }

    @Test
    void saysNothingWhereTheOutputIsNotTold() {
        VirtualTrial slipped = glaze(10, Disturbance.rising(640, Happenings.sensorSlips(0.6)));
        Trace log = slipped.until(slipped.aboveS(639) + 1800, false);
        assertThat(PowerGuard.of(nothing(), OptionalDouble.empty()).check(log)).isEmpty();
        assertThat(PowerGuard.of(nothing(), OptionalDouble.empty()).check(Trace.EMPTY))
                .isEmpty();
    }
}

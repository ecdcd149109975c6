package org.kilnside.virtualkiln;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.kilnside.virtualkiln.Programs.ramp;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.SensorFault;
import org.kilnside.virtualkiln.ControllerSpec.AfterPowerCut;
import org.kilnside.virtualkiln.ControllerSpec.Reports;
import org.kilnside.virtualkiln.VirtualFiring.Moment;

class VirtualControllerTest {
    private static VirtualFiring.Builder firing(Segment... segments) {
        return VirtualFiring.of(VirtualKilns.TALL_DRUM, new Schedule("test", List.of(segments)))
                .load(Load.biscuit(20, 14));
    }

    private static Moment after(VirtualFiring firing, double hours) {
        Moment now = firing.next();
        while (now.elapsedMs() < hours * 3.6e6) {
            now = firing.next();
        }
        return now;
    }

    private static double setpointC(Moment moment) {
        return moment.controller().setpoint().orElseThrow().celsius();
    }

    /** Hours until the program is over. */
    private static double length(VirtualFiring firing) {
        Moment now = firing.next();
        while (!firing.controller().isOver()) {
            now = firing.next();
            assertThat(now.elapsedMs()).isLessThan(200_000_000);
        }
        return now.elapsedMs() / 3.6e6;
    }

    @Test
    void itFollowsRampHoldAndControlledCooling() {
        VirtualFiring firing = firing(ramp(100, 600, 60), ramp(60, 500, 30), ramp(120, 620, 10))
                .start();
        assertThat(setpointC(after(firing, 2))).isCloseTo(212, within(2.0));
        Moment holding = after(firing, 6.5);
        assertThat(setpointC(holding)).isEqualTo(600);
        assertThat(holding.truth().tipC()).isCloseTo(600, within(6.0));
        assertThat(holding.controller().segment()).hasValue(1);
        Moment cooling = after(firing, 7.9);
        assertThat(cooling.controller().segment()).hasValue(2);
        assertThat(setpointC(cooling)).isBetween(500.0, 560.0);
        assertThat(cooling.truth().tipC()).isCloseTo(setpointC(cooling), within(4.0));
        assertThat(length(firing)).isCloseTo(5.9 + 1 + 1.67 + 0.5 + 1 + 0.17, within(0.3));
    }

    @Test
    void oneThatWaitsStretchesThePlanAndOneByTheClockDoesNot() {
        Segment[] steep = {ramp(600, 1100, 20), new Segment.FreeCooling()};
        VirtualFiring waiting = firing(steep).start();
        VirtualFiring clock =
                firing(steep).controller(ControllerSpec.byTheClock()).start();
        double planned = 1088 / 600.0 + 20 / 60.0;
        Moment waitingThen = after(waiting, planned - 0.1);
        assertThat(setpointC(waitingThen)).isLessThan(1050);
        assertThat(setpointC(waitingThen) - waitingThen.truth().tipC()).isBetween(5.0, 25.0);
        assertThat(setpointC(after(clock, planned - 0.1))).isEqualTo(1100);
        Moment after = after(clock, planned + 0.1);
        assertThat(after.controller().setpoint()).isEmpty();
        assertThat(after.truth().tipC()).isLessThan(1000);
        double reachedC = 0;
        for (int i = 0; i < 8 * 3600; i++) {
            reachedC = Math.max(reachedC, waiting.next().truth().tipC());
        }
        assertThat(reachedC).isCloseTo(1100, within(12.0));
    }

    @Test
    void aDelayedStartWaitsInTheCold() {
        VirtualFiring firing = firing(ramp(100, 600, 0))
                .controller(ControllerSpec.waiting().startingAfter(2 * 3600))
                .start();
        Moment before = after(firing, 1.9);
        assertThat(before.controller().setpoint()).isEmpty();
        assertThat(before.controller().segment()).isEmpty();
        assertThat(before.controller().output())
                .hasValueSatisfying(output -> assertThat(output.fraction()).isZero());
        assertThat(before.truth().tipC()).isCloseTo(12, within(0.5));
        assertThat(after(firing, 3.5).truth().tipC()).isGreaterThan(140);
    }

    /** Trade facts, common practice: a home-built controller overshoots 10–20 °C at low heat. */
    @Test
    void aThermostatOvershootsAtCandlingAndAProportionalOneHardly() {
        assertThat(overshoot(ControllerSpec.thermostat())).isBetween(8.0, 22.0);
        assertThat(overshoot(ControllerSpec.waiting())).isLessThan(4);
    }

    private static double overshoot(ControllerSpec controller) {
        VirtualFiring firing = firing(ramp(60, 85, 120)).controller(controller).start();
        double highestC = 0;
        for (int i = 0; i < 3 * 3600; i++) {
            highestC = Math.max(highestC, firing.next().truth().tipC());
        }
        return highestC - 85;
    }

    /** Trade facts (computed): one that takes the amplifier's number as it is aims for 1222 and makes about 1243 °C. */
    @Test
    void oneThatDoesNotCorrectItsAmplifierOverfires() {
        Segment[] glaze = {ramp(250, 1100, 0), ramp(90, 1222, 20)};
        SensorSpec sensor = SensorSpec.typeK(Amplifier.MAX31855);
        assertThat(highest(firing(glaze).sensors(sensor))).isBetween(1221.0, 1230.0);
        assertThat(highest(firing(glaze)
                        .sensors(sensor)
                        .controller(ControllerSpec.waiting().correcting(false))))
                .isBetween(1241.0, 1250.0);
    }

    private static double highest(VirtualFiring.Builder builder) {
        VirtualFiring firing = builder.interval(5).start();
        double highestC = 0;
        while (!firing.controller().isOver()) {
            highestC = Math.max(highestC, firing.next().truth().tipC());
        }
        return highestC;
    }

    @Test
    void fahrenheitTakenForCelsiusAndTheOtherWay() {
        Schedule plan = new Schedule("test", List.of(ramp(180, 1000, 10), new Segment.FreeCooling()));
        Segment.Ramp low = (Segment.Ramp)
                Misprogramming.celsiusTakenForFahrenheit(plan).segments().get(0);
        // Independent: (1000 − 32) / 1.8 and 180 / 1.8.
        assertThat(low.to().celsius()).isCloseTo(537.78, within(0.01));
        assertThat(low.rate().kelvinPerHour()).isCloseTo(100, within(1e-9));
        Segment.Ramp high = (Segment.Ramp)
                Misprogramming.fahrenheitTakenForCelsius(plan).segments().get(0);
        assertThat(high.to().celsius()).isCloseTo(1832, within(1e-9));
        assertThat(high.rate().kelvinPerHour()).isCloseTo(324, within(1e-9));
        assertThat(high.hold()).isEqualTo(low.hold());
    }

    @Test
    void withoutATemperatureItOpensItsRelays() {
        VirtualFiring firing = firing(ramp(100, 600, 0))
                .disturbances(
                        Disturbance.rising(200, Happenings.sensorFault(SensorFault.OPEN_CIRCUIT)),
                        Disturbance.at(3 * 3600, Happenings.sensorMended()))
                .start();
        Moment faulted = after(firing, 2.8);
        assertThat(faulted.signals().get(0).faultBits()).isEqualTo(SensorFault.OPEN_CIRCUIT.bit());
        assertThat(faulted.truth().powerW()).isZero();
        assertThat(faulted.truth().tipC()).isLessThan(195);
        assertThat(after(firing, 5).truth().tipC()).isGreaterThan(230);
    }

    @Test
    void afterAPowerCutItStaysOffGoesOnOrBeginsAgain() {
        for (AfterPowerCut policy : AfterPowerCut.values()) {
            VirtualFiring firing = firing(ramp(100, 300, 0), ramp(200, 900, 0))
                    .controller(ControllerSpec.waiting().afterPowerCut(policy))
                    .disturbances(
                            Disturbance.at(4 * 3600, Happenings.powerCut()),
                            Disturbance.at(4.5 * 3600, Happenings.powerBack()))
                    .start();
            assertThat(after(firing, 3.9).uptimeMs()).isEqualTo(Math.round(3.9 * 3.6e6));
            Moment dark = after(firing, 4.2);
            assertThat(dark.controllerOn()).isFalse();
            assertThat(dark.truth().powerW()).isZero();
            Moment again = after(firing, 5);
            assertThat(again.controllerOn()).isTrue();
            assertThat(again.uptimeMs()).isEqualTo(1_800_000);
            assertThat(again.controller().segment().orElse(0))
                    .isEqualTo(
                            switch (policy) {
                                case STAY_OFF -> 0;
                                case GO_ON -> 2;
                                case BEGIN_AGAIN -> 1;
                            });
        }
    }

    @Test
    void itSendsOnlyWhatItReports() {
        Moment silent = after(
                firing(ramp(100, 600, 0))
                        .controller(ControllerSpec.waiting().reporting(Reports.NONE))
                        .start(),
                0.1);
        assertThat(silent.controller()).isEqualTo(org.kilnside.firing.ControllerReport.NONE);
    }
}

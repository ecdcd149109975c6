package org.kilnside.virtualkiln;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.kilnside.virtualkiln.Disturbance.Cooling;
import org.kilnside.virtualkiln.Disturbance.Happening;
import org.kilnside.virtualkiln.VirtualFiring.Moment;

/** What goes wrong goes wrong when it should, and does what it does in a studio. */
class DisturbanceTest {
    private static final double STEP_S = 5;

    private static VirtualFiring glaze(Disturbance... disturbances) {
        return VirtualFiring.of(VirtualKilns.TALL_DRUM, Programs.glaze(1222, 70))
                .load(Load.biscuit(20, 14))
                .interval(STEP_S)
                .disturbances(disturbances)
                .start();
    }

    private static double highest(VirtualFiring firing, double hours) {
        double highestC = 0;
        while (firing.kiln().elapsedS() < hours * 3600) {
            highestC = Math.max(highestC, firing.next().truth().hottestWareC());
        }
        return highestC;
    }

    @Test
    void nothingWrongMakesTheTop() {
        assertThat(highest(glaze(), 12)).isBetween(1220.0, 1235.0);
    }

    @Test
    void aWeldedRelayAtTheTopRunsAway() {
        VirtualFiring firing = glaze(Disturbance.rising(1218, Happenings.allRelaysWeld()));
        assertThat(highest(firing, 12)).isGreaterThan(1280);
    }

    @Test
    void aSlippedSensorRunsAwayUnderAHarmlessNumber() {
        VirtualFiring firing = glaze(Disturbance.rising(640, Happenings.sensorSlips(0.6)));
        assertThat(highest(firing, 12)).isGreaterThan(1260);
        Moment now = firing.next();
        assertThat(now.truth().tipC()).isLessThan(900);
        assertThat(now.controller().output().orElseThrow().fraction()).isEqualTo(1);
    }

    @Test
    void aLostRingKeepsItFromTheTop() {
        assertThat(highest(glaze(Disturbance.rising(500, Happenings.ringLost(1))), 14))
                .isBetween(1000.0, 1205.0);
    }

    @Test
    void aSagSlowsTheLastHour() {
        VirtualFiring sagging = VirtualFiring.of(VirtualKilns.TALL_DRUM, Programs.glaze(1222, 70))
                .load(Load.biscuit(20, 14))
                .interval(STEP_S)
                .elementResistance(1.1)
                .mains(Mains.sagging(0.07, 7 * 3600, 4 * 3600))
                .start();
        VirtualFiring steady = VirtualFiring.of(VirtualKilns.TALL_DRUM, Programs.glaze(1222, 70))
                .load(Load.biscuit(20, 14))
                .interval(STEP_S)
                .elementResistance(1.1)
                .start();
        assertThat(endOfProgram(sagging)).isGreaterThan(endOfProgram(steady) + 0.3);
    }

    private static double endOfProgram(VirtualFiring firing) {
        int top = 0;
        while (top < 4) {
            Moment now = firing.next();
            top = now.controller().segment().orElse(0);
            assertThat(now.elapsedMs()).isLessThan(100_000_000);
        }
        return firing.kiln().elapsedS() / 3600;
    }

    @Test
    void aKilnWithoutPowerCoolsWhileTheControllerAsks() {
        VirtualFiring firing = glaze(Disturbance.rising(900, Happenings.kilnPowerCut()));
        assertThat(highest(firing, 9)).isCloseTo(900, within(12.0));
        Moment now = firing.next();
        assertThat(now.controllerOn()).isTrue();
        assertThat(now.controller().output().orElseThrow().fraction()).isEqualTo(1);
        assertThat(now.truth().powerW()).isZero();
    }

    @Test
    void aProgramEndedEarlyDoesNotAsk() {
        VirtualFiring firing = glaze(Disturbance.rising(1150, Happenings.programEnds()));
        assertThat(highest(firing, 12)).isCloseTo(1150, within(8.0));
        Moment now = firing.next();
        assertThat(now.controller().output().orElseThrow().fraction()).isZero();
        assertThat(now.controller().segment()).isEmpty();
    }

    @Test
    void anotherProgramBeginsAnew() {
        VirtualFiring firing = glaze(Disturbance.at(600, Happenings.otherProgram(Programs.bisque(998))));
        assertThat(highest(firing, 12)).isCloseTo(998, within(10.0));
    }

    @Test
    void theLidIsProppedAsItFallsAndNotAsItRises() {
        double[] proppedC = new double[1];
        Happening prop = firing -> {
            proppedC[0] = firing.sensor().tipC();
            Happenings.lid(0.02).accept(firing);
        };
        VirtualFiring firing = glaze(Disturbance.falling(118, prop));
        while (firing.kiln().lidGapM() == 0) {
            firing.next();
            assertThat(firing.kiln().elapsedS()).isLessThan(200_000);
        }
        assertThat(proppedC[0]).isBetween(117.0, 118.0);
        assertThat(firing.kiln().elapsedS()).isGreaterThan(15 * 3600);
    }

    /** A thermostat's swing about a candling hold is no cooling. */
    @Test
    void anOvershootThatSettlesIsNotFalling() {
        double[] atC = new double[1];
        VirtualFiring firing = VirtualFiring.of(VirtualKilns.TALL_DRUM, Programs.candledBisque(998, 2))
                .load(Load.raw(20, 14))
                .controller(ControllerSpec.thermostat())
                .interval(STEP_S)
                .disturbances(Disturbance.falling(90, f -> atC[0] = f.kiln().elapsedS()))
                .start();
        highest(firing, 8);
        assertThat(atC[0]).isZero();
        highest(firing, 48);
        assertThat(atC[0]).isGreaterThan(20 * 3600);
    }

    @Test
    void theBungIsPulledAWhileAfterTheTop() {
        double[] pulledC = new double[1];
        VirtualFiring firing = glaze(new Disturbance(
                new Cooling(3 * 3600), f -> pulledC[0] = f.sensor().tipC()));
        highest(firing, 16);
        assertThat(pulledC[0]).isBetween(500.0, 950.0);
    }

    @Test
    void aBoxWithAHotNeighbourGetsHotter() {
        VirtualFiring firing = glaze(Disturbance.at(3600, Happenings.boxHeats(50)));
        highest(firing, 5);
        assertThat(firing.next().truth().boxC()).isBetween(60.0, 80.0);
    }

    @Test
    void theBoxWarmsWithTheKiln() {
        VirtualFiring firing = glaze();
        highest(firing, 9);
        assertThat(firing.next().truth().boxC()).isBetween(17.0, 35.0);
        int code = firing.next().signals().get(0).coldJunction().orElseThrow();
        assertThat(code * 0.0625).isBetween(17.0, 35.0);
    }
}

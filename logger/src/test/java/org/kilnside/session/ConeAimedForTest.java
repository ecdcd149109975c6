package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.alarm.AlarmChange;
import org.kilnside.alarm.AlarmChange.What;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.alarm.Grade;
import org.kilnside.firing.ConeSeries;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConePosition;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.SensorUncertainty;
import org.kilnside.sensor.Thermometer;
import org.kilnside.virtualkiln.ControllerSpec;
import org.kilnside.virtualkiln.Load;
import org.kilnside.virtualkiln.Programs;
import org.kilnside.virtualkiln.SensorSpec;
import org.kilnside.virtualkiln.VirtualFiring;
import org.kilnside.virtualkiln.VirtualKilns;

/**
 * A controller that waits for a top the kiln cannot reach never ends by itself, and the ware gets cone after cone at a number
 * that stays below the plan's. The virtual kiln's physics are not the alarms' own; the cones are the published chart's.
 */
class ConeAimedForTest {
    private static final long LONGEST_MS = 40 * 3_600_000L;
    private static final Schedule GLAZE = aimingFor("6");

    private final HeatWork work = new HeatWork(ConeTable.of(ConeSeries.SELF_SUPPORTING));
    private AlarmReplay replay;

    private static Schedule aimingFor(String cone) {
        Schedule plan = Programs.glaze(1215, 100);
        return new Schedule(plan.name(), Optional.of(cone), plan.clay(), plan.notes(), plan.segments());
    }

    private void fire(Schedule plan, double resistance) {
        VirtualFiring kiln = VirtualFiring.of(VirtualKilns.TALL_DRUM, plan)
                .load(Load.biscuit(18, 14))
                .sensors(SensorSpec.typeK(Amplifier.MAX31856))
                .elementResistance(resistance)
                .controller(ControllerSpec.waiting())
                .interval(10)
                .seed(4)
                .start();
        replay = new AlarmReplay(
                FiringSettings.of(Optional.of("Tall Drum"), Optional.of(plan), Optional.empty()),
                kiln.probes().get(0),
                Optional.empty(),
                900_000);
        Thermometer thermometer = Thermometer.of(kiln.probes().get(0));
        for (long atMs = 0; atMs < LONGEST_MS && !rings(What.RAISED_AGAIN); ) {
            VirtualFiring.Moment now = kiln.next();
            atMs = now.elapsedMs();
            Optional<Temperature> shown = thermometer.temperature(now.signals().get(0));
            if (!rings(What.RAISED)) {
                work.add(atMs, shown.orElseThrow().celsius());
            }
            replay.take(SimulatedWatch.reading(now, shown, thermometer, ControllerSpec.Reports.ALL));
        }
    }

    private boolean rings(What what) {
        return beyond().stream().anyMatch(change -> change.what() == what);
    }

    private List<AlarmChange> beyond() {
        return replay.changes().stream()
                .filter(change -> change.alarm().kind() == AlarmKind.BEYOND_CONE)
                .toList();
    }

    private double conesBeyond(String cone) {
        return ConePosition.at(Cone.find(cone).orElseThrow())
                .stepsTo(work.reached(SensorUncertainty.UNKNOWN).cone())
                .orElseThrow();
    }

    @Test
    void aKilnThatStallsUnderItsTopRingsHalfAConeBeyondWhatItWasToGive() {
        fire(GLAZE, 1.35);
        assertThat(beyond().get(0).alarm().grade()).isEqualTo(Grade.LOOK_SOON);
        assertThat(conesBeyond("6")).isBetween(0.5, 0.6);
    }

    @Test
    void andCallsSomebodyAtAWholeCone() {
        fire(GLAZE, 1.35);
        assertThat(beyond())
                .extracting(change -> change.alarm().grade())
                .containsExactly(Grade.LOOK_SOON, Grade.COME_NOW);
        assertThat(beyond().get(1).what()).isEqualTo(What.RAISED_AGAIN);
    }

    @Test
    void aFiringThatKeepsToItsPlanRingsNothing() {
        fire(GLAZE, 1);
        assertThat(beyond()).isEmpty();
    }

    @Test
    void whatAPlanItselfGivesBeyondTheConeItNamesIsMeant() {
        fire(aimingFor("4"), 1);
        assertThat(beyond()).isEmpty();
    }
}

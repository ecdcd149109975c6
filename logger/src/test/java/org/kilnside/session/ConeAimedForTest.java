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
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.SensorUncertainty;
import org.kilnside.virtualkiln.Programs;

/**
 * A controller that waits for a top the kiln cannot reach never ends by itself, and the ware gets cone after cone at a number
 * that stays below the plan's. The virtual kiln's physics are not the alarms' own; the cones are the published chart's.
 */
class ConeAimedForTest {
    private static final Schedule GLAZE = aimingFor("6");

    private final HeatWork work = new HeatWork(ConeTable.of(ConeSeries.SELF_SUPPORTING));
    private WatchedFiring watched;

    private static Schedule aimingFor(String cone) {
        Schedule plan = Programs.glaze(1215, 100);
        return new Schedule(plan.name(), Optional.of(cone), plan.clay(), plan.notes(), plan.segments());
    }

    private void fire(Schedule plan, double resistance) {
        watched = new WatchedFiring(plan);
        watched.fire(
                plan,
                kiln -> kiln.elementResistance(resistance),
                40,
                () -> rings(What.RAISED_AGAIN),
                (atMs, shown, told) -> {
                    if (!rings(What.RAISED)) {
                        work.add(atMs, shown.celsius());
                    }
                    return told;
                });
    }

    private boolean rings(What what) {
        return beyond().stream().anyMatch(change -> change.what() == what);
    }

    private List<AlarmChange> beyond() {
        return watched.changes(AlarmKind.BEYOND_CONE);
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

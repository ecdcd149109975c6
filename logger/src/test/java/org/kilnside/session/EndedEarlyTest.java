package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.kilnside.alarm.AlarmChange;
import org.kilnside.alarm.AlarmChange.What;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.Reading;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.tracking.FiringStage;
import org.kilnside.tracking.FiringTracker;
import org.kilnside.virtualkiln.Disturbance;
import org.kilnside.virtualkiln.Happenings;
import org.kilnside.virtualkiln.Programs;

/** A controller that stops heating in the middle of a firing and says so by its output, on virtual kilns. */
class EndedEarlyTest {
    private static final long HOUR_MS = 3_600_000;

    private Schedule plan = aimingFor("6");
    private boolean saysZero;
    private WatchedFiring watched;
    private long nowMs;
    private FiringTracker tracker;
    private long endedMs;
    private long coolingMs;

    private static Schedule aimingFor(String cone) {
        Schedule plan = Programs.glaze(1222, 60);
        return new Schedule(plan.name(), Optional.of(cone), plan.clay(), plan.notes(), plan.segments());
    }

    /** Fires until it ends, and for so long after. */
    private void fire(double endsAtC, Disturbance.Happening how, double hoursAfter) {
        tracker = new FiringTracker(Optional.of(plan));
        watched = new WatchedFiring(plan);
        nowMs = 0;
        watched.fire(
                plan,
                kiln -> kiln.disturbances(Disturbance.rising(endsAtC, how)),
                30,
                () -> endedMs != 0 && nowMs >= endedMs + hoursAfter * HOUR_MS,
                (atMs, shown, told) -> {
                    nowMs = atMs;
                    endedMs = endedMs == 0 && shown.celsius() > endsAtC - 4 ? atMs : endedMs;
                    Reading reading = asItSays(told);
                    tracker.take(atMs, shown.celsius(), reading.controller());
                    coolingMs = coolingMs == 0 && tracker.stage() == FiringStage.COOLING ? atMs : coolingMs;
                    return reading;
                });
    }

    private Reading asItSays(Reading reading) {
        ControllerReport says = reading.controller();
        return saysZero && says.setpoint().isEmpty()
                ? Reading.of(
                        reading.elapsedMs(),
                        reading.channels(),
                        new ControllerReport(says.output(), Optional.of(Temperature.ofCelsius(0)), says.segment()),
                        reading.origin())
                : reading;
    }

    private List<AlarmChange> rung() {
        return watched.changes(AlarmKind.ENDED_EARLY);
    }

    @ParameterizedTest
    @ValueSource(doubles = {400, 900, 1150})
    void aProgramThatEndsLongBeforeItsTopIsToldWithinTenMinutesAndOnce(double endsAtC) {
        fire(endsAtC, Happenings.programEnds(), 5);
        assertThat(rung()).extracting(AlarmChange::what).containsExactly(What.RAISED);
        assertThat(rung().get(0).elapsedMs()).isLessThan(endedMs + 600_000);
    }

    @Test
    void alsoByAControllerThatSaysZeroWhereItWantsNothing() {
        saysZero = true;
        fire(900, Happenings.programEnds(), 1);
        assertThat(rung()).hasSize(1);
        assertThat(coolingMs).isBetween(endedMs, endedMs + 1_200_000);
    }

    @Test
    void andIsACoolingSoonAfter() {
        fire(900, Happenings.programEnds(), 1);
        assertThat(coolingMs).isBetween(endedMs, endedMs + 1_200_000);
    }

    /** The ramp to 1112 °C is the second of the plan's four segments. */
    @Test
    void thePlaceInThePlanSaysWhereTheHeatEnded() {
        fire(900, Happenings.allRingsLost(), 2);
        assertThat(tracker.position().orElseThrow().heatEndedIn()).hasValue(2);
        endedMs = 0;
        coolingMs = 0;
        fire(1218, Happenings.programEnds(), 2);
        assertThat(tracker.position().orElseThrow().heatEndedIn()).isEmpty();
    }

    @Test
    void oneThatEndsAtItsTopIsNot() {
        fire(1216, Happenings.programEnds(), 3);
        assertThat(rung()).isEmpty();
    }

    @Test
    void onceTheConeAimedForIsDownWhoEndsItKnowsWhy() {
        plan = aimingFor("5");
        fire(1210, Happenings.programEnds(), 3);
        assertThat(watched.changes())
                .extracting(change -> change.alarm().kind())
                .contains(AlarmKind.CONE_REACHED);
        assertThat(rung()).isEmpty();
    }

    @Test
    void elementsThatAreLostWhileHeatIsAskedForAreAnotherThing() {
        fire(900, Happenings.allRingsLost(), 1);
        assertThat(rung()).isEmpty();
        assertThat(watched.changes())
                .extracting(change -> change.alarm().kind())
                .contains(AlarmKind.POWER_GONE);
    }
}

package org.kilnside.tracking;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.FiringEvent.Kind;
import org.kilnside.quantity.Share;
import org.kilnside.schedule.Schedule;
import org.kilnside.tracking.PlanPosition.Leg;
import org.kilnside.tracking.SimulatedFiring.Line;
import org.kilnside.tracking.SimulatedFiring.Prints;

/** Start, cooling and end found by themselves, with a plan and without. */
class FiringTrackerTest {
    private static final Schedule BISQUE =
            ProfileLibrary.starters().plan("bisque").schedule();

    @Test
    void hoursAtRoomTemperatureAreWaitingWhateverTheNoise() {
        for (int everyS : new int[] {1, 60}) {
            for (int seed = 0; seed < 6; seed++) {
                Random random = new Random(seed);
                FiringTracker tracker = new FiringTracker(Optional.of(BISQUE));
                for (long s = 0; s < 12 * 3600; s += everyS) {
                    // The studio warms up from 2 to 14 °C through the morning.
                    double room = 8 - 6 * Math.cos(s / 43_200.0 * Math.PI);
                    tracker.take(s * 1000, room + 2 * random.nextDouble() - 1, ControllerReport.NONE);
                }
                assertThat(tracker.stage()).isEqualTo(FiringStage.WAITING_TO_START);
                PlanPosition position = tracker.position().get();
                assertThat(position.leg()).isEqualTo(Leg.WAITING);
                assertThat(position.behind()).isEmpty();
                assertThat(position.planned()).isEmpty();
                assertThat(tracker.takeHappened()).isEmpty();
            }
        }
    }

    @Test
    void airUnderAnOpenLidEndsNoFiring() {
        FiringTracker tracker = new FiringTracker(Optional.empty());
        // From 15 °C to 700 °C, then left to itself; propped at 118 °C, and shut again an hour and a half later.
        double shutC = 15;
        double airC = 15;
        long propped = Long.MAX_VALUE;
        for (long s = 0; s < 60 * 3600; s += 10) {
            boolean heats = s < 7 * 3600;
            shutC += heats ? 100 / 360.0 : -(shutC - 15) * 10 / (6.0 * 3600);
            propped = !heats && shutC < 118 ? Math.min(propped, s) : propped;
            boolean open = s >= propped && s < propped + 5400;
            airC = open || airC < shutC - 3 ? airC + ((open ? 25 : shutC) - airC) * 10 / 400 : shutC;
            tracker.take(s * 1000, airC, ControllerReport.NONE);
            if (open && s > propped + 3000) {
                assertThat(airC).isLessThan(30);
            }
            if (shutC > 45 || s < propped) {
                assertThat(tracker.stage())
                        .as("at " + s + " s, the ware at " + shutC)
                        .isNotEqualTo(FiringStage.ENDED);
            }
            assertThat(tracker.litAgain()).isFalse();
        }
        assertThat(tracker.stage()).isEqualTo(FiringStage.ENDED);
        assertThat(only(Kind.FIRING_ENDED, tracker.takeHappened()).elapsedMs())
                .isGreaterThan(propped * 1000 + 5_400_000);
    }

    @Test
    void theStartIsFoundByItselfWithinMinutes() {
        for (Prints prints : List.of(Prints.TEMPERATURE_ALONE, Prints.EVERYTHING)) {
            for (int everyS : new int[] {1, 60}) {
                for (double startC : new double[] {-5, 8, 28, 45}) {
                    SimulatedFiring firing = new SimulatedFiring();
                    firing.prints = prints;
                    firing.lineEveryS = everyS;
                    firing.ambientC = Math.min(startC, 15);
                    firing.startC = startC;
                    firing.delayS = 5 * 3600;
                    firing.runForS = 8 * 3600;
                    FiringEvent began = only(Kind.FIRING_BEGAN, follow(Optional.of(BISQUE), firing));
                    assertThat(began.elapsedMs() / 60_000.0)
                            .as(prints + " every " + everyS + " s from " + startC + " °C")
                            .isCloseTo(300, within(6.0));
                }
            }
        }
    }

    @Test
    void aWarmKilnLitAgainIsFoundWhenTheHeatComes() {
        Schedule glaze = ProfileLibrary.starters().plan("mid-range-glaze").schedule();
        for (double startC : new double[] {60, 90, 130, 195}) {
            SimulatedFiring firing = new SimulatedFiring();
            firing.startC = startC;
            firing.delayS = 3600;
            firing.runForS = 12 * 3600;
            List<Line> lines = firing.run(glaze);
            long heatMs = heatComesMs(lines);
            FiringEvent began = only(Kind.FIRING_BEGAN, follow(Optional.of(glaze), lines));
            assertThat(began.elapsedMs() / 60_000.0).as("lit at " + startC).isCloseTo(heatMs / 60_000.0, within(8.0));
        }
    }

    /** When the true temperature was lowest: from there on heat went in. */
    private static long heatComesMs(List<Line> lines) {
        Line lowest = lines.get(0);
        for (Line line : lines) {
            if (line.trueC() < lowest.trueC()) {
                lowest = line;
            }
        }
        return lowest.elapsedMs();
    }

    @Test
    void coolingAndEndAreFoundWithAPlanAndWithout() {
        for (Optional<Schedule> plan : List.of(Optional.of(BISQUE), Optional.<Schedule>empty())) {
            SimulatedFiring firing = new SimulatedFiring();
            firing.runForS = 80 * 3600;
            List<Line> lines = firing.run(BISQUE);
            double doneMin =
                    lines.stream().filter(Line::done).findFirst().orElseThrow().elapsedMs() / 60_000.0;
            List<FiringEvent> events = follow(plan, lines);
            assertThat(only(Kind.COOLING_BEGAN, events).elapsedMs() / 60_000.0).isCloseTo(doneMin, within(4.0));
            long endMs = only(Kind.FIRING_ENDED, events).elapsedMs();
            Line end = lines.stream()
                    .filter(line -> line.elapsedMs() >= endMs)
                    .findFirst()
                    .orElseThrow();
            assertThat(end.trueC()).isBetween(40.0, 62.0);
        }
    }

    @Test
    void withoutAPlanHoldsAreToldFromRamps() {
        FiringTracker tracker = new FiringTracker(Optional.empty());
        int right = 0;
        int all = 0;
        for (Line line : new SimulatedFiring().run(BISQUE)) {
            tracker.take(line.elapsedMs(), line.temperatureC(), line.report());
            if (line.lit() && !line.done() && line.segment() == 1 && line.elapsedMs() > 20 * 60_000) {
                all++;
                right += tracker.stage() == (line.hold() ? FiringStage.HOLDING : FiringStage.HEATING) ? 1 : 0;
            }
        }
        assertThat(tracker.position()).isEmpty();
        assertThat(right / (double) all).isGreaterThan(0.9);
    }

    @Test
    void aKilnThatStandsAtFullOutputHoldsNothing() {
        for (double share : new double[] {1, 0.6}) {
            FiringTracker tracker = new FiringTracker(Optional.empty());
            ControllerReport report = new ControllerReport(
                    Optional.of(Share.ofPercent(100 * share)), Optional.empty(), OptionalInt.empty());
            for (long s = 0; s < 20 * 3600; s += 30) {
                tracker.take(s * 1000, 15 + 1135 * (1 - Math.exp(-s / 3600.0 / 3.3)), report);
            }
            assertThat(tracker.stage()).isEqualTo(share == 1 ? FiringStage.HEATING : FiringStage.HOLDING);
        }
    }

    @Test
    void aKilnLitAgainAfterItsFiringBeginsAnother() {
        FiringTracker tracker = new FiringTracker(Optional.of(BISQUE));
        SimulatedFiring firing = new SimulatedFiring();
        firing.stopBelowC = 90;
        firing.runForS = 80 * 3600;
        List<Line> lines = firing.run(BISQUE);
        for (Line line : lines) {
            tracker.take(line.elapsedMs(), line.temperatureC(), line.report());
        }
        assertThat(tracker.stage()).isEqualTo(FiringStage.COOLING);
        assertThat(tracker.litAgain()).isFalse();
        long from = lines.get(lines.size() - 1).elapsedMs();
        for (long s = 1; s < 3600 && !tracker.litAgain(); s++) {
            tracker.take(from + s * 1000, 90 + s / 3600.0 * 80, ControllerReport.NONE);
        }
        assertThat(tracker.litAgain()).isTrue();
        assertThat(tracker.stage()).isEqualTo(FiringStage.ENDED);
        assertThat(kinds(tracker.takeHappened())).endsWith(Kind.COOLING_BEGAN, Kind.FIRING_ENDED);
    }

    /** Common practice: a propped lid lets the sensor read room air; shut again, it rebounds within minutes. */
    @Test
    void aLidShutAgainIsNoNewFiring() {
        FiringTracker tracker = new FiringTracker(Optional.of(BISQUE));
        SimulatedFiring firing = new SimulatedFiring();
        firing.stopBelowC = 120;
        firing.runForS = 80 * 3600;
        List<Line> lines = firing.run(BISQUE);
        lines.forEach(line -> tracker.take(line.elapsedMs(), line.temperatureC(), line.report()));
        long from = lines.get(lines.size() - 1).elapsedMs();
        for (long s = 1; s < 3 * 3600; s++) {
            double ware = 120 - s / 3600.0 * 6;
            double seen = s < 1800 ? ware - 60 * (1 - Math.exp(-s / 300.0)) : ware - 60 * Math.exp(-(s - 1800) / 400.0);
            tracker.take(from + s * 1000, seen, ControllerReport.NONE);
        }
        assertThat(tracker.litAgain()).isFalse();
        assertThat(tracker.stage()).isEqualTo(FiringStage.COOLING);
    }

    @Test
    void aPersonMaySayThatItBeginsAndThatItIsOver() {
        FiringTracker tracker = new FiringTracker(Optional.of(BISQUE));
        for (long s = 0; s < 600; s++) {
            tracker.take(s * 1000, 12, ControllerReport.NONE);
        }
        tracker.beginsByHand();
        assertThat(tracker.stage()).isEqualTo(FiringStage.HEATING);
        assertThat(tracker.position().get().leg()).isEqualTo(Leg.RAMP);
        assertThat(tracker.litMs()).hasValue(599_000);
        tracker.endsByHand();
        assertThat(tracker.stage()).isEqualTo(FiringStage.ENDED);
        assertThat(tracker.position().get().leg()).isEqualTo(Leg.DONE);
    }

    @Test
    void timeThatFallsAndTemperaturesThatAreNoneAreRefused() {
        FiringTracker tracker = new FiringTracker(Optional.of(BISQUE));
        tracker.take(1000, 12, ControllerReport.NONE);
        tracker.take(1000, 12, ControllerReport.NONE);
        assertThatThrownBy(() -> tracker.take(999, 12, ControllerReport.NONE)).hasMessageContaining("forward in time");
        assertThatThrownBy(() -> tracker.take(2000, Double.NaN, ControllerReport.NONE))
                .hasMessageContaining("finite");
    }

    @Test
    void aSingleReadingIsNoFiring() {
        FiringTracker tracker = new FiringTracker(Optional.of(BISQUE));
        assertThat(tracker.stage()).isEqualTo(FiringStage.WAITING_TO_START);
        assertThat(tracker.position().get().leg()).isEqualTo(Leg.WAITING);
        tracker.take(0, 950, ControllerReport.NONE);
        assertThat(tracker.position().get().leg()).isEqualTo(Leg.WAITING);
    }

    private static List<FiringEvent> follow(Optional<Schedule> plan, SimulatedFiring firing) {
        return follow(plan, firing.run(BISQUE));
    }

    private static List<FiringEvent> follow(Optional<Schedule> plan, List<Line> lines) {
        FiringTracker tracker = new FiringTracker(plan);
        List<FiringEvent> events = new ArrayList<>();
        for (Line line : lines) {
            tracker.take(line.elapsedMs(), line.temperatureC(), line.report());
            events.addAll(tracker.takeHappened());
        }
        return events;
    }

    private static FiringEvent only(Kind kind, List<FiringEvent> events) {
        List<FiringEvent> found =
                events.stream().filter(event -> event.kind() == kind).toList();
        assertThat(found).as(kind + " of " + kinds(events)).hasSize(1);
        return found.get(0);
    }

    private static List<Kind> kinds(List<FiringEvent> events) {
        return events.stream().map(FiringEvent::kind).toList();
    }
}

package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.kilnside.alarm.AlarmChange.What;
import org.kilnside.alarm.AlarmEntry;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.firing.Channel;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Origin;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.Thermometer;
import org.kilnside.virtualkiln.Disturbance;
import org.kilnside.virtualkiln.Happenings;
import org.kilnside.virtualkiln.Load;
import org.kilnside.virtualkiln.Programs;
import org.kilnside.virtualkiln.VirtualFiring;
import org.kilnside.virtualkiln.VirtualKilns;

/**
 * Nights at Rook Lane Pottery: Tall Drum under its controller, watched by the live firing itself, line by line. The
 * scenarios and the times promised are the issue's.
 */
class AlarmScenariosTest {
    private static final long MINUTE_MS = 60_000;

    private final BookInMemory book = new BookInMemory();
    private final HandClock clock = new HandClock();

    private FiringWatch watch;
    private VirtualFiring firing;
    private Thermometer thermometer;
    private long happenedMs = -1;
    private long nowMs;

    private void light(Schedule plan, Schedule keyedIn, Load load, Disturbance... what) {
        watch = new FiringWatch(
                book,
                clock,
                FiringSettings.of(Optional.of("Tall Drum"), Optional.of(plan), Optional.empty()),
                "serial:/dev/ttyUSB0",
                1,
                Host.UNKNOWN);
        List<Disturbance> told = new ArrayList<>();
        for (Disturbance each : what) {
            told.add(new Disturbance(each.when(), its -> {
                happenedMs = happenedMs < 0 ? nowMs : happenedMs;
                each.what().accept(its);
            }));
        }
        firing = VirtualFiring.of(VirtualKilns.TALL_DRUM, keyedIn)
                .load(load)
                .interval(5)
                .disturbances(told)
                .seed(4)
                .start();
        thermometer = Thermometer.of(firing.probes().get(0));
        watch.hello(new ReadingSource.ControllerHello(
                Optional.of("tall-drum"),
                Optional.empty(),
                firing.probes(),
                OptionalInt.of(5_000),
                OptionalLong.empty()));
    }

    /** Lets the kiln go on; true as long as the condition has not come true. */
    private boolean goesOn(java.util.function.BooleanSupplier until, double hours) {
        long endMs = nowMs + Math.round(hours * 60 * MINUTE_MS);
        while (nowMs < endMs) {
            VirtualFiring.Moment moment = firing.next();
            clock.forward(java.time.Duration.ofSeconds(5));
            nowMs = moment.elapsedMs();
            var raw = moment.signals().get(0);
            watch.reading(new ReadingSource.Arrival(
                    OptionalLong.of(nowMs),
                    OptionalInt.empty(),
                    List.of(new Channel(1, raw, thermometer.temperature(raw), thermometer.coldJunction(raw))),
                    moment.controller(),
                    Origin.LIVE,
                    clock.monotonicMs()));
            watch.lookRound();
            if (until.getAsBoolean()) {
                return false;
            }
        }
        return true;
    }

    private boolean rings(AlarmKind kind) {
        return watch.snapshot().alarms().stream().anyMatch(alarm -> alarm.kind() == kind && alarm.rings());
    }

    private double tipC() {
        return firing.sensor().tipC();
    }

    private List<AlarmKind> inTheBook(What what) {
        FiringEvent.Kind kind = what == What.RAISED ? FiringEvent.Kind.ALARM_RAISED : FiringEvent.Kind.ALARM_CLEARED;
        return watch.snapshot().events().stream()
                .filter(event -> event.kind() == kind)
                .map(event -> AlarmEntry.parse(event.text().orElseThrow())
                        .orElseThrow()
                        .kind())
                .toList();
    }

    @Test
    void aRelayWeldsAtTheTop() {
        Schedule glaze = Programs.glaze(1222, 70);
        light(glaze, glaze, Load.biscuit(18, 14), Disturbance.rising(1218, Happenings.allRelaysWeld()));
        assertThat(goesOn(() -> tipC() > 1232, 24)).isFalse();
        long overMs = nowMs;
        assertThat(goesOn(() -> rings(AlarmKind.STUCK_RELAY), 1)).isFalse();
        assertThat(nowMs - overMs).isLessThanOrEqualTo(3 * MINUTE_MS);
        assertThat(inTheBook(What.RAISED)).contains(AlarmKind.STUCK_RELAY);

        watch.snapshot().alarms().forEach(alarm -> watch.acknowledge(alarm.id()));
        assertThat(rings(AlarmKind.STUCK_RELAY)).isFalse();
        // Nobody went there: it is hotter, and at the latest ten minutes later it rings again.
        assertThat(goesOn(() -> rings(AlarmKind.STUCK_RELAY), 0.25)).isFalse();
    }

    @Test
    void aSensorSlipsAt640() {
        Schedule bisque = Programs.bisque(1000);
        light(bisque, bisque, VirtualKilns.bisqueLoad(), Disturbance.rising(640, Happenings.sensorSlips(0.6)));
        assertThat(goesOn(() -> happenedMs >= 0, 24)).isFalse();
        assertThat(watch.snapshot().findings().cone()).isPresent();
        assertThat(goesOn(() -> rings(AlarmKind.SENSOR_SLIPPED), 1)).isFalse();
        assertThat(nowMs - happenedMs).isLessThanOrEqualTo(5 * MINUTE_MS);
        assertThat(watch.snapshot().findings().cone()).isEmpty();
        assertThat(watch.snapshot().findings().forecast()).isEmpty();
        // However harmless the number becomes while the kiln runs away, it is not trusted again.
        assertThat(goesOn(() -> watch.snapshot().findings().cone().isPresent(), 3))
                .isTrue();
    }

    @Test
    void aGlazeProgramOnABisquePlan() {
        light(Programs.bisque(1000), Programs.glaze(1222, 70), VirtualKilns.bisqueLoad());
        assertThat(goesOn(() -> rings(AlarmKind.NOT_THIS_PLAN), 0.75)).isFalse();
        assertThat(inTheBook(What.RAISED)).containsExactly(AlarmKind.NOT_THIS_PLAN);
    }

    @Test
    void theLidIsProppedAt118AndClosedAgain() {
        Schedule bisque = Programs.bisque(1000);
        light(bisque, bisque, VirtualKilns.bisqueLoad(), Disturbance.falling(118, Happenings.lid(0.012)));
        assertThat(goesOn(() -> happenedMs >= 0, 48)).isFalse();
        assertThat(inTheBook(What.RAISED)).contains(AlarmKind.BELOW_LID_THRESHOLD);
        assertThat(goesOn(() -> rings(AlarmKind.LID_MOVED), 0.25)).isFalse();
        // The number is the air's now; the ware is hotter, and nobody is told that it may be unloaded.
        assertThat(goesOn(() -> inTheBook(What.RAISED).contains(AlarmKind.BELOW_UNLOAD_THRESHOLD), 0.4))
                .isTrue();
        assertThat(firing.next().truth().hottestWareC()).isGreaterThan(tipC() + 20);
        firing.kiln().propLid(0);
        assertThat(goesOn(() -> inTheBook(What.CLEARED).contains(AlarmKind.LID_MOVED), 1))
                .isFalse();
        assertThat(inTheBook(What.RAISED)).doesNotContain(AlarmKind.STUCK_RELAY);
    }

    @Test
    void aSlowCoolPlanWithoutASingleStuckRelay() {
        Schedule slow = Programs.slowCoolGlaze(1222, 70);
        light(slow, slow, Load.biscuit(18, 14));
        assertThat(goesOn(() -> nowMs > 10 * 60 * MINUTE_MS && tipC() < 60, 60)).isFalse();
        assertThat(inTheBook(What.RAISED))
                .doesNotContainAnyElementsOf(EnumSet.of(AlarmKind.STUCK_RELAY, AlarmKind.POWER_GONE))
                .contains(AlarmKind.BELOW_LID_THRESHOLD);
    }

    @Test
    void theCableComesOutAndTheClockOfTheHostAloneGoesOn() {
        Schedule bisque = Programs.bisque(1000);
        light(bisque, bisque, VirtualKilns.bisqueLoad());
        goesOn(() -> false, 1);
        for (int seconds = 0; seconds < 120 && !rings(AlarmKind.NO_READINGS); seconds++) {
            clock.forward(java.time.Duration.ofSeconds(1));
            watch.lookRound();
        }
        assertThat(rings(AlarmKind.NO_READINGS)).isTrue();
        goesOn(() -> false, 0.01);
        assertThat(rings(AlarmKind.NO_READINGS)).isFalse();
        assertThat(inTheBook(What.CLEARED)).contains(AlarmKind.NO_READINGS);
    }

    @Test
    void aReplayThatHasComeToItsEndIsNotSilent() {
        Schedule bisque = Programs.bisque(1000);
        light(bisque, bisque, VirtualKilns.bisqueLoad());
        goesOn(() -> false, 1);
        watch.connection(new Connection(
                Connection.State.FINISHED, clock.monotonicMs(), Optional.empty(), Connection.Counts.NONE));
        for (int seconds = 0; seconds < 120; seconds++) {
            clock.forward(java.time.Duration.ofSeconds(1));
            watch.lookRound();
        }
        assertThat(rings(AlarmKind.NO_READINGS)).isFalse();
    }

    @Test
    void aKilnHotterThanItsMakerAllows() {
        Schedule glaze = Programs.glaze(1222, 70);
        light(glaze, glaze, Load.biscuit(18, 14));
        watch = new FiringWatch(
                book,
                clock,
                FiringSettings.of(Optional.of("Tall Drum"), Optional.of(glaze), Optional.empty())
                        .withAlarmLimits(org.kilnside.alarm.AlarmLimits.USUAL.forKiln(
                                Optional.of(Temperature.ofCelsius(1200)),
                                Optional.empty(),
                                Temperature.ofCelsius(120),
                                Temperature.ofCelsius(50))),
                "serial:/dev/ttyUSB0",
                1,
                Host.UNKNOWN);
        assertThat(goesOn(() -> tipC() > 1202, 24)).isFalse();
        long overMs = nowMs;
        assertThat(rings(AlarmKind.ABOVE_KILN_MAXIMUM) || !goesOn(() -> rings(AlarmKind.ABOVE_KILN_MAXIMUM), 0.1))
                .isTrue();
        assertThat(nowMs - overMs).isLessThanOrEqualTo(30_000);
    }
}

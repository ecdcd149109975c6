package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.FiringEvent.Kind;
import org.kilnside.firing.Origin;
import org.kilnside.firing.Reading;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.session.Snapshot.Stage;

class FiringWatchTest {
    private final HandFiring firing = new HandFiring(HandFiring.WITH_BISQUE);
    private final HandClock clock = firing.clock;
    private final BookInMemory book = firing.book;
    private final FiringWatch watch = firing.watch;

    /** A second later. */
    private void reads(double celsius) {
        firing.readsAfter(1_000, celsius);
    }

    private List<Kind> kinds() {
        return watch.snapshot().events().stream().map(FiringEvent::kind).toList();
    }

    @Test
    void beforeTheFirstReadingThereIsNoFiring() {
        assertThat(watch.snapshot().stage()).isEqualTo(Stage.NO_READING_YET);
        assertThat(watch.snapshot().firing()).isEmpty();
        assertThat(book.starts).isEmpty();
    }

    @Test
    void theFirstReadingOpensAFiringInTheBookWithKilnPlanAndLink() {
        reads(21.5);
        assertThat(book.starts).singleElement().satisfies(start -> {
            assertThat(start.kiln()).hasValue("Tall Drum");
            assertThat(start.link()).isEqualTo("serial:/dev/ttyUSB0");
            assertThat(start.plan()).hasValue(HandFiring.BISQUE);
            assertThat(start.planText()).hasValue("name = \"Bisque\"");
            assertThat(start.startedAt()).isEqualTo(clock.wallClock());
        });
        assertThat(book.readings.get(0))
                .singleElement()
                .satisfies(reading -> assertThat(reading.elapsedMs()).isZero());
    }

    @Test
    void everyReadingIsInTheBookToTheCodeAndInOrder() {
        firing.ramp(20, 60, 600);
        assertThat(book.readings.get(0)).hasSize(600);
        for (int i = 0; i < 600; i++) {
            Reading reading = book.readings.get(0).get(i);
            assertThat(reading.elapsedMs()).isEqualTo(i * 1_000L);
            double celsius = 20 + 40.0 * (i + 1) / 600;
            assertThat(reading.first().raw().thermocouple()).hasValue((int) Math.round(celsius * 100));
        }
    }

    @Test
    void theSnapshotHasTheNewestReadingWithTheTimeItCame() {
        firing.ramp(20, 30, 100);
        Snapshot.Latest latest = watch.snapshot().latest().orElseThrow();
        assertThat(latest.temperature().orElseThrow().celsius()).isCloseTo(30, within(1e-9));
        assertThat(latest.hostMs()).isEqualTo(clock.monotonicMs());
        assertThat(latest.elapsedMs()).isEqualTo(99_000);
    }

    @Test
    void aKilnAtRoomTemperatureWaitsToStart() {
        for (int i = 0; i < 3_600; i++) {
            reads(12 + (i % 3) * 0.25);
        }
        assertThat(watch.snapshot().stage()).isEqualTo(Stage.WAITING_TO_START);
        assertThat(kinds()).doesNotContain(Kind.FIRING_BEGAN);
    }

    @Test
    void theStartIsFoundByItselfAfterADelayedStart() {
        for (int i = 0; i < 1_800; i++) {
            reads(12);
        }
        firing.ramp(12, 112, 3_600);
        assertThat(watch.snapshot().stage()).isEqualTo(Stage.HEATING);
        assertThat(kinds()).contains(Kind.FIRING_BEGAN);
        Snapshot snapshot = watch.snapshot();
        assertThat(snapshot.position().orElseThrow().behind().orElseThrow().abs())
                .isLessThan(Duration.ofMinutes(10));
    }

    @Test
    void aWholeFiringGoesThroughItsStagesByItself() {
        firing.ramp(20, 600, 20_880);
        for (int i = 0; i < 900; i++) {
            reads(600);
        }
        assertThat(kinds()).contains(Kind.FIRING_BEGAN, Kind.HOLD_BEGAN, Kind.TOP_REACHED);
        double celsius = 600;
        for (int i = 0; i < 20 * 3_600 && celsius > 35; i++) {
            celsius = 18 + (celsius - 18) * Math.exp(-1 / 12_000.0);
            reads(celsius);
            if (i == 7_200) {
                assertThat(watch.snapshot().stage()).isEqualTo(Stage.COOLING);
            }
        }
        assertThat(watch.snapshot().stage()).isEqualTo(Stage.ENDED);
        assertThat(kinds()).contains(Kind.COOLING_BEGAN, Kind.FIRING_ENDED);
        assertThat(book.ends.get(0)).isPresent();
        assertThat(watch.snapshot().peak().orElseThrow().temperature().celsius())
                .isCloseTo(600, within(0.01));
    }

    @Test
    void whenTheKilnIsLitAgainANewFiringBegins() {
        aWholeFiringGoesThroughItsStagesByItself();
        for (int i = 0; i < 3_600; i++) {
            reads(33);
        }
        firing.ramp(33, 133, 3_600);
        assertThat(book.starts).hasSize(2);
        assertThat(watch.snapshot().firing()).hasValue(2);
        assertThat(watch.snapshot().stage()).isEqualTo(Stage.HEATING);
        assertThat(watch.snapshot().peak().orElseThrow().temperature().celsius())
                .isLessThan(140);
    }

    @Test
    void falseReadingsStayInTheBookAndOutOfTheCurve() {
        firing.ramp(20, 120, 3_600);
        reads(1_372);
        assertThat(book.readings.get(0).get(3_600).first().raw().thermocouple()).hasValue(137_200);
        firing.ramp(120, 125, 180);
        assertThat(watch.snapshot().peak().orElseThrow().temperature().celsius())
                .isLessThan(126);
        for (int i = 0; i < watch.snapshot().curve().size(); i++) {
            assertThat(watch.snapshot().curve().temperatureC(i)).isLessThan(126);
        }
    }

    @Test
    void aSensorFaultIsSaidOnceAndItsEndOnce() {
        firing.ramp(20, 120, 3_600);
        for (int i = 0; i < 30; i++) {
            firing.step(1_000);
            watch.reading(Arrivals.faulted(firing.uptimeMs, clock.monotonicMs(), 1));
        }
        assertThat(watch.snapshot().latest().orElseThrow().temperature()).isEmpty();
        assertThat(watch.snapshot().latest().orElseThrow().faults()).hasSize(1);
        firing.ramp(121, 122, 60);
        assertThat(kinds().stream().filter(Kind.SENSOR_FAULT::equals)).hasSize(1);
        assertThat(kinds().stream().filter(Kind.SENSOR_BACK::equals)).hasSize(1);
    }

    @Test
    void aRestartOfTheControllerIsAnEventAndTheCurveGoesOn() {
        firing.ramp(20, 120, 3_600);
        clock.forwardMs(30_000);
        firing.uptimeMs = 1_200;
        watch.reading(Arrivals.measured(firing.uptimeMs, clock.monotonicMs(), 120.5));
        assertThat(kinds()).contains(Kind.CONTROLLER_RESTARTED);
        assertThat(watch.snapshot().latest().orElseThrow().elapsedMs()).isEqualTo(3_599_000 + 30_000);
        // What was kept through a press of reset counts backwards from the start.
        assertThat(watch.takeMissingSince()).hasValue(1_200 - 30_000);
        watch.reading(Arrivals.kept(-15_000, clock.monotonicMs(), 120.2));
        clock.forwardMs(2_000);
        watch.lookRound();
        assertThat(book.readings.get(0)).anySatisfy(reading -> {
            assertThat(reading.origin()).isEqualTo(Origin.FILLED_IN);
            assertThat(reading.elapsedMs()).isEqualTo(3_599_000 + 30_000 - 16_200);
        });
        assertThat(kinds()).contains(Kind.GAP_FILLED);
    }

    @Test
    void aControllerThatPrintsEveryMinuteHasNoGapsAndIsNotStaleBetweenItsLines() {
        for (int minute = 0; minute < 10; minute++) {
            firing.step(60_000);
            watch.reading(Arrivals.measured(firing.uptimeMs, clock.monotonicMs(), 20 + minute));
        }
        assertThat(kinds()).doesNotContain(Kind.GAP);
        assertThat(watch.snapshot().latest().orElseThrow().staleAfterMs()).isEqualTo(180_000);
        firing.step(10 * 60_000);
        watch.reading(Arrivals.measured(firing.uptimeMs, clock.monotonicMs(), 40));
        assertThat(kinds()).contains(Kind.GAP);
    }

    @Test
    void aReadingOfAControllerThatPrintsEverySecondIsStaleAfterTenSeconds() {
        firing.ramp(20, 21, 10);
        assertThat(watch.snapshot().latest().orElseThrow().staleAfterMs()).isEqualTo(10_000);
    }

    @Test
    void aGapIsSaidAndAskedForAndWhenFilledTheCurveIsWhole() {
        firing.ramp(20, 120, 3_600);
        long lastUptime = firing.uptimeMs;
        firing.step(3 * 3_600_000L);
        watch.reading(Arrivals.measured(firing.uptimeMs, clock.monotonicMs(), 420));
        assertThat(kinds()).contains(Kind.GAP);
        assertThat(watch.takeMissingSince()).isEqualTo(OptionalLong.of(lastUptime));
        assertThat(watch.takeMissingSince()).isEmpty();
        for (int minute = 1; minute < 180; minute++) {
            watch.reading(
                    Arrivals.kept(lastUptime + minute * 60_000L, clock.monotonicMs(), 120 + 300.0 * minute / 180));
        }
        clock.forwardMs(2_000);
        watch.lookRound();
        Snapshot snapshot = watch.snapshot();
        assertThat(kinds()).contains(Kind.GAP_FILLED);
        assertThat(snapshot.curve().size()).isGreaterThanOrEqualTo(3_600 + 179);
        for (int i = 1; i < snapshot.curve().size(); i++) {
            assertThat(snapshot.curve().elapsedMs(i))
                    .isGreaterThan(snapshot.curve().elapsedMs(i - 1));
            assertThat(snapshot.curve().elapsedMs(i) - snapshot.curve().elapsedMs(i - 1))
                    .isLessThan(61_000);
        }
        assertThat(book.readings.get(0).stream().filter(reading -> reading.origin() == Origin.FILLED_IN))
                .hasSize(179);
    }

    @Test
    void whatWasKeptDoesNotDoubleWhatIsThere() {
        firing.ramp(20, 120, 3_600);
        for (int minute = 1; minute < 30; minute++) {
            watch.reading(Arrivals.kept(firing.uptimeMs - minute * 60_000L, clock.monotonicMs(), 100));
        }
        assertThat(book.readings.get(0)).hasSize(3_600);
    }

    @Test
    void whatIsNotedInAReplayWithoutPausesStandsAtItsNewestReading() {
        firing.watch = new FiringWatch(
                book, clock, HandFiring.TALL_DRUM, "replay:log.csv?speed=max", Double.POSITIVE_INFINITY, Host.UNKNOWN);
        firing.ramp(20, 120, 600);
        clock.forwardMs(7);
        firing.watch.note("Bung out", Duration.ZERO);
        FiringEvent noted = book.events.get(0).get(book.events.get(0).size() - 1);
        assertThat(noted.elapsedMs()).isEqualTo(599_000);
    }

    @Test
    void theConnectionsLossAndReturnAreInTheRecordOnceEach() {
        firing.ramp(20, 60, 60);
        watch.connection(state(Connection.State.LOST));
        watch.connection(state(Connection.State.LOST));
        watch.connection(state(Connection.State.CONNECTING));
        watch.connection(state(Connection.State.RECEIVING));
        watch.connection(state(Connection.State.RECEIVING));
        assertThat(kinds().stream().filter(Kind.CONNECTION_LOST::equals)).hasSize(1);
        assertThat(kinds().stream().filter(Kind.CONNECTION_BACK::equals)).hasSize(1);
    }

    private Connection state(Connection.State state) {
        return new Connection(state, clock.monotonicMs(), Optional.empty(), Connection.Counts.NONE);
    }

    @Test
    void aNoteIsInTheRecordAtItsTime() {
        firing.ramp(20, 60, 60);
        clock.forwardMs(4_000);
        watch.note("Bung out", Duration.ZERO);
        FiringEvent note =
                watch.snapshot().events().get(watch.snapshot().events().size() - 1);
        assertThat(note.text()).hasValue("Bung out");
        assertThat(note.elapsedMs()).isEqualTo(63_000);
        assertThat(book.events.get(0)).contains(note);
    }

    @Test
    void aPersonMayEndAFiring() {
        firing.ramp(20, 120, 3_600);
        watch.firingEnds();
        assertThat(watch.snapshot().stage()).isEqualTo(Stage.ENDED);
        assertThat(book.ends.get(0)).isPresent();
    }

    @Test
    void aPersonMayBeginAFiring() {
        firing.ramp(20, 21, 60);
        watch.firingBegins();
        reads(21);
        assertThat(watch.snapshot().stage()).isNotEqualTo(Stage.WAITING_TO_START);
    }

    @Test
    void aChangeOfSensorIsWrittenDown() {
        Probe amplified = new Probe(ThermocoupleType.K, Amplifier.MAX31855);
        watch.hello(hello(amplified));
        reads(20);
        watch.hello(hello(amplified));
        Probe other = new Probe(ThermocoupleType.S, Amplifier.MAX31856);
        watch.hello(hello(other));
        assertThat(book.probes).containsExactly(List.of(amplified), List.of(other));
    }

    private static ReadingSource.ControllerHello hello(Probe probe) {
        return new ReadingSource.ControllerHello(
                Optional.of("tall-drum"),
                Optional.empty(),
                List.of(probe),
                java.util.OptionalInt.of(1_000),
                OptionalLong.of(0));
    }

    @Test
    void troubleOfTheBookIsInTheSnapshotAndInTheRecord() {
        reads(20);
        book.trouble = Optional.of("the disk is full: readings wait in memory");
        watch.lookRound();
        assertThat(watch.snapshot().disk().trouble())
                .hasValueSatisfying(text -> assertThat(text).contains("disk is full"));
        assertThat(kinds()).contains(Kind.BOOK_TROUBLE);
    }

    @Test
    void nothingNewMakesNoNewSnapshot() {
        reads(20);
        Snapshot one = watch.snapshot();
        watch.lookRound();
        assertThat(watch.snapshot()).isSameAs(one);
    }
}

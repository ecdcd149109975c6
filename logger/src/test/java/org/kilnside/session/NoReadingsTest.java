package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.alarm.Alarm;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.FiringEvent.Kind;

/** When silence is an alarm: a controller that is merely slow, a wire that dies, one that was dead from the start. */
class NoReadingsTest {
    private final HandFiring firing = new HandFiring();
    private final BookInMemory book = firing.book;

    private void reads(double celsius) {
        firing.reads(celsius);
        firing.watch.lookRound();
    }

    /** Time goes by; says after how long it rang, in seconds, if it did. */
    private Optional<Long> silence(Duration time) {
        Optional<Long> rangAfterS = Optional.empty();
        for (long s = 1; s <= time.toSeconds(); s++) {
            firing.step(1_000);
            firing.watch.lookRound();
            if (rangAfterS.isEmpty() && rings()) {
                rangAfterS = Optional.of(s);
            }
        }
        return rangAfterS;
    }

    private boolean rings() {
        return firing.watch.snapshot().alarms().stream()
                .filter(Alarm::rings)
                .anyMatch(alarm -> !alarm.isOver() && alarm.kind() == AlarmKind.NO_READINGS);
    }

    @Test
    void aControllerThatPrintsEachFewMinutesIsNotSilentFromItsFirstLineOn() {
        for (int minutes : new int[] {1, 2, 3, 5, 10}) {
            firing.watch = firing.run(book);
            for (int line = 0; line < 8; line++) {
                reads(20 + line * minutes);
                assertThat(silence(Duration.ofMinutes(minutes)))
                        .as("line %d of one each %d minutes", line + 1, minutes)
                        .isEmpty();
            }
            List<Kind> kinds = firing.watch.snapshot().events().stream()
                    .map(FiringEvent::kind)
                    .toList();
            assertThat(kinds).as("each %d minutes", minutes).doesNotContain(Kind.GAP);
        }
    }

    @Test
    void twoLinesAtOnceFromARestartedBoardMakeASlowControllerNoFastOne() {
        reads(20);
        assertThat(silence(Duration.ofSeconds(1))).isEmpty();
        for (int line = 0; line < 8; line++) {
            reads(21 + line);
            assertThat(silence(Duration.ofMinutes(5))).as("line %d", line + 2).isEmpty();
        }
    }

    @Test
    void aWireThatDiesRingsAfterAMinuteAndAHalfWhereLinesComeQuickly() {
        for (int line = 0; line < 6; line++) {
            reads(20);
            silence(Duration.ofSeconds(10));
        }
        assertThat(silence(Duration.ofMinutes(2)).orElseThrow()).isBetween(75L, 90L);
    }

    @Test
    void aWireThatDiesRingsAfterOneAndThreeQuartersOfALongInterval() {
        for (int line = 0; line < 6; line++) {
            reads(20);
            assertThat(silence(Duration.ofMinutes(5))).isEmpty();
        }
        assertThat(silence(Duration.ofMinutes(5)).orElseThrow()).isBetween(220L, 230L);
    }

    @Test
    void aWireThatDiesAfterItsVeryFirstLineRingsOnceNoSlowControllerExplainsIt() {
        reads(20);
        assertThat(silence(Duration.ofMinutes(20)).orElseThrow()).isBetween(630L, 690L);
    }

    @Test
    void aSleepAfterTheFirstLineDoesNotMakeAnHourTheInterval() {
        reads(20);
        firing.step(7_200_000);
        reads(21);
        assertThat(silence(Duration.ofMinutes(20))).isPresent();
    }

    @Test
    void whereNobodyCountsOnReadingsYetNothingRings() {
        assertThat(silence(Duration.ofHours(1))).isEmpty();
    }

    @Test
    void aWireThatIsDeadFromTheStartRingsAndGoesIntoTheBookWithTheFirstLine() {
        firing.watch.awaitFirstReading();
        assertThat(silence(Duration.ofMinutes(20)).orElseThrow()).isBetween(650L, 670L);
        Alarm alarm = firing.watch.snapshot().alarms().get(0);
        assertThat(alarm.seen()).isPresent();
        assertThat(alarm.expected()).isEmpty();
        firing.watch.acknowledge(alarm.id());
        assertThat(rings()).isFalse();
        assertThat(silence(Duration.ofMinutes(11)))
                .as("still true ten minutes later")
                .isPresent();
        assertThat(book.starts).isEmpty();
        reads(20);
        assertThat(rings()).isFalse();
        assertThat(book.events.get(0))
                .extracting(FiringEvent::kind)
                .contains(Kind.ALARM_RAISED, Kind.ALARM_ACKNOWLEDGED, Kind.ALARM_RAISED_AGAIN, Kind.ALARM_CLEARED);
        assertThat(book.events.get(0))
                .allSatisfy(event -> assertThat(event.elapsedMs()).isZero());
    }

    @Test
    void aFiringThatIsGoneOnWithOverADeadWireRingsThoughNotASingleLineHasComeSince() {
        for (int line = 0; line < 60; line++) {
            reads(300 + line);
            silence(Duration.ofSeconds(10));
        }
        book.open = Optional.of(new FiringBook.OpenFiring(
                1, book.starts.get(0), book.readings.get(0), book.events.get(0), List.of(), book.ties));
        firing.clock.forward(Duration.ofMinutes(40));
        firing.watch = firing.run(book);
        firing.watch.resume();
        firing.watch.awaitFirstReading();
        firing.watch.lookRound();
        assertThat(rings()).as("the wire has had no time to say anything").isFalse();
        assertThat(silence(Duration.ofMinutes(5)).orElseThrow()).isBetween(85L, 95L);
        assertThat(firing.watch.snapshot().alarms().get(0).sinceMs())
                .as("since the last line of all")
                .isEqualTo(590_000);
        reads(360);
        assertThat(rings()).isFalse();
    }

    @Test
    void whoHasFiredMaySwitchTheControllerOff() {
        for (int line = 0; line < 6; line++) {
            reads(60);
            silence(Duration.ofSeconds(10));
        }
        firing.watch.firingEnds();
        assertThat(silence(Duration.ofHours(1))).isEmpty();
    }
}

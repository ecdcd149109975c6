package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.List;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Reading;

/** Whatever becomes of the wall clock in the night, the firing's own time is the controller's. */
class ClockChangesTest {
    private final HandClock clock = new HandClock();
    private final HandFiring firing = new HandFiring(HandFiring.TALL_DRUM, clock);
    private final BookInMemory book = firing.book;
    private int sequence;

    private void readings(int seconds) {
        for (int s = 0; s < seconds; s++) {
            firing.step(1_000);
            firing.watch.reading(arrival());
            firing.watch.lookRound();
        }
    }

    /** The next line of the controller, with its number, a little hotter than the one before. */
    private ReadingSource.Arrival arrival() {
        ReadingSource.Arrival line =
                Arrivals.measured(firing.uptimeMs, clock.monotonicMs(), 100 + firing.uptimeMs / 60_000.0);
        return new ReadingSource.Arrival(
                line.uptimeMs(),
                OptionalInt.of(sequence++ % 65_536),
                line.channels(),
                line.controller(),
                line.origin(),
                line.hostMs());
    }

    private List<Long> elapsed() {
        return book.readings.get(0).stream().map(Reading::elapsedMs).toList();
    }

    private void isOneFiringWithoutAHole(int readings) {
        assertThat(book.starts).hasSize(1);
        assertThat(elapsed()).hasSize(readings);
        for (int i = 0; i < readings; i++) {
            assertThat(elapsed().get(i)).isEqualTo(i * 1_000L);
        }
        assertThat(book.events.get(0).stream().map(FiringEvent::kind))
                .doesNotContain(
                        FiringEvent.Kind.GAP, FiringEvent.Kind.CONTROLLER_RESTARTED, FiringEvent.Kind.ALARM_RAISED);
    }

    @ParameterizedTest
    @ValueSource(ints = {-3600, 3600, -7, 86_400})
    void anHourForwardOrBackInMidFiringChangesNothingOfTheCurve(int jumpSeconds) {
        readings(900);
        clock.wallJumps(Duration.ofSeconds(jumpSeconds));
        readings(900);
        isOneFiringWithoutAHole(1_800);
    }

    /** The two nights of the year on which the clocks of central Europe change (the IANA time zone database). */
    @ParameterizedTest
    @CsvSource({"2026-03-28T23:30:00Z", "2026-10-24T23:30:00Z"})
    void theNightOnWhichTheClocksChangeIsAsLongAsAnyOther(Instant begin) {
        ZoneId zone = ZoneId.of("Europe/Amsterdam");
        Duration offsetBefore =
                Duration.ofSeconds(zone.getRules().getOffset(begin).getTotalSeconds());
        Duration offsetAfter = Duration.ofSeconds(
                zone.getRules().getOffset(begin.plusSeconds(7_200)).getTotalSeconds());
        assertThat(offsetAfter).isNotEqualTo(offsetBefore);
        clock.wallIs(begin);
        readings(7_200);
        isOneFiringWithoutAHole(7_200);
        // The moment's name is that of the clock on the wall then: two hours on, and an hour more or less.
        Instant last = firing.watch.snapshot().zeroFor(7_199_000).orElseThrow().plusMillis(7_199_000);
        assertThat(Duration.between(
                                begin.atZone(zone).toLocalDateTime(),
                                ZonedDateTime.ofInstant(last, zone).toLocalDateTime())
                        .toMinutes())
                .isIn(59L, 60L, 179L, 180L);
    }

    /** 2038-01-19 03:14:08 UTC: seconds since 1970 leave 31 bits. */
    @Test
    void theNightOf2038IsANightLikeAnyOther() {
        clock.wallIs(Instant.ofEpochSecond((1L << 31) - 600));
        readings(1_200);
        isOneFiringWithoutAHole(1_200);
        assertThat(firing.watch.snapshot().startedAt().orElseThrow()).isEqualTo("2038-01-19T03:04:09Z");
        assertThat(book.ties).isNotEmpty().allMatch(tie -> tie.wall().isAfter(Instant.parse("2038-01-19T03:00:00Z")));
    }

    @Test
    void aBoardWithoutAClockThatStartsIn1970AndIsSetLaterLosesNothing() {
        clock.wallIs(Instant.EPOCH.plusSeconds(30));
        readings(300);
        clock.wallIs(Instant.parse("2026-11-25T20:00:00Z"));
        readings(300);
        isOneFiringWithoutAHole(600);
    }

    /** A process that stood still for twenty minutes: the monotonic clock went on, the controller's lines waited. */
    @Test
    void twentyMinutesOfStandstillLoseNoLineThatWasHeld() {
        readings(300);
        clock.forward(Duration.ofMinutes(20));
        for (int s = 0; s < 1_200; s++) {
            // All at once out of the buffer, each with its own uptime.
            firing.uptimeMs += 1_000;
            firing.watch.reading(arrival());
        }
        readings(300);
        isOneFiringWithoutAHole(1_800);
    }

    /** A computer that slept for twenty minutes: its monotonic clock stood still, and the lines are gone. */
    @Test
    void twentyMinutesOfSleepAreAGapOfTwentyMinutesByTheControllersClock() {
        readings(300);
        clock.wallJumps(Duration.ofMinutes(20));
        firing.uptimeMs += 20 * 60_000;
        readings(300);
        assertThat(book.starts).hasSize(1);
        assertThat(elapsed().get(299)).isEqualTo(299_000);
        assertThat(elapsed().get(300)).isEqualTo(299_000 + 20 * 60_000 + 1_000);
        assertThat(book.events.get(0).stream().map(FiringEvent::kind)).contains(FiringEvent.Kind.GAP);
    }

    @Test
    void timesOfDayFollowTheWallClockThoughTheControllersClockDrifts() {
        Instant began = clock.wallClock();
        for (int minute = 0; minute <= 36 * 60; minute++) {
            firing.watch.reading(Arrivals.measured(firing.uptimeMs, clock.monotonicMs(), 100));
            // Half a percent slow, as a ceramic resonator may be.
            firing.uptimeMs += 59_700;
            clock.forwardMs(60_000);
        }
        Snapshot snapshot = firing.watch.snapshot();
        long elapsedMs = snapshot.latest().orElseThrow().elapsedMs();
        assertThat(elapsedMs).isEqualTo(36 * 60 * 59_700L);
        assertThat(snapshot.wallClock().orElseThrow().at(elapsedMs))
                .isBetween(began.plusSeconds(36 * 3_600 - 5), began.plusSeconds(36 * 3_600 + 5));
        assertThat(snapshot.startedAt().orElseThrow().plusMillis(elapsedMs))
                .as("without the line: almost eleven minutes too early")
                .isBefore(began.plusSeconds(36 * 3_600 - 640));
    }
}

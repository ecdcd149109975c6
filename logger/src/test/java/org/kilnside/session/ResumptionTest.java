package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.FiringEvent.Kind;
import org.kilnside.session.Snapshot.Stage;

/** A program that begins again goes on with the firing that its last run left, if it is still the same one. */
class ResumptionTest {
    private final HandFiring firing = new HandFiring(HandFiring.WITH_BISQUE);
    private final HandClock clock = firing.clock;
    private final FiringWatch watch = firing.watch;

    @Test
    void afterARestartOfTheProgramTheFiringGoesOn() {
        firing.ramp(20, 220, 7_200);
        BookInMemory again = firing.leftBehind();
        FiringWatch second = firing.run(again);
        firing.step(60_000);
        second.resume();
        assertThat(second.snapshot().firing()).hasValue(1);
        assertThat(second.snapshot().stage()).isEqualTo(Stage.HEATING);
        firing.step(1_000);
        second.reading(Arrivals.measured(firing.uptimeMs, clock.monotonicMs(), 222));
        Snapshot snapshot = second.snapshot();
        assertThat(snapshot.latest().orElseThrow().elapsedMs()).isEqualTo(7_199_000 + 61_000);
        assertThat(snapshot.stage()).isEqualTo(Stage.HEATING);
        assertThat(snapshot.events().stream().map(FiringEvent::kind)).contains(Kind.RECORDING_RESUMED, Kind.GAP);
        assertThat(again.starts).hasSize(1);
    }

    @Test
    void whereNothingComesAfterARestartItIsKnownForHowLongAndWhatCameLast() {
        firing.ramp(20, 220, 7_200);
        FiringWatch second = firing.run(firing.leftBehind());
        firing.step(3 * 3_600_000);
        second.resume();
        Snapshot snapshot = second.snapshot();
        Snapshot.Latest last = snapshot.latest().orElseThrow();
        assertThat(last.elapsedMs()).isEqualTo(7_199_000);
        assertThat(last.temperature().orElseThrow().celsius()).isCloseTo(220, within(0.5));
        long ageMs = clock.monotonicMs() - last.hostMs();
        assertThat(ageMs).isGreaterThan(last.staleAfterMs());
        assertThat(Duration.ofMillis(ageMs)).isBetween(Duration.ofMinutes(179), Duration.ofMinutes(181));
    }

    @Test
    void replayGivesTheSameCurveAsLiveToTheBit() {
        firing.ramp(20, 220, 7_200);
        firing.readsAfter(1_000, 900);
        firing.ramp(220, 225, 180);
        FiringWatch second = firing.run(firing.leftBehind());
        second.resume();
        assertThat(second.snapshot().curve().size())
                .isEqualTo(watch.snapshot().curve().size());
        for (int i = 0; i < second.snapshot().curve().size(); i++) {
            assertThat(second.snapshot().curve().temperatureC(i))
                    .isEqualTo(watch.snapshot().curve().temperatureC(i));
        }
        assertThat(second.snapshot().peak()).isEqualTo(watch.snapshot().peak());
        assertThat(second.snapshot().position())
                .isPresent()
                .isEqualTo(watch.snapshot().position());
    }

    @Test
    void aFiringOfLastWeekIsEndedAndANewOneBegun() {
        firing.ramp(20, 220, 7_200);
        BookInMemory again = firing.leftBehind();
        FiringWatch second = firing.run(again);
        clock.forward(Duration.ofDays(6));
        second.resume();
        second.reading(Arrivals.measured(5_000, clock.monotonicMs(), 18));
        assertThat(again.starts).hasSize(2);
        assertThat(again.ends.get(0)).isPresent();
    }

    @Test
    void afterARestartOfTheProgramTheTimesOfDayRestOnAllThatWasReadBefore() {
        Instant began = clock.wallClock();
        for (int minute = 0; minute <= 20 * 60; minute++) {
            if (minute == 15 * 60) {
                // The clock is put forward an hour: between the first tie and the last there is no true rate now.
                clock.wallJumps(Duration.ofHours(1));
            }
            watch.reading(Arrivals.measured(firing.uptimeMs, clock.monotonicMs(), 100 + minute * 0.1));
            firing.uptimeMs += 59_700;
            clock.forwardMs(60_000);
        }
        FiringWatch second = firing.run(firing.leftBehind());
        second.resume();
        long elapsedMs = 10 * 60 * 59_700L;
        // 0.5 % slow (arithmetic): what stands at 10 h less 3 min was read 10 h after the begin, on a clock an hour
        // late.
        assertThat(second.snapshot().wallClock().orElseThrow().at(elapsedMs))
                .isBetween(began.plusSeconds(11 * 3_600 - 20), began.plusSeconds(11 * 3_600 + 20));
        assertThat(second.snapshot().wallClock()).isEqualTo(watch.snapshot().wallClock());
    }
}

package org.kilnside.tracking;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.FiringEvent.Kind;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.tracking.PlanPosition.PlanPoint;

/** Expected numbers are worked out by hand from straight lines (independent). */
class FiringFiguresTest {
    /** 100 °C/h to 620 °C: six hours from 20 °C; held for 10 minutes. */
    private static final Schedule PLAN = new Schedule(
            "Bisque",
            List.of(
                    new Segment.Ramp(
                            HeatingRate.ofKelvinPerHour(100), Temperature.ofCelsius(620), Duration.ofMinutes(10)),
                    new Segment.FreeCooling()));

    private static final List<Temperature> LIMITS = List.of(Temperature.ofCelsius(110), Temperature.ofCelsius(45));

    private final Trace.Builder curve = new Trace.Builder();
    private long nowMs;

    private FiringFiguresTest goes(double fromC, double toC, Duration time) {
        long steps = time.toSeconds() / 10;
        for (int i = 0; i < steps; i++) {
            curve.add(nowMs, fromC + (toC - fromC) * i / steps);
            nowMs += 10_000;
        }
        return this;
    }

    private FiringFigures figures(FiringEvent... events) {
        return FiringFigures.of(curve.view(), Optional.of(PLAN), List.of(), List.of(events), LIMITS)
                .orElseThrow();
    }

    @Test
    void anExactFiringIsOnTimeAndHeldAsPlanned() {
        goes(20, 620, Duration.ofHours(6))
                .goes(620, 620, Duration.ofMinutes(10))
                .goes(620, 40, Duration.ofHours(10));
        FiringFigures.Top top = figures().top().orElseThrow();
        assertThat(top.behind().orElseThrow().toSeconds()).isCloseTo(0, within(40L));
        // Once there, it is in the band until it has cooled by 5 K at 58 K/h: some five minutes more.
        assertThat(top.held().toSeconds()).isCloseTo(600 + 36 + 310, within(30L));
        assertThat(figures().peak().celsius()).isEqualTo(620);
    }

    @Test
    void aFiringThatTakesHalfAnHourLongerIsHalfAnHourBehind() {
        goes(20, 620, Duration.ofMinutes(390)).goes(620, 620, Duration.ofMinutes(10));
        assertThat(figures().top().orElseThrow().behind().orElseThrow().toMinutes())
                .isCloseTo(30, within(1L));
    }

    @Test
    void aKilnThatHoldsThreeDegreesBelowHasReachedItsTop() {
        goes(20, 617, Duration.ofHours(6)).goes(617, 617, Duration.ofMinutes(10));
        FiringFigures.Top top = figures().top().orElseThrow();
        assertThat(top.behind()).isPresent();
        assertThat(top.held().toMinutes()).isCloseTo(10, within(1L));
    }

    @Test
    void aKilnThatStallsHasNotReachedItsTop() {
        goes(20, 590, Duration.ofHours(6)).goes(590, 590, Duration.ofHours(1));
        FiringFigures.Top top = figures().top().orElseThrow();
        assertThat(top.behind()).isEmpty();
        assertThat(top.held()).isZero();
    }

    @Test
    void timesCountFromWhereTheFiringBegan() {
        goes(20, 20, Duration.ofHours(2)).goes(20, 620, Duration.ofHours(6)).goes(620, 620, Duration.ofMinutes(10));
        FiringFigures figures = figures(FiringEvent.of(7_200_000, Kind.FIRING_BEGAN));
        assertThat(figures.top().orElseThrow().behind().orElseThrow().toSeconds())
                .isCloseTo(0, within(40L));
        assertThat(figures.length()).isCloseTo(Duration.ofMinutes(370), Duration.ofMinutes(1));
    }

    @Test
    void aPauseIsAGapAndTheLongestIsTold() {
        goes(20, 120, Duration.ofHours(1));
        nowMs += 600_000;
        goes(130, 200, Duration.ofHours(1));
        nowMs += 1_200_000;
        goes(230, 300, Duration.ofHours(1));
        assertThat(figures().gaps()).isEqualTo(2);
        assertThat(figures().longestGap()).isEqualTo(Duration.ofSeconds(1_210));
    }

    @Test
    void theLargestDeviationIsFromThePlanAsItWasLaidOverTheFiring() {
        goes(20, 120, Duration.ofHours(1)).goes(120, 120, Duration.ofMinutes(30));
        List<PlanPoint> aligned = List.of(new PlanPoint(0, 20), new PlanPoint(5_400_000, 170));
        FiringFigures figures = FiringFigures.of(curve.view(), Optional.of(PLAN), aligned, List.of(), LIMITS)
                .orElseThrow();
        FiringFigures.Deviation largest = figures.largest().orElseThrow();
        assertThat(largest.difference().kelvin()).isCloseTo(-50, within(0.5));
        assertThat(largest.elapsedMs()).isCloseTo(5_390_000, within(10_000L));
    }

    @Test
    void whenItCooledBelowOpeningAndUnloadingIsTold() {
        goes(20, 620, Duration.ofHours(6)).goes(620, 20, Duration.ofHours(10));
        FiringFigures figures = figures();
        assertThat(figures.below()).extracting(FiringFigures.Below::limit).isEqualTo(LIMITS);
        assertThat(figures.below().get(0).atMs().orElseThrow()).isCloseTo(21_600_000 + 30_600_000, within(20_000L));
        assertThat(figures.below().get(1).atMs().orElseThrow()).isCloseTo(21_600_000 + 34_500_000, within(20_000L));
    }

    @Test
    void theAirUnderAProppedLidIsNotTakenForTheWare() {
        goes(20, 620, Duration.ofHours(6)).goes(620, 140, Duration.ofHours(12)).goes(140, 30, Duration.ofMinutes(10));
        goes(30, 25, Duration.ofMinutes(30));
        FiringFigures figures = figures();
        assertThat(figures.below()).allSatisfy(below -> {
            assertThat(below.atMs()).isEmpty();
            assertThat(below.airOnly()).isTrue();
        });
    }

    @Test
    void wareUnderAProppedLidIsColdWhenAShutKilnWouldHaveBeen() {
        goes(20, 620, Duration.ofHours(6)).goes(620, 140, Duration.ofHours(12)).goes(140, 30, Duration.ofMinutes(10));
        goes(30, 20, Duration.ofHours(24));
        FiringFigures figures = figures();
        long proppedMs = 18 * 3_600_000L;
        // 40 K/h, dying away over the 120 K that are left: 120·ln(120/90)/40 = 0.86 h and 120·ln(120/25)/40 = 4.7 h.
        assertThat(figures.below().get(0).atMs().orElseThrow() - proppedMs).isCloseTo(3_107_000L, within(400_000L));
        assertThat(figures.below().get(1).atMs().orElseThrow() - proppedMs).isCloseTo(16_941_000L, within(900_000L));
    }

    @Test
    void withoutAGoodReadingThereAreNoFigures() {
        assertThat(FiringFigures.of(Trace.EMPTY, Optional.of(PLAN), List.of(), List.of(), LIMITS))
                .isEmpty();
    }
}

package org.kilnside.sensor;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class OutlierFilterTest {
    private final Judgements judgements = new Judgements();
    private final OutlierFilter<Integer> filter = new OutlierFilter<>(judgements);
    private int offered;

    @ParameterizedTest
    @ValueSource(longs = {100, 1_000, 10_000, 60_000})
    void aNoisyRampAndHoldAndCoolingLoseNoReading(long intervalMs) {
        Random random = new Random(7);
        for (long at = 0; at <= 40_000_000; at += intervalMs) {
            offer(at, firingC(at) + random.nextGaussian());
        }
        filter.flush();
        assertThat(judgements.rejected).isEmpty();
        assertThat(judgements.accepted).hasSize(offered);
    }

    @ParameterizedTest
    @ValueSource(longs = {100, 1_000, 10_000, 60_000})
    void scatteredSpikesOfHundredsOfDegreesAreAllFoundAndNothingElse(long intervalMs) {
        Random random = new Random(8);
        List<Integer> spikes = new ArrayList<>();
        for (long at = 0; at <= 12_000_000; at += intervalMs) {
            boolean spike = offered > 3 && random.nextInt(20) == 0;
            double jump = (random.nextBoolean() ? 1 : -1) * (150 + 400 * random.nextDouble());
            if (spike) {
                spikes.add(offered);
            }
            offer(at, firingC(at) + random.nextGaussian() + (spike ? jump : 0));
        }
        filter.flush();
        assertThat(judgements.rejected).isEqualTo(spikes);
    }

    @ParameterizedTest
    @ValueSource(longs = {100, 1_000, 10_000, 60_000})
    void twentyFalseReadingsInARowAtTheTypesTopAreRejected(long intervalMs) {
        for (int i = 0; i < 400; i++) {
            offer(i * intervalMs, i >= 200 && i < 220 ? 1372 : 1100);
        }
        filter.flush();
        assertThat(judgements.rejected).hasSize(20).contains(200, 219);
    }

    @ParameterizedTest
    @ValueSource(longs = {100, 1_000, 10_000, 60_000})
    void aLidLiftedAndClosedAgainIsTrueBothWays(long intervalMs) {
        double temperatureC = 950;
        for (int i = 0; i < 2000; i++) {
            long at = i * intervalMs;
            double shortMs = intervalMs / 1000.0;
            if (i > 500 && i <= 1000) {
                temperatureC += (300 - temperatureC) * -Math.expm1(-shortMs / 25);
            } else if (i > 1000) {
                temperatureC += (900 - temperatureC) * -Math.expm1(-shortMs / 25);
            }
            offer(at, temperatureC);
        }
        filter.flush();
        assertThat(judgements.rejected).isEmpty();
    }

    @Test
    void aSensorPulledOutIsBelievedAfterAMinute() {
        for (int i = 0; i < 300; i++) {
            offer(i * 1000L, i < 100 ? 1200 : 300);
            if (i == 160) {
                assertThat(filter.withholds()).isFalse();
            }
        }
        filter.flush();
        assertThat(judgements.rejected).isEmpty();
    }

    @Test
    void aLastingJumpUpIsBelievedAfterAMinuteAndNotBefore() {
        for (int i = 0; i < 300; i++) {
            offer(i * 1000L, i < 100 ? 300 : 700);
            if (i == 159) {
                assertThat(judgements.accepted).hasSize(100);
            }
        }
        assertThat(judgements.accepted).hasSize(300);
        assertThat(judgements.rejected).isEmpty();
    }

    @Test
    void whateverHappenedInAGapIsBelievedAfterAFewReadings() {
        for (int i = 0; i < 50; i++) {
            offer(i * 1000L, 1000);
        }
        for (int i = 0; i < 50; i++) {
            offer(1_200_000 + i * 1000L, 400);
            if (i == 5) {
                assertThat(filter.withholds()).isFalse();
            }
        }
        filter.flush();
        assertThat(judgements.rejected).isEmpty();
    }

    @Test
    void aFalseFirstReadingDoesNotBecomeTheTrend() {
        offer(0, 1372);
        for (int i = 1; i < 20; i++) {
            offer(i * 1000L, 20 + i * 0.1);
        }
        filter.flush();
        assertThat(judgements.rejected).containsExactly(0);
        assertThat(judgements.accepted).hasSize(19);
    }

    @Test
    void aFalseReadingRightAfterAGapIsRejected() {
        for (int i = 0; i < 10; i++) {
            offer(i * 1000L, 800);
        }
        offer(300_000, 1372);
        for (int i = 1; i < 10; i++) {
            offer(300_000 + i * 1000L, 815);
        }
        filter.flush();
        assertThat(judgements.rejected).containsExactly(10);
    }

    @Test
    void aLogOfTwoRowsKeepsBoth() {
        offer(0, 20);
        offer(60_000, 25);
        filter.flush();
        assertThat(judgements.accepted).containsExactly(0, 1);
    }

    @Test
    void everyReadingIsJudgedOnceAndInOrderWhateverComes() {
        Random random = new Random(9);
        long at = 0;
        for (int i = 0; i < 200_000; i++) {
            at += random.nextInt(5) == 0 ? random.nextInt(100_000) : 1000;
            offer(at, random.nextInt(4) == 0 ? 1400 * random.nextDouble() : 600 + 10 * random.nextGaussian());
        }
        filter.flush();
        assertThat(judgements.all).hasSize(200_000).isSorted();
        assertThat(judgements.accepted.size() + judgements.rejected.size()).isEqualTo(200_000);
    }

    @Test
    void refusesTimeThatRunsBackwards() {
        offer(1000, 20);
        assertThatThrownBy(() -> offer(999, 20))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("999 ms came after 1000 ms");
    }

    private void offer(long elapsedMs, double celsius) {
        filter.offer(elapsedMs, celsius, offered++);
    }

    /** 150 °C/h to 1200 °C, half an hour's hold, then falling at 300 °C/h: our own curve. */
    private static double firingC(long atMs) {
        double hours = atMs / 3_600_000.0;
        double topAt = 1180 / 150.0;
        return hours < topAt ? 20 + 150 * hours : 1200 - 300 * Math.max(0, hours - topAt - 0.5);
    }

    private static final class Judgements implements OutlierFilter.Listener<Integer> {
        private final List<Integer> accepted = new ArrayList<>();
        private final List<Integer> rejected = new ArrayList<>();
        private final List<Integer> all = new ArrayList<>();

        @Override
        public void accepted(long elapsedMs, double celsius, Integer reading) {
            accepted.add(reading);
            all.add(reading);
        }

        @Override
        public void rejected(long elapsedMs, double celsius, Integer reading) {
            rejected.add(reading);
            all.add(reading);
        }
    }
}

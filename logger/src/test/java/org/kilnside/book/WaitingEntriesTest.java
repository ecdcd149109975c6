package org.kilnside.book;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.FiringEvent;

class WaitingEntriesTest {
    @Test
    void whileTheBookCannotBeWrittenEverySecondReadingIsLeftOutAndNothingElse() throws InterruptedException {
        WaitingEntries waiting = new WaitingEntries(8, 0, 100);
        add(waiting, 0);
        waiting.putBack(waiting.take());
        waiting.add(new Entry.Happening(1, FiringEvent.of(500, FiringEvent.Kind.CONNECTION_LOST)));
        for (int i = 1; i <= 8; i++) {
            add(waiting, i);
        }
        assertThat(waiting.readings()).isEqualTo(5);
        assertThat(waiting.leftOut()).isEqualTo(4);
        List<Entry> batch = waiting.take();
        assertThat(batch).filteredOn(Entry.Happening.class::isInstance).hasSize(1);
        assertThat(times(batch)).containsExactly(0L, 2L, 4L, 6L, 8L);
        assertThat(waiting.written()).isEqualTo(4);
        assertThat(waiting.leftOut()).isZero();
    }

    @Test
    void aCurveThatWaitsForDaysGrowsCoarserButStaysWholeAndBounded() throws InterruptedException {
        int most = 100;
        WaitingEntries waiting = new WaitingEntries(most, 0, 10_000);
        add(waiting, 0);
        waiting.putBack(waiting.take());
        for (int i = 1; i < 1_000; i++) {
            add(waiting, i);
            assertThat(waiting.readings()).isLessThanOrEqualTo(most);
        }
        List<Long> times = times(waiting.take());
        assertThat(times.get(0)).isZero();
        assertThat(times.get(times.size() - 1)).isGreaterThan(999 - 16);
        for (int i = 1; i < times.size(); i++) {
            assertThat(times.get(i) - times.get(i - 1)).isEqualTo(16);
        }
    }

    @Test
    void whoIsFasterThanAHealthyDiskWaitsForItAndLosesNothing() throws InterruptedException {
        WaitingEntries waiting = new WaitingEntries(10, TimeUnit.MILLISECONDS.toNanos(1), 4);
        Thread producer = new Thread(() -> {
            for (int i = 0; i < 1_000; i++) {
                add(waiting, i);
            }
            waiting.close();
        });
        producer.start();
        List<Long> times = new ArrayList<>();
        for (List<Entry> batch = waiting.take(); !batch.isEmpty(); batch = waiting.take()) {
            assertThat(waiting.readings()).isLessThanOrEqualTo(10);
            times.addAll(times(batch));
            waiting.written();
        }
        producer.join();
        assertThat(times).hasSize(1_000).isSorted().doesNotHaveDuplicates();
    }

    @Test
    void aBatchThatFailedComesAgainBeforeAllThatCameAfterIt() throws InterruptedException {
        WaitingEntries waiting = new WaitingEntries(100, 0, 2);
        add(waiting, 1);
        add(waiting, 2);
        List<Entry> batch = waiting.take();
        add(waiting, 3);
        waiting.putBack(batch);
        assertThat(times(waiting.take())).containsExactly(1L, 2L);
        waiting.written();
        assertThat(times(waiting.take())).containsExactly(3L);
    }

    @Test
    void nothingIsTakenOnceItIsClosed() {
        WaitingEntries waiting = new WaitingEntries(100, 0, 2);
        waiting.close();
        assertThatThrownBy(() -> add(waiting, 1)).hasMessageContaining("closed");
    }

    private static void add(WaitingEntries waiting, long elapsedMs) {
        waiting.add(new Entry.Line(1, ReadingRow.of(SomeReadings.celsius(elapsedMs, 20))));
    }

    private static List<Long> times(List<Entry> batch) {
        return batch.stream()
                .filter(Entry.Line.class::isInstance)
                .map(entry -> ((Entry.Line) entry).row().elapsedMs)
                .toList();
    }
}

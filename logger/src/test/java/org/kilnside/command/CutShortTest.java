package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.book.BookRecorder;
import org.kilnside.firing.Channel;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.Origin;
import org.kilnside.firing.Reading;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.RawSignal;
import org.kilnside.session.FiringBook.FiringStart;
import org.kilnside.session.HandClock;

/** A window opened on a book in which nobody records: whether somebody should. */
class CutShortTest {
    private final HandClock clock = new HandClock();

    @TempDir
    private Path folder;

    private boolean isCutShort(Duration ago, boolean ended) {
        Path path = folder.resolve("firing.book");
        try (BookRecorder recorder = BookRecorder.open(path)) {
            Instant began = clock.wallClock().minus(ago).minusSeconds(3_600);
            long number = recorder.begin(new FiringStart(
                    Optional.of("Tall Drum"),
                    "serial:/dev/ttyUSB0",
                    began,
                    Optional.empty(),
                    Optional.empty(),
                    ConeSeries.USUAL));
            recorder.append(number, reading(0));
            recorder.append(number, reading(3_600_000));
            if (ended) {
                recorder.end(number, 3_600_000);
            }
        }
        return DeskCommand.isCutShort(path, clock);
    }

    private static Reading reading(long elapsedMs) {
        RawSignal raw = new RawSignal(OptionalInt.of(54_000), OptionalInt.empty(), 0);
        return Reading.of(
                elapsedMs,
                List.of(new Channel(1, raw, Optional.of(Temperature.ofCelsius(540)), Optional.empty())),
                ControllerReport.NONE,
                Origin.LIVE);
    }

    @Test
    void whereNothingWasEverRecordedNobodyIsMissing() {
        assertThat(DeskCommand.isCutShort(folder.resolve("none.book"), clock)).isFalse();
    }

    @Test
    void afterAFiringThatEndedNobodyIsMissing() {
        assertThat(isCutShort(Duration.ofHours(1), true)).isFalse();
    }

    @Test
    void aFiringLeftWithoutAnEndThreeHoursAgoIsRecordedByNobody() {
        assertThat(isCutShort(Duration.ofHours(3), false)).isTrue();
    }

    @Test
    void oneOfLastWeekIsCold() {
        assertThat(isCutShort(Duration.ofDays(7), false)).isFalse();
    }
}

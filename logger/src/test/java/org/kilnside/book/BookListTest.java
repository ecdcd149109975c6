package org.kilnside.book;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.FiringEvent;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;

class BookListTest {
    @TempDir
    Path folder;

    private Path path;

    @BeforeEach
    void recordAFiring() {
        path = folder.resolve("firing.book");
        try (BookRecorder recorder = BookRecorder.open(path)) {
            record(recorder, true);
        }
    }

    private static long record(BookRecorder recorder, boolean ended) {
        long number = recorder.begin(SomeReadings.start());
        recorder.sensors(number, 0, List.of(SomeReadings.TYPE_K));
        SomeReadings.firing(40_000).forEach(reading -> recorder.append(number, reading));
        if (ended) {
            recorder.end(number, 40_000_000);
        }
        return number;
    }

    @Test
    void whatWasRecordedOrBroughtInHasItsCurveInSmallWhenItIsListed() {
        try (BookRecorder recorder = BookRecorder.open(path)) {
            RookLaneBook.bringIn(recorder, 3);
        }
        try (Book book = Book.open(path)) {
            assertThat(book.list()).hasSize(4).allSatisfy(firing -> {
                assertThat(firing.upToDate()).isTrue();
                assertThat(firing.sketch().orElseThrow().columns()).isGreaterThan(1);
            });
        }
    }

    @Test
    void theListComesAtOnceAndItsCurvesAreWorkedOutOnceAndKept() throws SQLException {
        // As a recorder leaves it that was killed.
        try (Connection connection = new BookFile(path).connect();
                Statement statement = connection.createStatement()) {
            statement.execute("DELETE FROM sketch");
        }
        try (Book book = Book.open(path)) {
            assertThat(book.list()).singleElement().satisfies(firing -> {
                assertThat(firing.upToDate()).isFalse();
                assertThat(firing.sketch()).isEmpty();
                assertThat(firing.ended()).isTrue();
            });
            CurveSketch sketch = book.sketch(1);
            ListedFiring listed = book.list().get(0);
            assertThat(listed.upToDate()).isTrue();
            assertThat(listed.sketch().orElseThrow().bytes()).isEqualTo(sketch.bytes());
            assertThat(listed.sketch().orElseThrow().cone()).isEqualTo(sketch.cone());
        }
    }

    @Test
    void thePeakOfTheCurveIsThatOfTheSketchAndTheConeThatOfTheHeatWork() {
        try (Book book = Book.open(path)) {
            CurveSketch sketch = book.sketch(1);
            double highest = 0;
            for (int column = 0; column < sketch.columns(); column++) {
                highest = Math.max(highest, sketch.highestC(column).orElse(0));
            }
            assertThat(highest).isEqualTo(Math.round(sketch.peak().orElseThrow().celsius()));
            ConeReached.Top top = sketch.cone().orElseThrow().top();
            assertThat(top).isEqualTo(ConeReached.Top.SEEN);
            // Own output (regression) of HeatWork, which is validated on its own.
            assertThat(sketch.cone().orElseThrow().position())
                    .isEqualTo(HeatWork.of(
                                    ConeTable.of(ConeSeries.SELF_SUPPORTING),
                                    book.firing(1).curve())
                            .reached(new org.kilnside.sensor.SensorUncertainty(
                                    SomeReadings.TYPE_K,
                                    org.kilnside.sensor.ToleranceClass.CLASS_2,
                                    org.kilnside.sensor.Calibration.NONE))
                            .cone());
        }
    }

    @Test
    void readingsThatComeAfterTheEndMakeTheSketchOld() {
        try (Book book = Book.open(path)) {
            book.sketch(1);
            try (BookRecorder recorder = BookRecorder.open(path)) {
                recorder.append(1, SomeReadings.celsius(40_001_000, 21));
            }
            assertThat(book.list().get(0).upToDate()).isFalse();
            book.sketch(1);
            assertThat(book.list().get(0).upToDate()).isTrue();
        }
    }

    @Test
    void whatIsWrittenInARecordIsFound() {
        try (Book book = Book.open(path)) {
            long before = book.changes();
            book.addBatch(1, "Soup Bowls");
            book.apply(new BookEdit.Notes(1, Optional.empty(), Optional.of("Bung OUT")));
            assertThat(book.changes()).isNotEqualTo(before);
            ListedFiring listed = book.list().get(0);
            assertThat(listed.load()).contains("Soup Bowls");
            assertThat(listed.searched())
                    .contains("soup bowls")
                    .contains("bung out")
                    .contains("tall drum");
        }
    }

    @Test
    void aFiringThatGoesOnIsListedWithItsNewestReading() {
        try (BookRecorder recorder = BookRecorder.open(path);
                Book book = Book.open(path)) {
            long number = record(recorder, false);
            recorder.append(number, FiringEvent.of(99_000, FiringEvent.Kind.FIRING_BEGAN));
            recorder.flush(java.time.Duration.ofSeconds(20));
            ListedFiring listed = book.list().get(0);
            assertThat(listed.number()).isEqualTo(number);
            assertThat(listed.ended()).isFalse();
            assertThat(listed.duration().toMillis())
                    .as("from when heat began, as on its page")
                    .isEqualTo(39_900_000);
            assertThat(listed.upToDate()).isFalse();
        }
    }
}

package org.kilnside.book;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.Predicate;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Origin;
import org.kilnside.firing.Reading;
import org.kilnside.sensor.RawSignal;
import org.kilnside.session.FiringBook.ClockTie;
import org.kilnside.session.FiringBook.DiskState;

class BookRecorderTest {
    private static final Duration PATIENCE = Duration.ofSeconds(30);

    @TempDir
    Path folder;

    private Path path;

    @BeforeEach
    void nameTheBook() {
        path = folder.resolve("firing.book");
    }

    @Test
    void aSecondRecorderIsRefusedAndToldWhoTheFirstIs() throws IOException {
        Path link = Files.createSymbolicLink(folder.resolve("by-another-name"), path);
        assertThat(Book.isBeingRecorded(path)).isFalse();
        try (BookRecorder first = BookRecorder.open(path)) {
            assertThat(Book.isBeingRecorded(path)).isTrue();
            for (Path name : List.of(path, link)) {
                assertThatThrownBy(() -> BookRecorder.open(name))
                        .isInstanceOf(BookException.class)
                        .hasMessageContaining("one recorder at a time")
                        .hasMessageContaining(
                                "process " + ProcessHandle.current().pid());
            }
            assertThat(Book.isBeingRecorded(link)).isTrue();
            assertThat(first.begin(SomeReadings.start())).isEqualTo(1);
        }
        assertThat(Book.isBeingRecorded(path)).isFalse();
        BookRecorder.open(path).close();
    }

    @Test
    void othersReadAndAddNotesWhileTheRecorderWrites() {
        try (BookRecorder recorder = BookRecorder.open(path);
                Book book = Book.open(path)) {
            long number = recorder.begin(SomeReadings.start());
            recorder.sensors(number, 0, List.of(SomeReadings.TYPE_K));
            List<Reading> readings = SomeReadings.firing(300);
            for (int i = 0; i < 300; i++) {
                recorder.append(number, readings.get(i));
                if (i % 100 == 0) {
                    assertThat(recorder.flush(PATIENCE)).isTrue();
                    book.addNote(number, i * 1_000L, "looked in at " + i);
                    assertThat(book.firing(number).curve().size()).isEqualTo(i + 1);
                }
            }
            book.setLoadText(number, "two dozen soup bowls, Saltmarsh, Oatmeal outside");
            book.setNotes(number, "bung out until 600 °C");
            recorder.end(number, 300_000);
            assertThat(recorder.flush(PATIENCE)).isTrue();
            RecordedFiring firing = book.firing(number);
            assertThat(firing.curve().size()).isEqualTo(300);
            assertThat(firing.events()).extracting(FiringEvent::elapsedMs).containsExactly(0L, 100_000L, 200_000L);
            assertThat(firing.loadText()).contains("two dozen soup bowls, Saltmarsh, Oatmeal outside");
            assertThat(firing.notes()).contains("bung out until 600 °C");
            assertThat(firing.endedElapsedMs()).hasValue(300_000);
        }
        assertThat(BookCheck.of(path)).isEqualTo(new BookCheck(List.of(), 1, 300));
    }

    @Test
    void readingsAfterTheEndAreInTheListAtOnceAndSummedUpWhenTheNextFiringBegins() throws SQLException {
        try (BookRecorder recorder = BookRecorder.open(path);
                Book book = Book.open(path)) {
            long number = recorder.begin(SomeReadings.start());
            recorder.append(number, SomeReadings.celsius(0, 20));
            recorder.end(number, 10_000);
            assertThat(recorder.flush(PATIENCE)).isTrue();
            assertThat(summedUp(number)).isTrue();
            recorder.append(
                    number,
                    SomeReadings.reading(
                            5_000, List.of(SomeReadings.TYPE_K), List.of(RawSignal.of(90, 300)), Origin.FILLED_IN));
            recorder.append(number, SomeReadings.celsius(11_000, 20));
            assertThat(recorder.flush(PATIENCE)).isTrue();
            assertThat(book.firings().get(0).readingCount()).isEqualTo(3);
            assertThat(book.firings().get(0).ended()).isTrue();
            assertThat(summedUp(number)).isFalse();
            recorder.begin(SomeReadings.start());
            assertThat(recorder.flush(PATIENCE)).isTrue();
            assertThat(summedUp(number)).isTrue();
            recorder.append(number, SomeReadings.celsius(12_000, 20));
        }
        assertThat(summedUp(1)).isTrue();
        assertThat(BookCheck.of(path).findings()).isEmpty();
    }

    private boolean summedUp(long number) throws SQLException {
        try (Connection connection = new BookFile(path).connectReadOnly()) {
            return !FiringQueries.endedButNotSummarised(connection).contains(number);
        }
    }

    @Test
    void nothingIsWrittenForAFiringThatNeverBegan() {
        try (BookRecorder recorder = BookRecorder.open(path)) {
            assertThatThrownBy(() -> recorder.append(3, SomeReadings.celsius(0, 20)))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessageContaining("no firing 3");
        }
    }

    @Test
    void aBookTakenAwayIsMissedAndAllThatWaitedIsWrittenWhenItIsBack() throws IOException, InterruptedException {
        Path elsewhere = folder.resolve("taken-away");
        try (BookRecorder recorder = BookRecorder.open(path)) {
            long number = recorder.begin(SomeReadings.start());
            recorder.append(number, SomeReadings.celsius(0, 20));
            assertThat(recorder.flush(PATIENCE)).isTrue();
            Files.move(path, elsewhere);
            recorder.append(number, SomeReadings.celsius(1_000, 21));
            DiskState state = await(recorder, now -> now.trouble().isPresent());
            assertThat(state.trouble().orElseThrow())
                    .contains("no longer there: put it back")
                    .contains("1 readings wait in memory");
            assertThat(state.onDiskUpToMs()).hasValue(0);
            assertThat(path).doesNotExist();
            Files.move(elsewhere, path);
            state = await(recorder, now -> now.waiting() == 0);
            assertThat(state).isEqualTo(new DiskState(OptionalLong.of(1_000), 0, Optional.empty()));
        }
        try (Book book = Book.open(path)) {
            assertThat(book.firings().get(0).readingCount()).isEqualTo(2);
        }
    }

    @Test
    void aBookExchangedForAnotherIsNotWrittenInto() throws IOException, InterruptedException {
        Path other = folder.resolve("other.book");
        BookRecorder.open(other).close();
        try (BookRecorder recorder = BookRecorder.open(path)) {
            long number = recorder.begin(SomeReadings.start());
            recorder.append(number, SomeReadings.celsius(0, 20));
            assertThat(recorder.flush(PATIENCE)).isTrue();
            for (String ending : List.of("", "-wal", "-shm")) {
                Files.move(folder.resolve("firing.book" + ending), folder.resolve("own" + ending));
            }
            Files.copy(other, path);
            recorder.append(number, SomeReadings.celsius(1_000, 21));
            DiskState state = await(recorder, now -> now.trouble().isPresent());
            assertThat(state.trouble().orElseThrow()).contains("not the one this recording began in");
            for (String ending : List.of("", "-wal", "-shm")) {
                Files.deleteIfExists(folder.resolve("firing.book" + ending));
            }
            for (String ending : List.of("-wal", "-shm", "")) {
                if (Files.exists(folder.resolve("own" + ending))) {
                    Files.move(folder.resolve("own" + ending), folder.resolve("firing.book" + ending));
                }
            }
            await(recorder, now -> now.waiting() == 0 && now.trouble().isEmpty());
        }
        try (Book book = Book.open(path)) {
            assertThat(book.firings().get(0).readingCount()).isEqualTo(2);
        }
    }

    @Test
    void aFinishedFiringIsImportedAsAWhole() {
        List<Reading> readings = new ArrayList<>();
        for (int i = 0; i < 1_000; i++) {
            readings.add(SomeReadings.reading(
                    i * 500L, List.of(SomeReadings.TYPE_K), List.of(RawSignal.of(80 + i, 288)), Origin.IMPORTED));
        }
        FinishedFiring firing = new FinishedFiring(
                SomeReadings.start(),
                List.of(new SensorEpoch(0, List.of(SomeReadings.TYPE_K))),
                readings,
                List.of(FiringEvent.of(3_000, FiringEvent.Kind.NOTE, "from the old notebook")),
                List.of(new ClockTie(
                        0, OptionalLong.empty(), SomeReadings.start().startedAt())),
                Optional.of("six planters"),
                Optional.empty(),
                500_000);
        try (BookRecorder recorder = BookRecorder.open(path)) {
            long going = recorder.begin(SomeReadings.start());
            long number = recorder.importFiring(firing);
            assertThat(number).isEqualTo(2);
            recorder.append(going, SomeReadings.celsius(0, 20));
        }
        try (Book book = Book.open(path)) {
            RecordedFiring found = book.firing(2);
            assertThat(found.start()).isEqualTo(firing.start());
            assertThat(found.events()).isEqualTo(firing.events());
            assertThat(found.clockTies()).isEqualTo(firing.clockTies());
            assertThat(found.loadText()).isEqualTo(firing.loadText());
            assertThat(found.endedElapsedMs()).hasValue(500_000);
            List<Reading> back = new ArrayList<>();
            book.readings(2, back::add);
            assertThat(back).isEqualTo(readings);
            assertThat(book.firings()).extracting(FiringSummary::readingCount).containsExactly(1L, 1_000L);
        }
    }

    private static DiskState await(BookRecorder recorder, Predicate<DiskState> wanted) throws InterruptedException {
        long giveUp = System.nanoTime() + PATIENCE.toNanos();
        DiskState state = recorder.state();
        while (!wanted.test(state)) {
            assertThat(System.nanoTime())
                    .as("still waiting, the book says %s", state)
                    .isLessThan(giveUp);
            Thread.sleep(10);
            state = recorder.state();
        }
        return state;
    }
}

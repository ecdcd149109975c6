package org.kilnside.book;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Origin;
import org.kilnside.firing.Reading;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.RawSignal;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.session.FiringBook.ClockTie;
import org.kilnside.session.FiringBook.FiringStart;
import org.kilnside.session.FiringBook.OpenFiring;

class BookRoundTripTest {
    private static final Duration PATIENCE = Duration.ofSeconds(20);

    @TempDir
    Path folder;

    @Test
    void everyReadingComesBackToTheCodeWhateverTheLineSaid() {
        Random random = new Random(20261125);
        List<Probe> first = List.of(
                new Probe(ThermocoupleType.K, Amplifier.MAX31855), new Probe(ThermocoupleType.S, Amplifier.MAX31856));
        List<Probe> then = List.of(
                new Probe(ThermocoupleType.N, Amplifier.MAX31856), new Probe(ThermocoupleType.K, Amplifier.CELSIUS));
        List<Reading> handedOver = new ArrayList<>();
        Path path = folder.resolve("firing.book");
        long number;
        try (BookRecorder recorder = BookRecorder.open(path)) {
            number = recorder.begin(SomeReadings.start());
            recorder.sensors(number, 0, first);
            recorder.sensors(number, 2_000_000, then);
            long elapsedMs = 0;
            for (int i = 0; i < 4_000; i++) {
                elapsedMs += random.nextInt(2_000);
                Reading reading = SomeReadings.random(random, elapsedMs, elapsedMs < 2_000_000 ? first : then);
                handedOver.add(reading);
                recorder.append(number, reading);
            }
        }
        try (Book book = Book.open(path)) {
            assertThat(readings(book, number)).containsExactlyElementsOf(handedOver);
        }
    }

    @Test
    void severalLinesWithinOneMillisecondAreAllKept() {
        Path path = folder.resolve("firing.book");
        List<Reading> handedOver = List.of(
                SomeReadings.celsius(5, 20),
                SomeReadings.celsius(5, 21),
                SomeReadings.celsius(5, 20),
                SomeReadings.celsius(6, 22));
        long number;
        try (BookRecorder recorder = BookRecorder.open(path)) {
            number = recorder.begin(SomeReadings.start());
            recorder.sensors(number, 0, List.of(SomeReadings.TYPE_K));
            handedOver.forEach(reading -> recorder.append(number, reading));
        }
        try (Book book = Book.open(path)) {
            assertThat(readings(book, number)).containsExactlyElementsOf(handedOver);
        }
    }

    @Test
    void whatFillsAGapStandsWhereItBelongsAndOnlyOnceHoweverOftenItIsSent() {
        Path path = folder.resolve("firing.book");
        Reading kept = SomeReadings.reading(
                2_000, List.of(SomeReadings.TYPE_K), List.of(RawSignal.of(100, 290)), Origin.FILLED_IN);
        Reading before = SomeReadings.celsius(1_000, 24);
        Reading after = SomeReadings.celsius(3_000, 26);
        long number;
        try (BookRecorder recorder = BookRecorder.open(path)) {
            number = recorder.begin(SomeReadings.start());
            recorder.sensors(number, 0, List.of(SomeReadings.TYPE_K));
            List.of(before, after, kept, kept).forEach(reading -> recorder.append(number, reading));
            assertThat(recorder.flush(PATIENCE)).isTrue();
            recorder.append(number, kept);
        }
        try (Book book = Book.open(path)) {
            assertThat(readings(book, number)).containsExactly(before, kept, after);
        }
    }

    @Test
    void theFiringComesBackWithItsPlanSensorsTiesAndEvents() {
        Path path = folder.resolve("firing.book");
        Schedule plan = new Schedule(
                "Slow bisque",
                List.of(
                        new Segment.Ramp(
                                HeatingRate.ofKelvinPerHour(81.3),
                                Temperature.ofFahrenheit(1_100),
                                Duration.ofMinutes(15)),
                        new Segment.FreeCooling()));
        FiringStart start = new FiringStart(
                Optional.of("Tall Drum"),
                "serial:/dev/ttyUSB0",
                Instant.parse("2026-11-20T06:30:00.123456789Z"),
                Optional.of(plan),
                Optional.of("name = \"Slow bisque\"\n# as the potter wrote it, ü\n"),
                ConeSeries.SMALL);
        FiringEvent began = FiringEvent.of(0, FiringEvent.Kind.RECORDING_BEGAN);
        FiringEvent note = FiringEvent.of(2_500, FiringEvent.Kind.NOTE, "bung out; six planters 'Grey Ash'");
        ClockTie first = new ClockTie(0, OptionalLong.of(88_000), start.startedAt());
        ClockTie second =
                new ClockTie(60_000, OptionalLong.empty(), start.startedAt().plusSeconds(61));
        Path where = path;
        try (BookRecorder recorder = BookRecorder.open(where)) {
            long number = recorder.begin(start);
            recorder.append(number, began);
            recorder.sensors(number, 0, List.of(SomeReadings.TYPE_K));
            recorder.clockTie(number, first);
            recorder.append(number, note);
            recorder.append(number, SomeReadings.celsius(2_000, 21));
            recorder.clockTie(number, second);
        }
        try (Book book = Book.open(path)) {
            RecordedFiring firing = book.firing(1);
            assertThat(firing.start()).isEqualTo(start);
            assertThat(firing.events()).containsExactly(began, note);
            assertThat(firing.sensors()).containsExactly(new SensorEpoch(0, List.of(SomeReadings.TYPE_K)));
            assertThat(firing.clockTies()).containsExactly(first, second);
            assertThat(firing.endedElapsedMs()).isEmpty();
            assertThat(firing.curve().size()).isEqualTo(1);
        }
    }

    @Test
    void theListShowsHowLongHowHotAndWhetherItEnded() {
        Path path = folder.resolve("firing.book");
        List<Reading> readings = new ArrayList<>(SomeReadings.firing(601));
        readings.set(400, SomeReadings.celsius(400_000, 1_300));
        try (BookRecorder recorder = BookRecorder.open(path)) {
            long ended = recorder.begin(SomeReadings.start());
            recorder.sensors(ended, 0, List.of(SomeReadings.TYPE_K));
            readings.forEach(reading -> recorder.append(ended, reading));
            recorder.end(ended, 600_500);
            long going = recorder.begin(SomeReadings.start());
            recorder.sensors(going, 0, List.of(SomeReadings.TYPE_K));
            readings.subList(0, 11).forEach(reading -> recorder.append(going, reading));
        }
        try (Book book = Book.open(path)) {
            List<FiringSummary> firings = book.firings();
            assertThat(firings).extracting(FiringSummary::number).containsExactly(1L, 2L);
            FiringSummary ended = firings.get(0);
            assertThat(ended.ended()).isTrue();
            assertThat(ended.duration()).isEqualTo(Duration.ofMillis(600_500));
            assertThat(ended.readingCount()).isEqualTo(601);
            // One false reading of 1300 °C stands beside a curve that goes up to 1000 °C: it is not the peak.
            assertThat(ended.peak().orElseThrow().elapsedMs()).isBetween(299_000L, 301_000L);
            FiringSummary going = firings.get(1);
            assertThat(going.ended()).isFalse();
            assertThat(going.duration()).isEqualTo(Duration.ofSeconds(10));
            assertThat(going.readingCount()).isEqualTo(11);
        }
    }

    @Test
    void aFiringThatWasGoingOnIsFoundWithAllItHad() {
        Path path = folder.resolve("firing.book");
        List<Reading> readings = SomeReadings.firing(20);
        ClockTie tie = new ClockTie(0, OptionalLong.of(5), SomeReadings.start().startedAt());
        FiringEvent began = FiringEvent.of(0, FiringEvent.Kind.RECORDING_BEGAN);
        try (BookRecorder recorder = BookRecorder.open(path)) {
            long number = recorder.begin(SomeReadings.start());
            recorder.append(number, began);
            recorder.sensors(number, 0, List.of(SomeReadings.TYPE_K));
            recorder.clockTie(number, tie);
            readings.subList(0, 10).forEach(reading -> recorder.append(number, reading));
        }
        try (BookRecorder recorder = BookRecorder.open(path)) {
            assertThat(recorder.unfinished())
                    .contains(new OpenFiring(
                            1,
                            SomeReadings.start(),
                            readings.subList(0, 10),
                            List.of(began),
                            List.of(SomeReadings.TYPE_K),
                            List.of(tie)));
            assertThat(recorder.state().onDiskUpToMs()).hasValue(9_000);
            readings.subList(10, 20).forEach(reading -> recorder.append(1, reading));
            recorder.end(1, 20_000);
            assertThat(recorder.flush(PATIENCE)).isTrue();
            assertThat(recorder.unfinished()).isEmpty();
            assertThat(recorder.begin(SomeReadings.start())).isEqualTo(2);
        }
        try (Book book = Book.open(path)) {
            assertThat(readings(book, 1)).containsExactlyElementsOf(readings);
        }
    }

    @Test
    void theStateSaysUpToWhenReadingsAreOnDisk() {
        try (BookRecorder recorder = BookRecorder.open(folder.resolve("firing.book"))) {
            long number = recorder.begin(SomeReadings.start());
            assertThat(recorder.state().onDiskUpToMs()).isEmpty();
            recorder.append(number, SomeReadings.celsius(1_000, 20));
            recorder.append(number, SomeReadings.celsius(2_000, 20));
            assertThat(recorder.flush(PATIENCE)).isTrue();
            assertThat(recorder.state().onDiskUpToMs()).hasValue(2_000);
            assertThat(recorder.state().waiting()).isZero();
            assertThat(recorder.state().trouble()).isEmpty();
        }
    }

    private static List<Reading> readings(Book book, long number) {
        List<Reading> found = new ArrayList<>();
        book.readings(number, found::add);
        return found;
    }
}

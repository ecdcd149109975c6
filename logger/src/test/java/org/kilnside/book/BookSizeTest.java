package org.kilnside.book;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.Origin;
import org.kilnside.firing.Reading;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.RawSignal;
import org.kilnside.sensor.ThermocoupleType;

class BookSizeTest {
    private static final int READINGS = 86_400;

    @TempDir
    Path folder;

    /** The wide case: the amplifier with the longest codes, a controller that says all it knows, a three-digit firing. */
    @Test
    void aDayAtOneReadingASecondTakesAtMostThirtyFiveBytesAReading() throws IOException {
        Path path = folder.resolve("firing.book");
        Probe probe = new Probe(ThermocoupleType.S, Amplifier.MAX31856);
        Random random = new Random(1);
        long empty;
        try (BookRecorder recorder = BookRecorder.open(path)) {
            for (int i = 0; i < 199; i++) {
                recorder.end(recorder.begin(SomeReadings.start()), 0);
            }
            assertThat(recorder.flush(Duration.ofSeconds(30))).isTrue();
        }
        empty = Files.size(path);
        try (BookRecorder recorder = BookRecorder.open(path)) {
            long number = recorder.begin(SomeReadings.start());
            recorder.sensors(number, 0, List.of(probe));
            for (int i = 0; i < READINGS; i++) {
                double celsius = 20 + 1_220 * Math.sin(Math.PI * i / READINGS);
                ControllerReport report = new ControllerReport(
                        Optional.of(Share.ofPercent(random.nextInt(1_001) / 10.0)),
                        Optional.of(Temperature.ofCelsius(Math.round(celsius * 100) / 100.0)),
                        OptionalInt.of(1 + i / 20_000));
                RawSignal signal =
                        RawSignal.of((int) (celsius * 128) + random.nextInt(40), 24 * 64 + random.nextInt(90));
                recorder.append(
                        number,
                        Reading.of(
                                i * 1_000L + random.nextInt(9),
                                SomeReadings.channels(List.of(probe), List.of(signal)),
                                report,
                                Origin.LIVE));
                if (i % 3_600 == 0) {
                    // Written a few at a time, as it is in a firing: how full the pages get depends on it.
                    assertThat(recorder.flush(Duration.ofSeconds(30))).isTrue();
                }
            }
            recorder.end(number, READINGS * 1_000L);
        }
        double bytesAReading = (Files.size(path) - empty) / (double) READINGS;
        System.out.printf("the book takes %.1f bytes a reading over 24 h at 1 Hz%n", bytesAReading);
        assertThat(bytesAReading).isLessThanOrEqualTo(35);
    }
}

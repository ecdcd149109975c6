package org.kilnside.desktop.kiln;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.kilnside.book.Book;
import org.kilnside.book.BookException;
import org.kilnside.book.FittedSensor;
import org.kilnside.book.KilnEdit;
import org.kilnside.book.KilnHistory;
import org.kilnside.book.NewBook;
import org.kilnside.heatwork.WitnessOffset;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Calibration;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.sensor.ToleranceClass;

/** A real book in a folder of its own, on 26 November 2026; what cones said is told by hand. */
public final class HandSensors implements SensorShelf {
    static final Instant NOW = Instant.parse("2026-11-26T09:00:00Z");

    private final Path book;
    List<KilnHistory.OffsetOfFiring> cones = List.of();

    HandSensors(Path book) {
        this.book = book;
    }

    /** Tall Drum's two sensors, the second compared twice and with cones of two firings. */
    public static HandSensors rookLane() {
        try {
            Path folder = Files.createTempDirectory("sensors");
            folder.toFile().deleteOnExit();
            HandSensors shelf = new HandSensors(folder.resolve("book.db"));
            shelf.fit("Tall Drum", 1, sensor("the first one", "left wall, low"), Instant.parse("2025-04-02T08:00:00Z"));
            shelf.fit(
                    "Tall Drum",
                    1,
                    sensor("fitted in spring", "left wall, middle"),
                    Instant.parse("2026-03-20T08:00:00Z"));
            long second = shelf.sensors("Tall Drum").get(1).fitted().number();
            shelf.compare(
                    "Tall Drum", second, new Calibration.Point(0.4, -0.4, 0.5, Calibration.By.FIXED_POINT), false);
            shelf.compare("Tall Drum", second, new Calibration.Point(1000, 7, 3, Calibration.By.THERMOMETER), false);
            shelf.cones = List.of(
                    new KilnHistory.OffsetOfFiring(31, new WitnessOffset(4, 5, 1222, false)),
                    new KilnHistory.OffsetOfFiring(38, new WitnessOffset(6, 6, 1219, true)));
            return shelf;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static SensorInPlace sensor(String name, String place) {
        return SensorInPlace.uncalibrated(
                new Probe(ThermocoupleType.K, Amplifier.MAX31855), name, place, ToleranceClass.CLASS_1);
    }

    @Override
    public Instant now() {
        return NOW;
    }

    @Override
    public List<Known> sensors(String kiln) {
        return asked(
                kiln,
                history -> history.sensors().stream()
                        .map(each -> known(history, each))
                        .toList());
    }

    private Known known(KilnHistory history, FittedSensor each) {
        return new Known(
                each,
                history.known(each),
                history.points(each.number()),
                each.removedAt().isEmpty() ? cones : List.of(),
                Optional.empty());
    }

    @Override
    public KilnEdit fit(String kiln, int channel, SensorInPlace sensor, Instant at) {
        return asked(kiln, history -> history.fit(channel, sensor, at));
    }

    @Override
    public KilnEdit compare(String kiln, long sensor, Calibration.Point point, boolean everywhere) {
        return asked(kiln, history -> history.compare(sensor, point, everywhere, NOW));
    }

    @Override
    public void apply(String kiln, KilnEdit edit) {
        asked(kiln, history -> {
            history.apply(edit);
            return edit;
        });
    }

    private <T> T asked(String kiln, Function<KilnHistory, T> question) {
        try (Book open = NewBook.openOrMake(book)) {
            return question.apply(open.history(kiln));
        } catch (BookException e) {
            if (e.reason() == BookException.Reason.CHANGED) {
                throw new ChangedElsewhereException(e);
            }
            throw new RefusedException(e.getMessage(), e);
        }
    }
}

package org.kilnside.command;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.IntStream;
import org.kilnside.book.Book;
import org.kilnside.book.BookedReview;
import org.kilnside.book.RecordedFiring;
import org.kilnside.files.CsvLogs;
import org.kilnside.files.Log;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.GoodReadings;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.WitnessPack;
import org.kilnside.quantity.Temperature;
import org.kilnside.review.ReviewQuestion;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.SensorUncertainty;
import org.kilnside.tracking.FiringsApart;

/**
 * A firing to be reviewed, out of the book or out of a log.
 *
 * @param readings its good readings
 * @param startedAt the wall clock at elapsed time 0; empty when the log does not say
 * @param plan the plan it was fired by, where the book knows it
 * @param kiln its kiln, where the book knows it
 * @param report what was left out of a log
 * @param known what the book knows of it besides; empty for a log
 * @param sensor what is known of its sensor
 */
record ReviewedFiring(
        GoodReadings readings,
        Optional<Instant> startedAt,
        Optional<Schedule> plan,
        Optional<String> kiln,
        Optional<String> report,
        Optional<BookedReview> known,
        SensorUncertainty sensor) {
    /** A firing's number, unless there is a file of that name. */
    static ReviewedFiring find(String named, Optional<Path> book, SensorOptions options) {
        boolean number = named.matches("\\d{1,18}");
        if (number && !Files.exists(Path.of(named))) {
            try (Book opened = Book.open(Surroundings.book(book))) {
                RecordedFiring firing = opened.firing(Long.parseLong(named));
                BookedReview known = BookedReview.of(opened, firing);
                return new ReviewedFiring(
                        known.readings(),
                        Optional.of(firing.wallClock().at(0)),
                        firing.start().plan(),
                        firing.start().kiln(),
                        Optional.empty(),
                        Optional.of(known),
                        known.sensor().uncertainty());
            }
        }
        Log log = CsvLogs.read(Path.of(named));
        GoodReadings all = GoodReadings.of(options.truth(log, named));
        List<Trace> firings = FiringsApart.of(all.curve());
        Optional<String> several = Optional.of("it holds " + firings.size() + " firings; the last is reviewed")
                .filter(said -> firings.size() > 1);
        return new ReviewedFiring(
                firings.size() > 1 ? last(firings, all) : all,
                log.startedAt(),
                Optional.empty(),
                Optional.empty(),
                several.map(said -> said
                                + log.report()
                                        .sentence()
                                        .map(more -> "; " + more)
                                        .orElse(""))
                        .or(() -> log.report().sentence()),
                Optional.empty(),
                options.uncertainty());
    }

    private static GoodReadings last(List<Trace> firings, GoodReadings all) {
        Trace last = firings.get(firings.size() - 1);
        return new GoodReadings(
                last,
                all.rejected(),
                all.jumps().stream()
                        .filter(jump -> jump.elapsedMs() > last.elapsedMs(0))
                        .toList());
    }

    /** A firing of the book with its curve as the controller's numbers give it. */
    static ReviewedFiring plain(RecordedFiring firing) {
        return new ReviewedFiring(
                GoodReadings.of(firing.curve()),
                Optional.of(firing.wallClock().at(0)),
                firing.start().plan(),
                firing.start().kiln(),
                Optional.empty(),
                Optional.empty(),
                SensorUncertainty.UNKNOWN);
    }

    /** The cones it is judged by, where nobody asks for others. */
    ConeSeries series() {
        return known.map(BookedReview::series).orElse(ConeSeries.USUAL);
    }

    /** The highest of its readings. */
    Temperature highest() {
        Trace curve = readings.curve();
        return Temperature.ofCelsius(IntStream.range(0, curve.size())
                .mapToDouble(curve::temperatureC)
                .max()
                .orElseThrow());
    }

    /** What is asked about it against a plan, with what the book knows; cones of one series. */
    ReviewQuestion against(Schedule against, ConeTable table) {
        return known.map(booked -> booked.against(against, table.series()))
                .orElseGet(() ->
                        ReviewQuestion.about(readings, against).withTable(table).withSensor(sensor));
    }

    /** Of the days on which the log passes a time of day, the one nearest to the highest reading. */
    WitnessPack.DayClock dayClock() {
        return (hour, minute, second) -> {
            Trace curve = readings.curve();
            if (startedAt.isEmpty() || curve.isEmpty()) {
                return OptionalLong.empty();
            }
            int highest = 0;
            for (int i = 1; i < curve.size(); i++) {
                highest = curve.temperatureC(i) > curve.temperatureC(highest) ? i : highest;
            }
            Instant top = startedAt.get().plusMillis(curve.elapsedMs(highest));
            ZonedDateTime onDay = top.atZone(ZoneId.systemDefault()).with(LocalTime.of(hour, minute, second));
            long best = Long.MAX_VALUE;
            OptionalLong found = OptionalLong.empty();
            for (int day = -1; day <= 1; day++) {
                Instant then = onDay.plusDays(day).toInstant();
                long elapsed = then.toEpochMilli() - startedAt.get().toEpochMilli();
                long apart = Math.abs(then.toEpochMilli() - top.toEpochMilli());
                boolean within = elapsed >= curve.elapsedMs(0) && elapsed <= curve.elapsedMs(curve.size() - 1);
                if (within && apart < best) {
                    best = apart;
                    found = OptionalLong.of(elapsed);
                }
            }
            return found;
        };
    }
}

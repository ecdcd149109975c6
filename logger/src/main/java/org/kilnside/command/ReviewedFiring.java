package org.kilnside.command;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import org.kilnside.book.Book;
import org.kilnside.book.KilnHistory;
import org.kilnside.book.NotedCone;
import org.kilnside.book.RecordedFiring;
import org.kilnside.files.CsvLogs;
import org.kilnside.files.Log;
import org.kilnside.firing.GoodReadings;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.ConeSeries;
import org.kilnside.review.WitnessPack;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.sensor.SensorUncertainty;

/**
 * A firing to be reviewed, out of the book or out of a log.
 *
 * @param readings its good readings
 * @param startedAt the wall clock at elapsed time 0; empty when the log does not say
 * @param plan the plan it was fired by, where the book knows it
 * @param sensor what is known of its sensor
 * @param report what was left out of a log
 * @param cones its witness cones, where the book has them
 * @param earlier the true curves of this kiln's firings before it, oldest first, where the book has them
 */
record ReviewedFiring(
        GoodReadings readings,
        Optional<Instant> startedAt,
        Optional<Schedule> plan,
        SensorUncertainty sensor,
        Optional<String> report,
        List<NotedCone> cones,
        List<Trace> earlier) {
    /** Further back the kiln had other elements and other furniture. */
    private static final int MOST_EARLIER = 6;

    /** A firing's number, unless there is a file of that name. */
    static ReviewedFiring find(String named, Optional<Path> book, SensorOptions options) {
        boolean number = named.matches("\\d{1,18}");
        if (number && !Files.exists(Path.of(named))) {
            try (Book opened = Book.open(Surroundings.book(book))) {
                return of(opened, opened.firing(Long.parseLong(named)));
            }
        }
        Log log = CsvLogs.read(Path.of(named));
        return new ReviewedFiring(
                GoodReadings.of(options.truth(log, named)),
                log.startedAt(),
                Optional.empty(),
                options.uncertainty(),
                log.report().sentence(),
                List.of(),
                List.of());
    }

    /** With what was known of its sensor before it: what its own cones say of it is for the review to find. */
    private static ReviewedFiring of(Book book, RecordedFiring firing) {
        KilnHistory history = book.history(firing.start().kiln().orElse(""));
        SensorInPlace sensor = history.sensorBefore(firing.number());
        return new ReviewedFiring(
                GoodReadings.of(history.curve(firing.number(), sensor)),
                Optional.of(firing.wallClock().at(0)),
                firing.start().plan(),
                sensor.uncertainty(),
                Optional.empty(),
                book.witnessCones(firing.number()),
                firing.start().kiln().isPresent() ? history.earlier(firing.number(), MOST_EARLIER) : List.of());
    }

    /** A firing of the book with its curve as the controller's numbers give it. */
    static ReviewedFiring plain(RecordedFiring firing) {
        return new ReviewedFiring(
                GoodReadings.of(firing.curve()),
                Optional.of(firing.wallClock().at(0)),
                firing.start().plan(),
                SensorUncertainty.UNKNOWN,
                Optional.empty(),
                List.of(),
                List.of());
    }

    /** The packs the book has, of the cones of one series. */
    List<WitnessPack> packs(ConeSeries series) {
        Map<String, List<WitnessPack.Seen>> shelves = new LinkedHashMap<>();
        for (NotedCone cone : cones) {
            List<WitnessPack.Seen> shelf = shelves.computeIfAbsent(cone.shelf(), name -> new ArrayList<>());
            if (cone.series() == series
                    && shelf.stream().noneMatch(seen -> seen.cone().equals(cone.cone()))) {
                shelf.add(new WitnessPack.Seen(cone.cone(), cone.degrees(), cone.seenDownMs()));
            }
        }
        return shelves.entrySet().stream()
                .filter(shelf -> !shelf.getValue().isEmpty())
                .map(shelf -> new WitnessPack(shelf.getKey(), shelf.getValue()))
                .toList();
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

package org.kilnside.desktop.book;

import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.kilnside.book.NotedCone;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Trace;
import org.kilnside.firing.WallClockLine;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.WitnessCone;
import org.kilnside.heatwork.WitnessPack;
import org.kilnside.wording.ConeWords;
import org.kilnside.wording.Words;

/** Witness cones as a person writes and reads them: {@code middle 5:90 6:35 7:0}, {@code top 6@21:10}. */
public final class WitnessText {
    private WitnessText() {}

    /**
     * Reads what was written.
     *
     * @return the cones, their numbers still to be given; empty when it cannot be read as cones of the series
     */
    public static Optional<List<NotedCone>> read(String text, ConeSeries series, OpenedFiring firing, ZoneId zone) {
        try {
            WitnessPack pack = WitnessPack.parse(
                    text, (hour, minute, second) -> moment(LocalTime.of(hour, minute, second), firing, zone));
            ConeTable table = ConeTable.of(series);
            boolean known = pack.cones().stream()
                    .allMatch(seen -> table.temperature(seen.cone()).isPresent());
            return known
                    ? Optional.of(pack.cones().stream()
                            .map(seen -> new NotedCone(
                                    0, pack.shelf(), series, seen.cone(), seen.degrees(), seen.seenDownMs()))
                            .toList())
                    : Optional.empty();
        } catch (IllegalArgumentException e) {
            // What was wrong is said in the person's own language by whoever asked.
            return Optional.empty();
        }
    }

    /** Of the days on which the firing passes a time of day, the one nearest to its highest reading. */
    private static OptionalLong moment(LocalTime time, OpenedFiring firing, ZoneId zone) {
        Trace curve = firing.levels().curve();
        if (firing.clock().isEmpty() || curve.isEmpty()) {
            return OptionalLong.empty();
        }
        WallClockLine clock = firing.clock().get();
        int highest = 0;
        for (int i = 1; i < curve.size(); i++) {
            highest = curve.temperatureC(i) > curve.temperatureC(highest) ? i : highest;
        }
        Instant top = clock.at(curve.elapsedMs(highest));
        ZonedDateTime onDay = top.atZone(zone).with(time);
        long best = Long.MAX_VALUE;
        OptionalLong found = OptionalLong.empty();
        for (int day = -1; day <= 1; day++) {
            Instant then = onDay.plusDays(day).toInstant();
            long elapsed = Math.round((then.toEpochMilli() - clock.zero().toEpochMilli()) / clock.rate());
            long apart = Math.abs(then.toEpochMilli() - top.toEpochMilli());
            boolean within = elapsed >= curve.elapsedMs(0) && elapsed <= curve.elapsedMs(curve.size() - 1);
            if (within && apart < best) {
                best = apart;
                found = OptionalLong.of(elapsed);
            }
        }
        return found;
    }

    /** A noted cone in words: the cone with its temperature, how far it bent, when it was seen down. */
    public static String of(NotedCone cone, OpenedFiring firing, Words words) {
        StringBuilder said = new StringBuilder(new ConeWords(words, ConeTable.of(cone.series())).cone(cone.cone()));
        cone.degrees()
                .ifPresent(degrees -> said.append("  ")
                        .append(words.text(
                                "noted.bent",
                                words.number(degrees, degrees == Math.rint(degrees) ? 0 : 1),
                                words.named("noted.looks", WitnessCone.Bend.ofDegrees(degrees)))));
        cone.seenDownMs()
                .ifPresent(ms -> said.append("  ")
                        .append(firing.clock()
                                .map(line -> words.text("noted.down_at", words.dayAndTime(line.at(ms))))
                                .orElseGet(() -> words.text("noted.down"))));
        return said.toString();
    }
}

package org.kilnside.week;

import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * When somebody is there, by the clock of the studio.
 *
 * @param hours of which days; none at all is always
 * @param away when nobody is, whatever the hours
 */
public record Attendance(List<Hours> hours, List<Span> away) {
    /** Somebody is always there. */
    public static final Attendance ALWAYS = new Attendance(List.of(), List.of());

    public Attendance {
        hours = List.copyOf(hours);
        away = List.copyOf(away);
    }

    /**
     * The same hours of some days of the week.
     *
     * @param days on which they begin
     * @param from when they begin
     * @param to when they end: after midnight where it is not after {@code from}, a whole day where it is the same
     */
    public record Hours(Set<DayOfWeek> days, LocalTime from, LocalTime to) {
        public Hours {
            days = Set.copyOf(days);
            if (days.isEmpty()) {
                throw new IllegalArgumentException("hours are those of at least one day");
            }
        }
    }

    /** The spans within a stretch of time at which somebody is there, apart from each other and in their order. */
    public List<Span> spans(Span stretch, ZoneId zone) {
        return within(stretch, zone).spans();
    }

    /** The spans within a stretch of time at which somebody is there. */
    Presence within(Span stretch, ZoneId zone) {
        List<Span> there = new ArrayList<>();
        if (hours.isEmpty()) {
            there.add(stretch);
        }
        // A day earlier, for hours that run past midnight; a day later, for a zone far from that of the stretch's ends.
        LocalDate last = stretch.to().atZone(zone).toLocalDate().plusDays(1);
        for (LocalDate day = stretch.from().atZone(zone).toLocalDate().minusDays(1);
                !day.isAfter(last);
                day = day.plusDays(1)) {
            for (Hours each : hours) {
                if (each.days().contains(day.getDayOfWeek())) {
                    LocalDate end = each.to().isAfter(each.from()) ? day : day.plusDays(1);
                    Instant from = day.atTime(each.from()).atZone(zone).toInstant();
                    Instant to = end.atTime(each.to()).atZone(zone).toInstant();
                    // Where the clock is put forward over the whole of them, there are no such hours that day.
                    if (to.isAfter(from)) {
                        there.add(new Span(from, to));
                    }
                }
            }
        }
        return Presence.of(there, away, stretch);
    }
}

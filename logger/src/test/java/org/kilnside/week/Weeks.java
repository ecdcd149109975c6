package org.kilnside.week;

import java.time.DayOfWeek;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.kilnside.outlook.Estimate;

/** Firings and loads whose times are said, for tests of the planning alone. */
final class Weeks {
    static final ZoneId ZONE = ZoneId.of("Europe/Amsterdam");

    private Weeks() {}

    static Instant at(String local) {
        return LocalDateTime.parse(local).atZone(ZONE).toInstant();
    }

    static Attendance daily(String from, String to) {
        return new Attendance(
                List.of(new Attendance.Hours(
                        EnumSet.allOf(DayOfWeek.class), LocalTime.parse(from), LocalTime.parse(to))),
                List.of());
    }

    /** Hours from the lighting: the top within ± a doubt, its hold ten minutes, unloading from … to in the middle of a range. */
    static FiringTimes times(double topH, double doubtH, double unloadFromH, double unloadToH) {
        return new FiringTimes(
                Estimate.of(hours(topH), hours(topH - doubtH), hours(topH + doubtH)),
                Estimate.of(hours(topH + 1 / 6.0), hours(topH + 1 / 6.0 - doubtH), hours(topH + 1 / 6.0 + doubtH)),
                Optional.empty(),
                Estimate.of(hours((unloadFromH + unloadToH) / 2), hours(unloadFromH), hours(unloadToH)));
    }

    static Duration hours(double hours) {
        return Duration.ofSeconds(Math.round(hours * 3600));
    }

    static Timed load(FiringTimes times) {
        return new Timed(times, Optional.empty(), OptionalInt.empty(), Duration.ZERO, Optional.empty(), false);
    }

    static Timed due(Timed load, String local) {
        return new Timed(
                load.times(), load.ready(), load.after(), load.drying(), Optional.of(at(local)), load.packed());
    }

    static Timed ready(Timed load, String local) {
        return new Timed(load.times(), Optional.of(at(local)), load.after(), load.drying(), load.due(), load.packed());
    }

    static Timed after(Timed load, int other, Duration drying) {
        return new Timed(load.times(), load.ready(), OptionalInt.of(other), drying, load.due(), load.packed());
    }

    static Timed packed(Timed load) {
        return new Timed(load.times(), load.ready(), load.after(), load.drying(), load.due(), true);
    }
}

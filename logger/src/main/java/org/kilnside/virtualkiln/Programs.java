package org.kilnside.virtualkiln;

import java.time.Duration;
import java.util.List;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;

/** Programs of the usual kinds, for virtual kilns that are given none; tops and rates as common practice has them. */
public final class Programs {
    private Programs() {}

    /** A bisque of some ten hours: slowly through the steam, then on to the top and ten minutes there. */
    public static Schedule bisque(double topC) {
        return new Schedule(
                "Bisque", List.of(ramp(60, 120, 0), ramp(100, 600, 0), ramp(130, topC, 10), new Segment.FreeCooling()));
    }

    /** The same after some hours of candling below the boiling point. */
    public static Schedule candledBisque(double topC, double candlingHours) {
        return new Schedule(
                "Candled bisque",
                List.of(
                        ramp(60, 85, Math.round(60 * candlingHours)),
                        ramp(60, 200, 0),
                        ramp(100, 600, 0),
                        ramp(130, topC, 10),
                        new Segment.FreeCooling()));
    }

    /** A glaze firing: fast, the last hundred degrees slower, ten minutes at the top. */
    public static Schedule glaze(double topC, double lastRate) {
        return new Schedule(
                "Glaze",
                List.of(
                        ramp(100, 120, 0),
                        ramp(150, topC - 110, 0),
                        ramp(lastRate, topC, 10),
                        new Segment.FreeCooling()));
    }

    /** A glaze firing with heat on the way down. */
    public static Schedule slowCoolGlaze(double topC, double lastRate) {
        return new Schedule(
                "Slow-cool glaze",
                List.of(
                        ramp(100, 120, 0),
                        ramp(150, topC - 110, 0),
                        ramp(lastRate, topC, 10),
                        ramp(160, 1040, 30),
                        ramp(60, 800, 0),
                        new Segment.FreeCooling()));
    }

    static Segment ramp(double kelvinPerHour, double toC, long holdMinutes) {
        return new Segment.Ramp(
                HeatingRate.ofKelvinPerHour(kelvinPerHour),
                Temperature.ofCelsius(toC),
                Duration.ofMinutes(holdMinutes));
    }
}

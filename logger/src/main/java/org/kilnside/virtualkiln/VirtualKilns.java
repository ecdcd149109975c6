package org.kilnside.virtualkiln;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.virtualkiln.VirtualKilnSpec.Layer;

/** Virtual kilns one can call by name, and what they are fired with when nothing else is said. */
public final class VirtualKilns {
    /** The scenario's kiln: round, 68 litres, 5.6 kW, 75 mm of insulating brick, mid-range glazes with some power to spare. */
    public static final VirtualKilnSpec TALL_DRUM = VirtualKilnSpec.drum("tall-drum")
            .litres(68)
            .slenderness(1.5)
            .kilowatts(5.6)
            .leaks(1.2)
            .walls(Layer.of(Materials.BRICK_1260.withConductivityTimes(1.12), 75))
            .build();

    private VirtualKilns() {}

    /** Names that {@link #named} knows. */
    public static List<String> names() {
        return List.of(TALL_DRUM.name());
    }

    public static Optional<VirtualKilnSpec> named(String name) {
        return name.equals(TALL_DRUM.name()) ? Optional.of(TALL_DRUM) : Optional.empty();
    }

    /** A bisque of some ten hours to cone 06, for a virtual kiln that was given no plan. */
    public static Schedule bisque() {
        return new Schedule(
                "Bisque", List.of(ramp(60, 120, 0), ramp(100, 600, 0), ramp(130, 998, 10), new Segment.FreeCooling()));
    }

    /** Raw ware for a bisque in the scenario's kiln: soup bowls and planters, dry but for 1 %. */
    public static Load bisqueLoad() {
        return Load.raw(20, 14);
    }

    private static Segment ramp(double kelvinPerHour, double toC, long holdMinutes) {
        return new Segment.Ramp(
                HeatingRate.ofKelvinPerHour(kelvinPerHour),
                Temperature.ofCelsius(toC),
                Duration.ofMinutes(holdMinutes));
    }
}

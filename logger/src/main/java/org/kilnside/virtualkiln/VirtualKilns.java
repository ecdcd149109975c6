package org.kilnside.virtualkiln;

import java.util.List;
import java.util.Optional;
import org.kilnside.schedule.Schedule;
import org.kilnside.virtualkiln.VirtualKilnSpec.Layer;

/** Virtual kilns one can call by name, and what they are fired with when nothing else is said. */
public final class VirtualKilns {
    /**
     * The scenario's kiln: round, 68 litres, 5.6 kW, 75 mm of insulating brick, of which joints and element grooves make
     * a third more than the brick alone would let through. New, it climbs 80 °C/h at cone 6; aged by a third it stalls.
     */
    public static final VirtualKilnSpec TALL_DRUM = VirtualKilnSpec.drum("tall-drum")
            .litres(68)
            .slenderness(1.5)
            .kilowatts(5.6)
            .leaks(1.8)
            .walls(Layer.of(Materials.BRICK_1260.withConductivityTimes(1.3), 75))
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
        return Programs.bisque(998);
    }

    /** Raw ware for a bisque in the scenario's kiln: soup bowls and planters, dry but for 1 %. */
    public static Load bisqueLoad() {
        return Load.raw(20, 14);
    }

    /** How a kiln is lined, as a person describes it. */
    public enum Lining {
        BRICK,
        LAYERED,
        FIBRE
    }

    /** A kiln of which only little is known: round, its walls of the usual thickness for its lining. */
    public static VirtualKilnSpec like(String name, double litres, double kilowatts, Lining lining) {
        VirtualKilnSpec.Drum drum = VirtualKilnSpec.drum(name).litres(litres).kilowatts(kilowatts);
        return switch (lining) {
            case BRICK -> drum.walls(Layer.of(Materials.BRICK_1260, 75)).build();
            case LAYERED ->
                drum.walls(Layer.of(Materials.BRICK_1260, 63), Layer.of(Materials.FIBRE_128, 25))
                        .build();
            case FIBRE -> drum.walls(Layer.of(Materials.FIBRE_128, 75)).build();
        };
    }
}

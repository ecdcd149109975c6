package org.kilnside.virtualkiln;

import java.util.List;
import org.kilnside.virtualkiln.VirtualKilnSpec.Layer;
import org.kilnside.virtualkiln.VirtualKilnSpec.Side;

/** How many watts a maker would give a kiln: enough to lose them at the top and still climb. A rough sum, no solver. */
final class PowerNeed {
    private PowerNeed() {}

    /** W to climb at a rate, K/h, at a top temperature, °C, with a load, kg. */
    static double watts(VirtualKilnSpec kiln, double loadKg, double topC, double kelvinPerHour) {
        double watts = loadKg * Materials.WARE.heatCapacity(topC) * kelvinPerHour / 3600;
        for (Side side : List.of(kiln.jacket(), kiln.lid(), kiln.floor())) {
            watts += side(side, topC, kelvinPerHour);
        }
        double air = Air.draught(topC, 15, kiln.heightM(), kiln.lowerLeakM2(), kiln.upperLeakM2());
        return watts + air * Air.HEAT_CAPACITY * (topC - 15);
    }

    private static double side(Side side, double topC, double kelvinPerHour) {
        double meanM2 = Math.sqrt(side.innerAreaM2() * side.outerAreaM2());
        double resistance = 0.06;
        double stored = 0;
        double atC = topC;
        double through = side.thicknessM();
        for (Layer layer : side.layers()) {
            // Layers share the drop by thickness: rough, but only the conductivity depends on it.
            double dropC = (topC - 100) * layer.thicknessM() / through;
            resistance += layer.thicknessM() / layer.material().conductivity(atC - dropC / 2);
            stored += layer.thicknessM()
                    * layer.material().densityKgM3()
                    * layer.material().heatCapacity(atC)
                    / 2;
            atC -= dropC;
        }
        return meanM2 * ((topC - 15) / resistance + stored * kelvinPerHour / 3600);
    }
}

package org.kilnside.virtualkiln;

import java.util.Arrays;
import java.util.List;
import org.kilnside.virtualkiln.VirtualKilnSpec.Layer;

/**
 * Heat through a wall of layers whose cross-section grows from the hot face to the shell.
 *
 * <p>Nodes stand on both faces and on every boundary between layers; each owns half of the intervals beside it, so no
 * conductivity is ever averaged across two materials. Backward Euler with properties of the step's beginning: stable
 * at any step, first order in time. The hot face is left open: {@link #eliminate} folds the wall into one equation for
 * its hot face, which the chamber's network solves together with its own, and {@link #settle} then fills in the rest.
 */
final class Wall {

    private final int intervals;
    private final Material[] material;
    private final double[] areaOverLength;
    /** Half volumes of interval i, m³: the one at its inner node and the one at its outer node. */
    private final double[] innerHalfM3;

    private final double[] outerHalfM3;
    private final double outerAreaM2;
    private final double innerAreaM2;
    private final double shellHeatCapacityJK;

    private final double[] temperatureC;
    private final double[] conductance;
    private final double[] diagonal;
    private final double[] right;

    /**
     * @param layers hot side first
     * @param innerAreaM2 of the hot face
     * @param outerAreaM2 of the shell; between them the cross-section grows linearly, as it does round a cylinder
     * @param shellHeatCapacityJK of the sheet metal at the shell, J/K
     * @param firstIntervalM the interval at the hot face; the next grow by a sixth of their depth
     */
    Wall(
            List<Layer> layers,
            double innerAreaM2,
            double outerAreaM2,
            double shellHeatCapacityJK,
            double firstIntervalM,
            double growth) {
        double thickness = layers.stream().mapToDouble(Layer::thicknessM).sum();
        double[] edges = new double[2048];
        Material[] filling = new Material[2048];
        int count = 0;
        double from = 0;
        for (Layer layer : layers) {
            double depth = 0;
            int before = count;
            while (depth < layer.thicknessM() * (1 - 1e-9)) {
                depth += firstIntervalM + growth * (from + depth);
                filling[count] = layer.material();
                edges[++count] = from + depth;
            }
            double fit = layer.thicknessM() / depth;
            for (int i = before + 1; i <= count; i++) {
                edges[i] = from + (edges[i] - from) * fit;
            }
            from += layer.thicknessM();
        }
        intervals = count;
        material = Arrays.copyOf(filling, count);
        areaOverLength = new double[count];
        innerHalfM3 = new double[count];
        outerHalfM3 = new double[count];
        for (int i = 0; i < count; i++) {
            double length = edges[i + 1] - edges[i];
            double middle = (edges[i] + edges[i + 1]) / 2;
            double grow = (outerAreaM2 - innerAreaM2) / thickness;
            areaOverLength[i] = (innerAreaM2 + grow * middle) / length;
            innerHalfM3[i] = length / 2 * (innerAreaM2 + grow * (middle - length / 4));
            outerHalfM3[i] = length / 2 * (innerAreaM2 + grow * (middle + length / 4));
        }
        this.innerAreaM2 = innerAreaM2;
        this.outerAreaM2 = outerAreaM2;
        this.shellHeatCapacityJK = shellHeatCapacityJK;
        temperatureC = new double[count + 1];
        conductance = new double[count];
        diagonal = new double[count + 1];
        right = new double[count + 1];
    }

    void startAt(double everywhereC) {
        Arrays.fill(temperatureC, everywhereC);
    }

    /**
     * Folds the wall into {@code faceDiagonal · T_face = faceRight + heat flowing in}, W.
     *
     * @param outsideConductanceWK between shell and surroundings, W/K
     */
    void eliminate(double seconds, double outsideConductanceWK, double outsideC) {
        double rate = 1 / seconds;
        double last = temperatureC[intervals];
        double capacity = shellHeatCapacityJK
                + outerHalfM3[intervals - 1]
                        * material[intervals - 1].densityKgM3()
                        * material[intervals - 1].heatCapacity(last);
        double below = 0;
        double diagonalBelow = 0;
        double rightBelow = 0;
        for (int i = intervals; i >= 0; i--) {
            if (i < intervals) {
                Material here = material[i];
                capacity = innerHalfM3[i] * here.densityKgM3() * here.heatCapacity(temperatureC[i]);
                if (i > 0) {
                    Material before = material[i - 1];
                    capacity += outerHalfM3[i - 1] * before.densityKgM3() * before.heatCapacity(temperatureC[i]);
                }
            }
            double towardsFace = 0;
            if (i > 0) {
                towardsFace = areaOverLength[i - 1]
                        * material[i - 1].conductivity((temperatureC[i - 1] + temperatureC[i]) / 2);
                conductance[i - 1] = towardsFace;
            }
            double own = capacity * rate + towardsFace;
            double source = capacity * rate * temperatureC[i];
            if (i == intervals) {
                own += outsideConductanceWK;
                source += outsideConductanceWK * outsideC;
            } else {
                double share = below / diagonalBelow;
                own += below - share * below;
                source += share * rightBelow;
            }
            diagonal[i] = own;
            right[i] = source;
            below = towardsFace;
            diagonalBelow = own;
            rightBelow = source;
        }
    }

    /** W/K. */
    double faceDiagonal() {
        return diagonal[0];
    }

    /** W. */
    double faceRight() {
        return right[0];
    }

    /** Fills in the wall behind a hot face whose temperature at the step's end is now known. */
    void settle(double faceC) {
        temperatureC[0] = faceC;
        for (int i = 1; i <= intervals; i++) {
            temperatureC[i] = (right[i] + conductance[i - 1] * temperatureC[i - 1]) / diagonal[i];
        }
    }

    /** One step with the hot face held against surroundings of its own; what a wall alone does. */
    void step(double seconds, double hotConductanceWK, double hotC, double outsideConductanceWK, double outsideC) {
        eliminate(seconds, outsideConductanceWK, outsideC);
        settle((faceRight() + hotConductanceWK * hotC) / (faceDiagonal() + hotConductanceWK));
    }

    double faceC() {
        return temperatureC[0];
    }

    double shellC() {
        return temperatureC[intervals];
    }

    double innerAreaM2() {
        return innerAreaM2;
    }

    double outerAreaM2() {
        return outerAreaM2;
    }

    /** Temperatures of all nodes, hot face first. */
    double[] nodesC() {
        return temperatureC.clone();
    }

    /** J held, above −50 °C. */
    double storedJ() {
        double sum = shellHeatCapacityJK * (temperatureC[intervals] + 50);
        for (int i = 0; i < intervals; i++) {
            Material here = material[i];
            sum += here.densityKgM3()
                    * (innerHalfM3[i] * here.enthalpy(temperatureC[i])
                            + outerHalfM3[i] * here.enthalpy(temperatureC[i + 1]));
        }
        return sum;
    }
}

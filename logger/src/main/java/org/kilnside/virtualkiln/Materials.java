package org.kilnside.virtualkiln;

import org.kilnside.virtualkiln.Material.Points;

/**
 * What kilns and loads are made of.
 *
 * <p>Insulating brick, dense brick and kiln shelf: VDI Heat Atlas, 2nd ed., Springer 2010, thermal properties of
 * refractories at 400 … 1200 °C (one copy, not checked against the book); below 400 °C the slope is carried
 * on. Rows marked "from memory" are orders of magnitude.
 */
public final class Materials {
    /** Insulating brick of the 1260 °C class; VDI Heat Atlas. */
    public static final Material BRICK_1260 =
            refractory("insulating brick 1260", 490, new double[] {0.14, 0.16, 0.18, 0.20, 0.22}, new double[] {
                942, 979, 1002, 1017, 1033
            });
    /** Insulating brick of the 1400 °C class; VDI Heat Atlas. */
    public static final Material BRICK_1400 =
            refractory("insulating brick 1400", 790, new double[] {0.27, 0.30, 0.32, 0.34, 0.36}, new double[] {
                954, 994, 1018, 1034, 1050
            });
    /** Insulating brick of the 1540 °C class; VDI Heat Atlas. */
    public static final Material BRICK_1540 =
            refractory("insulating brick 1540", 890, new double[] {0.32, 0.35, 0.38, 0.41, 0.43}, new double[] {
                979, 1026, 1054, 1075, 1096
            });
    /** Light 23-grade insulating firebrick; from memory. */
    public static final Material BRICK_GRADE_23 = Material.of(
            "insulating brick grade 23",
            480,
            Points.of(400, 0.12, 600, 0.14, 800, 0.17, 1000, 0.19),
            Points.of(20, 800, 400, 950, 1000, 1050));
    /** Light 26-grade insulating firebrick; from memory. */
    public static final Material BRICK_GRADE_26 = Material.of(
            "insulating brick grade 26",
            800,
            Points.of(400, 0.25, 600, 0.27, 800, 0.30, 1000, 0.33, 1200, 0.35),
            Points.of(20, 800, 400, 960, 1000, 1100));
    /** Alumino-silicate fibre blanket, 128 kg/m³; from memory. Its conductivity rises 2.8-fold from 400 to 1000 °C. */
    public static final Material FIBRE_128 = Material.of(
            "fibre blanket 128",
            128,
            Points.of(20, 0.04, 200, 0.06, 400, 0.10, 600, 0.15, 800, 0.21, 1000, 0.28),
            Points.of(20, 800, 400, 1000, 1000, 1130));
    /** Rigid backing board; from memory. */
    public static final Material BACKING_BOARD = Material.of(
            "backing board", 270, Points.of(20, 0.06, 400, 0.09, 800, 0.14), Points.of(20, 800, 400, 950, 800, 1050));
    /** Dense fireclay; VDI Heat Atlas. */
    public static final Material FIRECLAY = refractory(
            "fireclay", 2150, new double[] {1.05, 1.10, 1.15, 1.18, 1.22}, new double[] {956, 997, 1021, 1037, 1054});
    /**
     * Pottery body, biscuit to stoneware: about 0.8 kJ/(kg K) cold and 1.15 at white heat, 1 W/(m K); from memory, as
     * fireclay has it.
     */
    public static final Material WARE = Material.of(
            "ware", 2000, Points.of(20, 0.9, 1000, 1.1), Points.of(20, 800, 400, 955, 800, 1060, 1200, 1130));
    /** Iron-chromium-aluminium resistance wire; makers' handbooks give 0.46 at 20 °C and 0.72 near 1000 °C (from memory). */
    public static final Material ELEMENT_WIRE = Material.of(
            "element wire", 7100, Points.of(20, 11, 1000, 22), Points.of(20, 460, 600, 660, 1000, 720, 1200, 720));

    private Materials() {}

    private static Material refractory(String name, double densityKgM3, double[] conductivity, double[] heatCapacity) {
        return Material.of(name, densityKgM3, fromFourHundred(conductivity), fromFourHundred(heatCapacity));
    }

    private static Points fromFourHundred(double[] values) {
        double[] pairs = new double[2 * values.length];
        for (int i = 0; i < values.length; i++) {
            pairs[2 * i] = 400 + 200 * i;
            pairs[2 * i + 1] = values[i];
        }
        return Points.of(pairs);
    }
}

package org.kilnside.thermal;

/**
 * How a wall is cut into cells from the hot face to the shell: how thick each is, how large the faces between them and
 * what each is made of. Lengths in wall thicknesses, areas in the hot face's, conductivity and capacity in the hot-face
 * layer's at 600 °C. The arrays are read in the inner loop of every forecast and written nowhere else.
 */
final class WallCells {
    /** Each cell is this much wider than its inner neighbour: the first minutes happen at the hot face. */
    private static final double WIDENING = 1.12;

    final int count;
    final double[] middle;

    /** Of the face before each cell, and of the shell. */
    final double[] areaAt;

    /** From its middle to either face, for one unit of area, at a conductivity of 1. */
    final double[] resistance;

    /** Of the whole cell, where the material holds 1 by volume. */
    final double[] capacity;

    WallCells(WallShape shape, int count) {
        this.count = count;
        middle = new double[count];
        areaAt = new double[count + 1];
        resistance = new double[count];
        capacity = new double[count];
        double first = (WIDENING - 1) / (Math.pow(WIDENING, count) - 1);
        double x = 0;
        areaAt[0] = 1;
        for (int i = 0; i < count; i++) {
            double end = i == count - 1 ? 1 : x + first * Math.pow(WIDENING, i);
            double width = end - x;
            middle[i] = (x + end) / 2;
            areaAt[i + 1] = area(shape, end);
            double volume = width * (areaAt[i] + 4 * area(shape, middle[i]) + areaAt[i + 1]) / 6;
            double backed = Math.min(1, Math.max(0, (end - shape.backingFrom()) / width));
            // Where the joint runs through a cell its two parts resist in series.
            resistance[i] = width / 2 * ((1 - backed) + backed / shape.backingConductivity());
            capacity[i] = volume * ((1 - backed) + backed * shape.backingCapacity());
            x = end;
        }
    }

    private static double area(WallShape shape, double x) {
        double side = 1 + shape.growth() * x;
        return side * side;
    }
}

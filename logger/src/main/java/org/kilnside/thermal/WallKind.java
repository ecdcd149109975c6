package org.kilnside.thermal;

import org.kilnside.thermal.WallShape.Quadratic;

/** What a kiln's wall is made of: a property of the kiln that its owner knows. */
public enum WallKind {
    /**
     * Insulating firebrick. Conductivity 0.64 + 0.0006 θ over that at 600 °C fits the makes of firebrick in the VDI
     * Heat Atlas (2nd ed. 2010) within 10 % from 400 to 1200 °C.
     */
    BRICK(new Quadratic(0.64, 0.0006, 0), 1, 1, 1, 19_000),

    /** Firebrick backed by fibre or board. */
    LAYERED(new Quadratic(0.64, 0.0006, 0), 0.8, 0.35, 0.3, 26_000),

    /** Ceramic fibre: conductivity rises 2.8-fold from 400 to 1000 °C (alumino-silicate blanket, from memory). */
    FIBRE(new Quadratic(0.22, 0.00075, 9e-7), 1, 1, 1, 3_500);

    private final WallShape shape;
    private final double typicalTauS;

    WallKind(
            Quadratic conductivity,
            double backingFrom,
            double backingConductivity,
            double backingCapacity,
            double typicalTauS) {
        shape = new WallShape(
                conductivity,
                WallShape.ALUMINA_SILICA,
                WallShape.USUAL_GROWTH,
                false,
                backingFrom,
                backingConductivity,
                backingCapacity);
        this.typicalTauS = typicalTauS;
    }

    WallShape shape() {
        return shape;
    }

    double typicalTauS() {
        return typicalTauS;
    }
}

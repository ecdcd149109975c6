package org.kilnside.thermal;

import org.kilnside.thermal.WallShape.Quadratic;

/** What a kiln's wall is made of: a property of the kiln that its owner knows. */
public enum WallKind {
    /**
     * Insulating firebrick. Conductivity 0.64 + 0.0006 θ over that at 600 °C fits the makes of firebrick in the VDI
     * Heat Atlas (2nd ed. 2010) within 10 % from 400 to 1200 °C.
     */
    BRICK(new Quadratic(0.64, 0.0006, 0), 1, 1, 1, 21_000, 0.27, 4.3e-7),

    /** Firebrick backed by fibre or board. */
    LAYERED(new Quadratic(0.64, 0.0006, 0), 0.8, 0.35, 0.3, 28_700, 0.27, 4.3e-7),

    /**
     * Ceramic fibre: conductivity rises fourfold from cold to 600 °C and again twofold to 1000 °C (alumino-silicate blanket
     * of 128 kg/m³, from memory); walls of 50 to 150 mm.
     */
    FIBRE(new Quadratic(0.24, 0.00053, 1.23e-6), 1, 1, 1, 9_000, 0.2, 1.3e-6);

    private final WallShape shape;
    private final double typicalTauS;
    private final double usualConductivityWMK;
    private final double usualDiffusivityM2S;

    WallKind(
            Quadratic conductivity,
            double backingFrom,
            double backingConductivity,
            double backingCapacity,
            double typicalTauS,
            double usualConductivityWMK,
            double usualDiffusivityM2S) {
        shape = new WallShape(
                conductivity,
                WallShape.ALUMINA_SILICA,
                WallShape.USUAL_GROWTH,
                false,
                backingFrom,
                backingConductivity,
                backingCapacity);
        this.typicalTauS = typicalTauS;
        this.usualConductivityWMK = usualConductivityWMK;
        this.usualDiffusivityM2S = usualDiffusivityM2S;
    }

    WallShape shape() {
        return shape;
    }

    double typicalTauS() {
        return typicalTauS;
    }

    /**
     * W/(m K) of the hot-face material at 600 °C: the middle of insulating firebricks of 500–800 kg/m³ (VDI Heat Atlas:
     * 0.17–0.45); blanket of 128 kg/m³ with its joints and studs (from memory).
     */
    double usualConductivityWMK() {
        return usualConductivityWMK;
    }

    /** The same over its density and heat capacity, m²/s. */
    double usualDiffusivityM2S() {
        return usualDiffusivityM2S;
    }

    /** How far makes and thicknesses scatter about that, ln. */
    double conductivityScatter() {
        return 0.35;
    }
}

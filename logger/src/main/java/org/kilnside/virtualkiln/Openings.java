package org.kilnside.virtualkiln;

/** Seams, bung and lid: the air they let through and what radiates out of them. */
final class Openings {
    private final VirtualKilnSpec spec;
    private final double perimeterM;
    private double bungOpen;
    private double lidGapM;
    private double ventKgS;
    private final double[] conductanceWK = new double[3];

    Openings(VirtualKilnSpec spec) {
        this.spec = spec;
        perimeterM = 2 * Math.sqrt(Math.PI * spec.crossSectionM2());
    }

    void openBung(double share) {
        bungOpen = share;
    }

    void propLid(double gapM) {
        lidGapM = gapM;
    }

    void vent(double airKgS) {
        ventKgS = airKgS;
    }

    double lidGapM() {
        return lidGapM;
    }

    private double gapM2() {
        return Math.min(perimeterM * lidGapM, spec.crossSectionM2());
    }

    /** kg/s of air from the room through the chamber: drawn from below to above, exchanged through each opening, and what a fan draws. */
    double airKgS(double insideC, double roomC) {
        double bungM2 = bungOpen * spec.bungM2();
        double sum =
                Air.draught(insideC, roomC, spec.heightM(), spec.lowerLeakM2(), spec.upperLeakM2() + bungM2 + gapM2());
        if (lidGapM > 0) {
            sum += Air.exchange(insideC, roomC, gapM2(), lidGapM);
        }
        if (bungM2 > 0) {
            sum += Air.exchange(insideC, roomC, bungM2, Math.sqrt(spec.bungM2()));
        }
        return sum + ventKgS;
    }

    /**
     * Enters into a step what radiates out through the propped lid's gap, which sees each of three bodies by a third.
     *
     * @return W/K per body
     */
    double[] radiate(ThermalNetwork network, int[] bodies, double roomC) {
        for (int i = 0; i < bodies.length; i++) {
            conductanceWK[i] = lidGapM > 0
                    ? gapM2() / bodies.length * Radiation.coefficient(network.temperatureC(bodies[i]), roomC)
                    : 0;
            network.surroundings(bodies[i], conductanceWK[i], roomC);
        }
        return conductanceWK;
    }
}

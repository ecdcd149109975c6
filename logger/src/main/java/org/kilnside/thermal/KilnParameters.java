package org.kilnside.thermal;

/**
 * One kiln with one load, in the model's numbers.
 *
 * @param tauS τ, the wall's time constant L²/α at 600 °C, s
 * @param biot Bi, the shell's Biot number at a shell about 30 K above ambient
 * @param phi φ, heat capacity of ware and furniture over that of a slab of hot-face area times wall thickness
 * @param lambda λ, leak through gaps and vents at 500 K above ambient, over the conductance k A / L of that slab
 * @param leakExponent how the leak grows with the temperature difference: 0 = a fan, ½ = draught
 * @param conductivitySteepness multiplies the departure of the wall kind's conductivity curve from 1
 * @param capacitySteepness the same for heat capacity
 * @param faceFilm resistance at 600 °C between where the sensor is and the hot face, over the slab's L / k; radiation, so
 *     it falls with the cube of the absolute temperature
 * @param wareFilm the same between where the sensor is and the ware in the stack
 * @param psiC ψ, element power with all elements on, in °C: what it would hold across that slab's conductance
 * @param ambientC air around the kiln, °C
 * @param boundWaterK heat that raw ware takes to lose its bound water, in kelvins of warming of all of φ; 0 for ware that
 *     has been fired before
 */
record KilnParameters(
        double tauS,
        double biot,
        double phi,
        double lambda,
        double leakExponent,
        double conductivitySteepness,
        double capacitySteepness,
        double faceFilm,
        double wareFilm,
        double psiC,
        double ambientC,
        double boundWaterK,
        double quartzK) {

    /**
     * The part of ware, furniture and elements that stands back in the stack and reaches the rest through the ware's film;
     * what is left of it goes with the sensor at once.
     */
    static final double STACK = 0.6;

    /** Above ambient by this much, λ is what its name says. */
    static final double LEAK_REFERENCE_K = 500;

    /** One without bound water or quartz in its load. */
    KilnParameters(
            double tauS,
            double biot,
            double phi,
            double lambda,
            double leakExponent,
            double conductivitySteepness,
            double capacitySteepness,
            double faceFilm,
            double wareFilm,
            double psiC,
            double ambientC) {
        this(
                tauS,
                biot,
                phi,
                lambda,
                leakExponent,
                conductivitySteepness,
                capacitySteepness,
                faceFilm,
                wareFilm,
                psiC,
                ambientC,
                0,
                0);
    }

    /** The leak's conductance at a chamber temperature, in units of the slab's. */
    double leakAt(double chamberC) {
        return lambda * draught(leakExponent, chamberC - ambientC);
    }

    /** A leak's conductance over what it is at the temperature difference at which it is named. */
    static double draught(double exponent, double aboveAmbientK) {
        return exponent == 0 ? 1 : Math.pow(Math.max(1, aboveAmbientK) / LEAK_REFERENCE_K, exponent);
    }

    KilnParameters withLambda(double other) {
        return with(tauS, biot, phi, other, leakExponent, psiC, ambientC);
    }

    /** The same with other walls and another leak. */
    KilnParameters withWall(double otherTauS, double otherBiot, double otherLambda) {
        return with(otherTauS, otherBiot, phi, otherLambda, leakExponent, psiC, ambientC);
    }

    /** The same as far as a wall driven by a measured curve can tell: leak and power do nothing to it. */
    KilnParameters asDriven() {
        return with(tauS, biot, phi, 0, 0, 0, ambientC);
    }

    KilnParameters withPsiC(double other) {
        return with(tauS, biot, phi, lambda, leakExponent, other, ambientC);
    }

    KilnParameters withAmbientC(double other) {
        return with(tauS, biot, phi, lambda, leakExponent, psiC, other);
    }

    KilnParameters withPhi(double other) {
        return with(tauS, biot, other, lambda, leakExponent, psiC, ambientC);
    }

    private KilnParameters with(
            double itsTauS,
            double itsBiot,
            double itsPhi,
            double itsLambda,
            double itsLeakExponent,
            double itsPsiC,
            double itsAmbientC) {
        return new KilnParameters(
                itsTauS,
                itsBiot,
                itsPhi,
                itsLambda,
                itsLeakExponent,
                conductivitySteepness,
                capacitySteepness,
                faceFilm,
                wareFilm,
                itsPsiC,
                itsAmbientC,
                boundWaterK,
                quartzK);
    }

    /** The same with ware that has lost its bound water before. */
    KilnParameters fired() {
        return new KilnParameters(
                tauS,
                biot,
                phi,
                lambda,
                leakExponent,
                conductivitySteepness,
                capacitySteepness,
                faceFilm,
                wareFilm,
                psiC,
                ambientC,
                0,
                quartzK);
    }
}

package org.kilnside.thermal;

/**
 * The power that holds a kiln at one temperature once its wall is soaked, in closed form but for the shell's own heat
 * transfer: steady conduction through the layers by the integral of their conductivity, and the leak.
 */
final class HoldingPower {
    /** Halvings of where the shell's temperature lies: to a millionth of a kelvin. */
    private static final int HALVINGS = 31;

    private HoldingPower() {}

    /**
     * ψ that just holds a temperature.
     *
     * @param kiln its ψ, φ and τ do not matter
     * @param celsius °C, above ambient
     * @return in °C, as ψ
     */
    static double psiC(KilnParameters kiln, WallShape shape, double celsius) {
        WallShape.Quadratic conductivity = shape.conductivity().steeper(kiln.conductivitySteepness());
        double hotFace = through(shape, shape.backingFrom());
        double resistance = hotFace + (through(shape, 1) - hotFace) / shape.backingConductivity();
        double film = WallSlab.film(kiln.faceFilm(), celsius);
        double outside = kiln.biot() * (1 + shape.growth()) * (1 + shape.growth());
        double coldest = kiln.ambientC();
        double hottest = celsius;
        double lost = 0;
        for (int i = 0; i < HALVINGS; i++) {
            double shellC = (coldest + hottest) / 2;
            double above = shellC - kiln.ambientC();
            lost = outside * above * (shape.constantShell() ? 1 : WallSlab.shellFactor(above));
            double faceC = celsius - lost * film;
            if (faceC > shellC && conductivity.between(shellC, faceC) / resistance > lost) {
                coldest = shellC;
            } else {
                hottest = shellC;
            }
        }
        return lost + kiln.leakAt(celsius) * (celsius - kiln.ambientC());
    }

    /** Resistance from the hot face to a depth at a conductivity of 1: the cross-section at x is (1 + g x)². */
    private static double through(WallShape shape, double depth) {
        return depth / (1 + shape.growth() * depth);
    }
}

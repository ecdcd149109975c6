package org.kilnside.thermal;

/**
 * What a kind of wall is like apart from its size: how conductivity and heat capacity change with temperature and from
 * the hot face (x = 0) to the shell (x = 1), and how much larger the outside is than the inside. All dimensionless;
 * conductivity and capacity are 1 at 600 °C in the hot-face layer.
 *
 * @param conductivity κ(θ)
 * @param capacity c(θ), of wall and load
 * @param growth g: the cross-section at x is (1 + g x)² of the hot face's; 0 for a flat slab
 * @param constantShell whether the shell's heat transfer does not change with its temperature, as textbooks have it
 * @param backingFrom where a backing layer begins, 0 < x ≤ 1; 1 = none
 * @param backingConductivity of the backing over the hot-face layer's
 * @param backingCapacity of the backing over the hot-face layer's, by volume
 */
record WallShape(
        Quadratic conductivity,
        Quadratic capacity,
        double growth,
        boolean constantShell,
        double backingFrom,
        double backingConductivity,
        double backingCapacity) {

    /**
     * Alumino-silicates hold more heat the hotter they are: over the value at 600 °C, fits the firebricks' cp of the
     * VDI Heat Atlas within 3 % from 400 to 1200 °C; below, from memory.
     */
    static final Quadratic ALUMINA_SILICA = new Quadratic(0.77, 0.00053, -0.00000025);

    /** Walls of 63–115 mm around 50–200 litres: the outside is larger by (1 + g)², g 0.25–0.6 (geometry of a cube). */
    static final double USUAL_GROWTH = 0.35;

    /** A flat slab of one material with constant properties: the textbook's wall. */
    static final WallShape TEXTBOOK_SLAB = new WallShape(Quadratic.ONE, Quadratic.ONE, 0, true, 1, 1, 1);

    /** a + b θ + c θ², θ in °C. */
    record Quadratic(double a, double b, double c) {
        static final Quadratic ONE = new Quadratic(1, 0, 0);

        double at(double celsius) {
            return a + (b + c * celsius) * celsius;
        }

        /** The integral between two temperatures. */
        double between(double fromC, double toC) {
            return a * (toC - fromC)
                    + b / 2 * (toC * toC - fromC * fromC)
                    + c / 3 * (toC * toC * toC - fromC * fromC * fromC);
        }

        /** The same curve with its departure from 1 multiplied: 0 = constant, 1 = unchanged. */
        Quadratic steeper(double times) {
            return new Quadratic(1 + (a - 1) * times, b * times, c * times);
        }
    }
}

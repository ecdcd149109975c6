package org.kilnside.thermal;

/**
 * At which temperature the quartz in the ware turns: 573 °C, on the way up and on the way down, part of it in the forty
 * kelvins below; not all ware is as hot as the sensor, so it is spread a little further. Dimensionless.
 */
final class QuartzTurning {
    /**
     * Heat it takes, and gives back as it cools, in kelvins of warming of all of φ: 10 kJ/kg of quartz at the turn and about as
     * much again in the kelvins below it (thermochemical tables, from memory); clay bodies hold a tenth to a third of quartz,
     * ware is half of what φ stands for.
     */
    static final double USUAL_K = 1.2;

    static final double SPREAD_K = 1;

    private static final double MIDDLE_C = 565;
    private static final double HALF_K = 25;

    private QuartzTurning() {}

    /** Whether some turns between two temperatures, in either order. */
    static boolean isBetween(double oneC, double otherC) {
        return Math.max(oneC, otherC) > MIDDLE_C - HALF_K && Math.min(oneC, otherC) < MIDDLE_C + HALF_K;
    }

    /** The part of it that turns per kelvin, 1/K; the whole comes to one. */
    static double perK(double wareC) {
        double away = (wareC - MIDDLE_C) / HALF_K;
        return Math.abs(away) >= 1 ? 0 : (1 + Math.cos(Math.PI * away)) / (2 * HALF_K);
    }

    /** The part of it that turns on the way from one temperature to another; negative downwards. */
    static double between(double fromC, double toC) {
        return until(toC) - until(fromC);
    }

    private static double until(double wareC) {
        double away = Math.max(-1, Math.min(1, (wareC - MIDDLE_C) / HALF_K));
        return (away + 1 + Math.sin(Math.PI * away) / Math.PI) / 2;
    }
}

package org.kilnside.heatwork;

import java.util.List;
import org.kilnside.heatwork.ConeTable.Constants;

/**
 * The constants of every cone's rate law: number, E in kJ/mol, ln A with A in 1/s.
 *
 * <p>Made by the fit in the tests (ConeFit) from "Temperature Equivalents for Pyrometric Cones", the wall chart of The
 * Edward Orton Jr. Ceramic Foundation: least squares on the chart's temperatures, cone by cone. Small cones are charted
 * at one rate alone, and large cone 14 is printed hotter at 60 than at 150 °C/h, which no rate law does: these have the
 * E of the self-supporting cone of the same number. A test makes the fit again and compares.
 */
final class ConeConstants {
    /**
     * Nine in ten of the chart's own scatter, °C: the residuals' root mean square of 1.3 °C, times √(111/35) for the
     * 76 constants taken from 111 values, times 1.645.
     */
    private static final double CHART_HALF_WIDTH_K = 3.7;

    /** Small cones are known at 300 °C/h alone; at other rates they lean on another series (common practice). */
    private static final double SMALL_HALF_WIDTH_K = 8;

    private ConeConstants() {}

    /** How far the rate law of a series may be off from a cone, nine in ten, °C. */
    static double chartHalfWidthK(ConeSeries series) {
        return series == ConeSeries.SMALL ? SMALL_HALF_WIDTH_K : CHART_HALF_WIDTH_K;
    }

    static List<Constants> of(ConeSeries series) {
        return switch (series) {
            case SELF_SUPPORTING -> SELF_SUPPORTING;
            case LARGE -> LARGE;
            case SMALL -> SMALL;
        };
    }

    private static Constants row(String cone, double activationKilojoulePerMol, double logRatePerS) {
        return new Constants(Cone.parse(cone), activationKilojoulePerMol, logRatePerS);
    }

    private static final List<Constants> SELF_SUPPORTING = List.of(
            row("022", 1438.628, 195.843211),
            row("021", 329.525, 38.384231),
            row("020", 520.049, 62.932428),
            row("019", 428.673, 47.244614),
            row("018", 370.656, 37.999521),
            row("017", 319.848, 30.699124),
            row("016", 369.631, 35.227675),
            row("015", 297.830, 26.197204),
            row("014", 254.388, 20.705931),
            row("013", 418.380, 38.018202),
            row("012", 614.587, 58.052312),
            row("011", 677.121, 63.915374),
            row("010", 1102.450, 106.174976),
            row("09", 1178.755, 112.387946),
            row("08", 810.588, 73.423669),
            row("07", 1177.171, 106.797820),
            row("06", 961.223, 84.152648),
            row("05.5", 1494.410, 133.125735),
            row("05", 1437.177, 125.925054),
            row("04", 1081.283, 90.566428),
            row("03", 1074.605, 88.143005),
            row("02", 792.826, 62.212948),
            row("01", 798.190, 61.875153),
            row("1", 813.222, 62.327175),
            row("2", 715.383, 53.564201),
            row("3", 669.196, 49.306251),
            row("4", 930.744, 70.875805),
            row("5", 818.208, 60.253551),
            row("5.5", 689.592, 48.903441),
            row("6", 704.888, 49.441432),
            row("7", 739.845, 51.664795),
            row("8", 704.293, 48.343968),
            row("9", 764.832, 52.775321),
            row("10", 826.435, 56.588558),
            row("11", 1082.468, 75.941373),
            row("12", 1144.209, 80.049895),
            row("13", 1258.908, 87.432401),
            row("14", 1575.342, 108.670802));

    private static final List<Constants> LARGE = List.of(
            row("019", 403.477, 44.145705),
            row("018", 361.145, 36.925188),
            row("017", 301.524, 28.557438),
            row("016", 321.718, 29.757314),
            row("015", 293.329, 25.755007),
            row("014", 298.318, 25.692527),
            row("013", 423.694, 38.657275),
            row("012", 428.470, 38.305838),
            row("011", 504.328, 45.802555),
            row("010", 685.916, 63.580821),
            row("09", 1012.027, 95.728798),
            row("08", 953.689, 87.752579),
            row("07", 956.452, 85.658349),
            row("06", 749.155, 64.105590),
            row("05.5", 1180.914, 103.974030),
            row("05", 791.394, 66.095488),
            row("04", 1342.030, 114.603278),
            row("03", 926.230, 75.081782),
            row("02", 749.480, 58.489630),
            row("01", 723.995, 55.468307),
            row("1", 838.507, 64.518400),
            row("2", 750.487, 56.613090),
            row("3", 982.285, 75.973984),
            row("4", 728.450, 53.918981),
            row("5", 753.150, 54.955386),
            row("5.5", 751.107, 54.036630),
            row("6", 791.268, 56.521985),
            row("7", 964.098, 69.728140),
            row("8", 799.243, 55.985774),
            row("9", 854.381, 59.958020),
            row("10", 882.746, 61.071997),
            row("11", 946.782, 65.585259),
            row("12", 933.302, 64.016868),
            row("13", 760.370, 49.980786),
            row("14", 1575.342, 108.547748));

    private static final List<Constants> SMALL = List.of(
            row("022", 1438.628, 187.567451),
            row("021", 329.525, 37.779941),
            row("020", 520.049, 61.493783),
            row("019", 428.673, 46.366692),
            row("018", 370.656, 37.877596),
            row("017", 319.848, 30.593579),
            row("016", 369.631, 34.747044),
            row("015", 297.830, 26.126633),
            row("014", 254.388, 20.596463),
            row("013", 418.380, 37.923712),
            row("012", 614.587, 57.633248),
            row("011", 677.121, 63.237274),
            row("010", 1102.450, 106.400377),
            row("09", 1178.755, 110.609168),
            row("08", 810.588, 72.385804),
            row("07", 1177.171, 105.619166),
            row("06", 961.223, 84.075151),
            row("05.5", 1494.410, 131.856996),
            row("05", 1437.177, 124.645393),
            row("04", 1081.283, 89.731895),
            row("03", 1074.605, 86.854401),
            row("02", 792.826, 61.602671),
            row("01", 798.190, 60.625072),
            row("1", 813.222, 61.598287),
            row("2", 715.383, 53.142402),
            row("3", 669.196, 49.044025),
            row("4", 930.744, 70.101507),
            row("5", 818.208, 60.283574),
            row("6", 704.888, 49.715127),
            row("7", 739.845, 52.165185),
            row("8", 704.293, 48.024731),
            row("9", 764.832, 52.078425),
            row("10", 826.435, 56.298537),
            row("11", 1082.468, 75.454571),
            row("12", 1144.209, 79.108166));
}

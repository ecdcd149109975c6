package org.kilnside.heatwork;

import java.util.List;
import org.kilnside.firing.ConeSeries;
import org.kilnside.heatwork.ConeTable.Constants;
import org.kilnside.quantity.Temperature;

/**
 * The constants of every cone's rate law: number, E in kJ/mol, ln A with A in 1/s, and the temperature the chart
 * prints for it in °F, the finer of its two scales, at 60 °C/h (small cones: 300 °C/h).
 *
 * <p>Made by the fit in the tests (ConeFit) from "Temperature Equivalents for Pyrometric Cones", the wall chart of The
 * Edward Orton Jr. Ceramic Foundation: least squares on the chart's temperatures, cone by cone, neighbours
 * together where they would go down out of turn. Small cones are charted
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

    private static Constants row(
            String cone, double activationKilojoulePerMol, double logRatePerS, double printedFahrenheit) {
        return new Constants(
                Cone.parse(cone),
                activationKilojoulePerMol,
                logRatePerS,
                Temperature.ofFahrenheit(printedFahrenheit).celsius());
    }

    private static final List<Constants> SELF_SUPPORTING = List.of(
            row("022", 763.204, 100.921460, 1087),
            row("021", 409.189, 49.440624, 1112),
            row("020", 520.049, 62.932428, 1159),
            row("019", 428.673, 47.244614, 1252),
            row("018", 370.656, 37.999521, 1319),
            row("017", 319.848, 30.699124, 1360),
            row("016", 369.631, 35.227675, 1422),
            row("015", 297.830, 26.197204, 1456),
            row("014", 254.388, 20.705931, 1485),
            row("013", 418.380, 38.018202, 1539),
            row("012", 614.587, 58.052312, 1582),
            row("011", 677.121, 63.915374, 1607),
            row("010", 1102.450, 106.174976, 1657),
            row("09", 1178.755, 112.387946, 1688),
            row("08", 810.588, 73.423669, 1728),
            row("07", 1177.171, 106.797820, 1789),
            row("06", 961.223, 84.152648, 1828),
            row("05.5", 1494.410, 133.125735, 1859),
            row("05", 1437.177, 125.925054, 1888),
            row("04", 1081.283, 90.566428, 1945),
            row("03", 1074.605, 88.143005, 1987),
            row("02", 792.826, 62.212948, 2016),
            row("01", 798.190, 61.875153, 2046),
            row("1", 804.607, 61.584286, 2079),
            row("2", 722.159, 54.146533, 2088),
            row("3", 669.196, 49.306251, 2106),
            row("4", 930.744, 70.875805, 2124),
            row("5", 818.208, 60.253551, 2167),
            row("5.5", 689.592, 48.903441, 2197),
            row("6", 704.888, 49.441432, 2232),
            row("7", 739.845, 51.664795, 2262),
            row("8", 704.293, 48.343968, 2280),
            row("9", 764.832, 52.775321, 2300),
            row("10", 826.435, 56.588558, 2345),
            row("11", 1082.468, 75.941373, 2361),
            row("12", 1144.209, 80.049895, 2383),
            row("13", 1258.908, 87.432401, 2428),
            row("14", 1575.342, 108.670802, 2489));

    private static final List<Constants> LARGE = List.of(
            row("019", 403.477, 44.145705, 1249),
            row("018", 361.145, 36.925188, 1314),
            row("017", 301.524, 28.557438, 1357),
            row("016", 321.718, 29.757314, 1416),
            row("015", 293.329, 25.755007, 1450),
            row("014", 298.318, 25.692527, 1485),
            row("013", 423.694, 38.657275, 1539),
            row("012", 428.470, 38.305838, 1576),
            row("011", 504.328, 45.802555, 1603),
            row("010", 685.916, 63.580821, 1648),
            row("09", 1012.027, 95.728798, 1683),
            row("08", 953.689, 87.752579, 1728),
            row("07", 956.452, 85.658349, 1783),
            row("06", 749.155, 64.105590, 1823),
            row("05.5", 1180.914, 103.974030, 1854),
            row("05", 791.394, 66.095488, 1886),
            row("04", 1342.030, 114.603278, 1940),
            row("03", 926.230, 75.081782, 1987),
            row("02", 749.480, 58.489630, 2014),
            row("01", 723.995, 55.468307, 2043),
            row("1", 835.480, 64.258424, 2077),
            row("2", 752.892, 56.818887, 2088),
            row("3", 912.979, 70.091408, 2106),
            row("4", 771.264, 57.536753, 2120),
            row("5", 753.150, 54.955386, 2163),
            row("5.5", 751.107, 54.036630, 2194),
            row("6", 791.268, 56.521985, 2228),
            row("7", 958.331, 69.266170, 2259),
            row("8", 803.153, 56.297259, 2277),
            row("9", 854.381, 59.958020, 2295),
            row("10", 882.746, 61.071997, 2340),
            row("11", 946.782, 65.585259, 2359),
            row("12", 933.302, 64.016868, 2379),
            row("13", 760.370, 49.980786, 2410),
            row("14", 1575.342, 108.547748, 2530));

    private static final List<Constants> SMALL = List.of(
            row("022", 600.819, 75.139574, 1166),
            row("021", 474.294, 57.135955, 1189),
            row("020", 520.049, 61.493783, 1231),
            row("019", 428.673, 46.366692, 1333),
            row("018", 370.656, 37.877596, 1386),
            row("017", 319.848, 30.593579, 1443),
            row("016", 355.279, 33.138769, 1517),
            row("015", 307.094, 27.152929, 1549),
            row("014", 254.432, 20.601249, 1598),
            row("013", 418.380, 37.923712, 1616),
            row("012", 614.587, 57.633248, 1652),
            row("011", 677.121, 63.237274, 1679),
            row("010", 1102.450, 106.400377, 1686),
            row("09", 1178.755, 110.609168, 1751),
            row("08", 810.588, 72.385804, 1801),
            row("07", 1177.171, 105.619166, 1846),
            row("06", 961.223, 84.075151, 1873),
            row("05.5", 1494.410, 131.856996, 1909),
            row("05", 1437.177, 124.645393, 1944),
            row("04", 1081.283, 89.731895, 2008),
            row("03", 1024.616, 82.527882, 2068),
            row("02", 821.322, 64.047763, 2098),
            row("01", 798.190, 60.625072, 2152),
            row("1", 768.612, 57.862651, 2163),
            row("2", 727.436, 54.149126, 2174),
            row("3", 690.817, 50.843498, 2185),
            row("4", 930.744, 70.101507, 2208),
            row("5", 818.208, 60.283574, 2230),
            row("6", 704.888, 49.715127, 2291),
            row("7", 739.845, 52.165185, 2307),
            row("8", 704.293, 48.024731, 2372),
            row("9", 764.832, 52.078425, 2403),
            row("10", 826.435, 56.298537, 2426),
            row("11", 1082.468, 75.454571, 2437),
            row("12", 1144.209, 79.108166, 2471));
}

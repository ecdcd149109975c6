package org.kilnside.heatwork;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.hipparchus.analysis.solvers.BracketingNthOrderBrentSolver;
import org.kilnside.firing.ConeSeries;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;

/**
 * The rate at which each cone of a series bends: A·exp(−E/(R·T)), two constants a cone. A cone is down when the
 * integral of the rate over time is 1.
 *
 * <p>The constants are fitted to "Temperature Equivalents for Pyrometric Cones", the wall chart of The Edward Orton Jr.
 * Ceramic Foundation (°C and °F editions, 2016 and earlier), at 15, 60 and 150 °C/h over the last 100 °C (small
 * cones: 300 °C/h). The fit is done again by a test, which also writes the residuals into docs/validation.md.
 * Neighbouring constants scatter because the chart is rounded; there is no meaning in a single one.
 */
public final class ConeTable {
    /** The gas constant, J/(mol·K), with the digits the constants were fitted with. */
    public static final double GAS_CONSTANT = 8.314;

    /** The rate at which a cone's temperature is named where no other is said: what the trade does. */
    public static final HeatingRate NAMED_AT = HeatingRate.ofKelvinPerHour(60);

    /** What lies so far below the end of a ramp counts for nothing, K. */
    static final double RAMP_BELOW_K = 400;

    private static final double LOWEST_C = 300;
    private static final double HIGHEST_C = 1700;

    private static final Map<ConeSeries, ConeTable> TABLES = new EnumMap<>(ConeSeries.class);

    static {
        for (ConeSeries series : ConeSeries.values()) {
            TABLES.put(series, new ConeTable(series, ConeConstants.of(series)));
        }
    }

    private final ConeSeries series;
    private final List<Cone> cones;
    private final List<Cone> whole;
    private final double[] activationK;
    private final double[] logRate;
    private final double[] printedC;

    /**
     * A table of these constants, softest first.
     *
     * @param constants one row a cone
     */
    ConeTable(ConeSeries series, List<Constants> constants) {
        this.series = series;
        this.cones = constants.stream().map(Constants::cone).toList();
        this.whole = cones.stream().filter(Cone::isWhole).toList();
        this.activationK = constants.stream()
                .mapToDouble(row -> row.activationKilojoulePerMol() * 1000 / GAS_CONSTANT)
                .toArray();
        this.logRate = constants.stream().mapToDouble(Constants::logRatePerS).toArray();
        this.printedC = constants.stream().mapToDouble(Constants::printedC).toArray();
    }

    /**
     * What the rate law of one cone is made of.
     *
     * @param cone which cone
     * @param activationKilojoulePerMol E in kJ/mol
     * @param logRatePerS ln A, A in 1/s
     * @param printedC the temperature the chart prints for it at the rate it is named at, °C
     */
    record Constants(Cone cone, double activationKilojoulePerMol, double logRatePerS, double printedC) {}

    public static ConeTable of(ConeSeries series) {
        return TABLES.get(series);
    }

    public ConeSeries series() {
        return series;
    }

    /** Every cone the series is made in, half ones included, softest first. */
    public List<Cone> cones() {
        return cones;
    }

    /** The whole cones of the series: the steps between which a firing is placed. */
    public List<Cone> wholeCones() {
        return whole;
    }

    /**
     * The temperature at which a cone of this series goes down when heated at a steady rate, by the rate law; within
     * 4 °C of the chart. Empty when the series does not have the cone.
     */
    public Optional<Temperature> temperature(Cone cone, HeatingRate rate) {
        int index = cones.indexOf(cone);
        return index < 0
                ? Optional.empty()
                : Optional.of(Temperature.ofCelsius(endsAtC(activationK[index], logRate[index], rate.kelvinPerHour())));
    }

    /**
     * The temperature by which a cone is named, as the chart prints it: at 60 °C/h, small cones at 300 °C/h. Empty when
     * the series does not have the cone.
     */
    public Optional<Temperature> temperature(Cone cone) {
        int index = cones.indexOf(cone);
        return index < 0 ? Optional.empty() : Optional.of(Temperature.ofCelsius(printedC[index]));
    }

    /** E/R in K of each of {@link #cones()}. */
    double activationK(int index) {
        return activationK[index];
    }

    /** ln A, A in 1/s, of each of {@link #cones()}. */
    double logRate(int index) {
        return logRate[index];
    }

    /** Where a steady ramp, in K/h, brings the integral of the rate to 1. */
    static double endsAtC(double activationK, double logRate, double kelvinPerHour) {
        return new BracketingNthOrderBrentSolver(1e-12, 1e-9, 5)
                .solve(
                        200,
                        celsius -> logRate + logRampIntegral(activationK, celsius, kelvinPerHour),
                        LOWEST_C,
                        HIGHEST_C);
    }

    /** ln ∫ exp(−E/(R·T)) dt over a ramp that ends at a temperature; what lies 400 °C below it counts for nothing. */
    static double logRampIntegral(double activationK, double endC, double kelvinPerHour) {
        double endK = endC + Temperature.ZERO_CELSIUS_K;
        int steps = 100;
        double stepK = RAMP_BELOW_K / steps;
        double sum = 0;
        for (int i = 0; i < steps; i++) {
            double middleK = endK - RAMP_BELOW_K + (i + 0.5) * stepK;
            for (int node = 0; node < 3; node++) {
                double atK = middleK + Bending.GAUSS_NODES[node] * stepK / 2;
                sum += Bending.GAUSS_WEIGHTS[node] / 2 * StrictMath.exp(activationK * (1 / endK - 1 / atK));
            }
        }
        double seconds = stepK / kelvinPerHour * 3600;
        return StrictMath.log(sum * seconds) - activationK / endK;
    }
}

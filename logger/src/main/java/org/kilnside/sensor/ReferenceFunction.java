package org.kilnside.sensor;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.kilnside.quantity.Temperature;

/**
 * The ITS-90 reference function of a letter-designated thermocouple, both ways: the emf in mV that a wire of the
 * standard's composition gives between its tip at t and a reference junction at 0 °C.
 *
 * <p>The way back is iterated on the function itself until less than 1e-9 °C is left. Where two pieces of the function
 * meet, the piece is chosen by the voltage at the join; the published pieces disagree there by up to 8e-8 mV, so that
 * within 2e-6 °C of a join the way there and back may differ by as much.
 *
 * <p>Source: NIST Monograph 175 (1993), NIST SRD 60; the same functions stand in IEC 60584-1 and ASTM E230. A real wire
 * may differ by its tolerance: the tolerance class of IEC 60584-1 says by how much.
 */
public final class ReferenceFunction {
    /** Half a unit of the last printed digit: a printed range end may lie this far outside the function's own. */
    private static final double PRINTED_HALF_UNIT_MV = 0.0005;

    /** Below 50 °C the emf of type B falls and rises again: two temperatures give the same voltage. */
    private static final double LOWEST_INVERTIBLE_B_C = 50;

    private static final double START_NODE_STEP_C = 2.5;

    private static final Map<ThermocoupleType, ReferenceFunction> FUNCTIONS = new EnumMap<>(ThermocoupleType.class);

    static {
        for (ThermocoupleType type : ThermocoupleType.values()) {
            FUNCTIONS.put(type, new ReferenceFunction(type));
        }
    }

    private final ThermocoupleType type;
    private final ReferencePiece[] pieces;
    private final InversePiece[] starts;
    private final double lowestC;
    private final double highestC;
    private final double lowestInvertibleC;
    private final double lowestInvertibleMv;
    private final double highestMv;
    private final double[] nodesMv;

    private ReferenceFunction(ThermocoupleType type) {
        this.type = type;
        List<ReferencePiece> all = ReferenceCoefficients.pieces(type);
        this.pieces = all.toArray(ReferencePiece[]::new);
        this.starts = InverseCoefficients.pieces(type).toArray(InversePiece[]::new);
        this.lowestC = pieces[0].lowestC();
        this.highestC = pieces[pieces.length - 1].highestC();
        this.lowestInvertibleC = type == ThermocoupleType.B ? LOWEST_INVERTIBLE_B_C : lowestC;
        this.lowestInvertibleMv = pieces[0].emfMv(lowestInvertibleC);
        this.highestMv = pieces[pieces.length - 1].emfAtHighestMv();
        this.nodesMv = nodesBelow(starts[0].lowestMv());
    }

    public static ReferenceFunction of(ThermocoupleType type) {
        return FUNCTIONS.get(type);
    }

    public ThermocoupleType type() {
        return type;
    }

    /** The coldest temperature the function is published for. */
    public Temperature lowest() {
        return Temperature.ofCelsius(lowestC);
    }

    /** The hottest temperature the function is published for. */
    public Temperature highest() {
        return Temperature.ofCelsius(highestC);
    }

    /** The coldest temperature a voltage can be turned back into: {@link #lowest()}, but 50 °C for type B. */
    public Temperature lowestInvertible() {
        return Temperature.ofCelsius(lowestInvertibleC);
    }

    /** The emf in mV of the coldest temperature a voltage can be turned back into. */
    public double lowestInvertibleMv() {
        return lowestInvertibleMv;
    }

    /** The emf in mV of the hottest temperature. */
    public double highestMv() {
        return highestMv;
    }

    /** Whether the function is published for this temperature, in °C. */
    public boolean covers(double temperatureC) {
        return temperatureC >= lowestC && temperatureC <= highestC;
    }

    /** Whether this emf, in mV, stands for one temperature of the function, the printed range ends included. */
    public boolean coversEmf(double emfMv) {
        return emfMv >= lowestInvertibleMv - PRINTED_HALF_UNIT_MV && emfMv <= highestMv + PRINTED_HALF_UNIT_MV;
    }

    /**
     * The emf in mV at a temperature in °C, reference junction at 0 °C.
     *
     * @throws IllegalArgumentException outside the function's range
     */
    public double emfMv(double temperatureC) {
        if (!covers(temperatureC)) {
            throw new IllegalArgumentException(String.format(
                    Locale.ROOT,
                    "type %s is defined from %.0f to %s °C, found %s °C",
                    type,
                    lowestC,
                    plain(highestC),
                    plain(temperatureC)));
        }
        return pieceAt(temperatureC).emfMv(temperatureC);
    }

    /**
     * How fast the emf grows, in mV/K, at a temperature in °C.
     *
     * @throws IllegalArgumentException outside the function's range
     */
    public double sensitivityMvPerK(double temperatureC) {
        if (!covers(temperatureC)) {
            emfMv(temperatureC);
        }
        return pieceAt(temperatureC).slopeMvPerK(temperatureC);
    }

    /**
     * The temperature in °C whose emf, in mV against 0 °C, this is. A voltage that lies outside the range by no more
     * than the rounding of the printed tables (0.0005 mV) gives the end of the range.
     *
     * @throws IllegalArgumentException outside {@link #lowestInvertibleMv()} … {@link #highestMv()}
     */
    public double temperatureC(double emfMv) {
        if (!coversEmf(emfMv)) {
            throw new IllegalArgumentException(String.format(
                    Locale.ROOT,
                    "type %s gives %.3f to %.3f mV (%.0f to %s °C), found %s mV",
                    type,
                    lowestInvertibleMv,
                    highestMv,
                    lowestInvertibleC,
                    plain(highestC),
                    plain(emfMv)));
        }
        if (emfMv <= lowestInvertibleMv) {
            return lowestInvertibleC;
        }
        if (emfMv >= highestMv) {
            return highestC;
        }
        return pieceGiving(emfMv).temperatureC(emfMv, startC(emfMv));
    }

    private ReferencePiece pieceAt(double temperatureC) {
        int i = 0;
        while (temperatureC > pieces[i].highestC()) {
            i++;
        }
        return pieces[i];
    }

    private ReferencePiece pieceGiving(double emfMv) {
        int i = 0;
        while (i < pieces.length - 1 && emfMv > pieces[i].emfAtHighestMv()) {
            i++;
        }
        return pieces[i];
    }

    /** A temperature close enough for Newton's method: the published inverse, or a table where none is published. */
    private double startC(double emfMv) {
        if (emfMv < starts[0].lowestMv()) {
            return startBelowPublishedC(emfMv);
        }
        int i = 0;
        while (i < starts.length - 1 && emfMv > starts[i].highestMv()) {
            i++;
        }
        return starts[i].temperatureC(emfMv);
    }

    private double[] nodesBelow(double emfMv) {
        int count = 1;
        while (pieces[0].emfMv(lowestInvertibleC + (count - 1) * START_NODE_STEP_C) < emfMv) {
            count++;
        }
        double[] nodes = new double[count];
        for (int i = 0; i < count; i++) {
            nodes[i] = pieces[0].emfMv(lowestInvertibleC + i * START_NODE_STEP_C);
        }
        return nodes;
    }

    private double startBelowPublishedC(double emfMv) {
        int below = 0;
        int above = nodesMv.length - 1;
        while (above - below > 1) {
            int middle = (below + above) >>> 1;
            if (nodesMv[middle] <= emfMv) {
                below = middle;
            } else {
                above = middle;
            }
        }
        double share = (emfMv - nodesMv[below]) / (nodesMv[above] - nodesMv[below]);
        return lowestInvertibleC + (below + share) * START_NODE_STEP_C;
    }

    private static String plain(double value) {
        if (!Double.isFinite(value) || Math.abs(value) > 1e9) {
            return Double.toString(value);
        }
        return BigDecimal.valueOf(value)
                .setScale(6, RoundingMode.HALF_EVEN)
                .stripTrailingZeros()
                .toPlainString();
    }
}

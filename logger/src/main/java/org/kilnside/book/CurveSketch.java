package org.kilnside.book;

import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.ConePosition;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.quantity.Temperature;

/**
 * A firing's curve as a list draws it: {@value #COLUMNS} columns of equal time with the highest temperature of each, so
 * that a peak is never lost; and the cone it came to. Immutable.
 */
public final class CurveSketch {
    public static final int COLUMNS = 96;

    private static final short NONE = Short.MIN_VALUE;

    private final long lengthMs;
    private final short[] highestC;
    private final Optional<Temperature> peak;
    private final Optional<Cone> cone;

    /**
     * What the firing came to.
     *
     * @param series the cones meant
     * @param position where on the scale of cones
     * @param top whether the top was seen
     */
    public record Cone(ConeSeries series, ConePosition position, ConeReached.Top top) {}

    CurveSketch(long lengthMs, short[] highestC, Optional<Temperature> peak, Optional<Cone> cone) {
        this.lengthMs = lengthMs;
        this.highestC = highestC;
        this.peak = peak;
        this.cone = cone;
    }

    /** The sketch of a curve whose false readings are left out. */
    static CurveSketch of(Trace curve, Optional<Cone> cone) {
        short[] columns = new short[COLUMNS];
        Arrays.fill(columns, NONE);
        double peakC = Double.NEGATIVE_INFINITY;
        long length = curve.isEmpty() ? 0 : Math.max(1, curve.elapsedMs(curve.size() - 1));
        for (int i = 0; i < curve.size(); i++) {
            long at = Math.max(0, curve.elapsedMs(i));
            int column = (int) Math.min(COLUMNS - 1, at * COLUMNS / length);
            double celsius = curve.temperatureC(i);
            peakC = Math.max(peakC, celsius);
            short rounded = (short) Math.max(-300, Math.min(3000, Math.round(celsius)));
            columns[column] = columns[column] == NONE ? rounded : (short) Math.max(columns[column], rounded);
        }
        return new CurveSketch(
                length, columns, curve.isEmpty() ? Optional.empty() : Optional.of(Temperature.ofCelsius(peakC)), cone);
    }

    static CurveSketch ofBytes(long lengthMs, byte[] bytes, Optional<Temperature> peak, Optional<Cone> cone) {
        short[] columns = new short[bytes.length / 2];
        ByteBuffer.wrap(bytes).asShortBuffer().get(columns);
        return new CurveSketch(lengthMs, columns, peak, cone);
    }

    byte[] bytes() {
        ByteBuffer bytes = ByteBuffer.allocate(highestC.length * 2);
        bytes.asShortBuffer().put(highestC);
        return bytes.array();
    }

    /** How many columns there are. */
    public int columns() {
        return highestC.length;
    }

    /** The highest temperature within a column, whole °C; empty where no reading lies in it. */
    public OptionalDouble highestC(int column) {
        return highestC[column] == NONE ? OptionalDouble.empty() : OptionalDouble.of(highestC[column]);
    }

    /** From the recording's zero to the last reading, ms. */
    public long lengthMs() {
        return lengthMs;
    }

    /** The highest temperature; empty without a good reading. */
    public Optional<Temperature> peak() {
        return peak;
    }

    /** The cone it came to; empty where there is no telling. */
    public Optional<Cone> cone() {
        return cone;
    }
}

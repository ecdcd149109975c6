package org.kilnside.review;

import java.util.OptionalDouble;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.sensor.SensorUncertainty;

/**
 * Which top would have brought a cone down in a kiln that climbed as it did: the firing that was seen, ended earlier. It
 * looks between what was seen and reckons nothing beyond, so that it may lie further away than a top is moved at once.
 */
final class TopForCone {
    /** Nobody keys in finer, K. */
    private static final double WITHIN_K = 0.2;

    /** Further below the top it came to, its last climb tells nothing. */
    private static final double FURTHEST_K = 150;

    private final ConeTable table;
    private final Shape real;
    private final Line fall;
    private final double offsetK;
    private final double holdS;

    /**
     * @param fall how it falls from a top, relative to it
     * @param offsetK by how much the ware was hotter than the sensor read
     * @param holdS the plan's hold at its top
     */
    TopForCone(ConeTable table, Shape real, Line fall, double offsetK, double holdS) {
        this.table = table;
        this.real = real;
        this.fall = fall;
        this.offsetK = offsetK;
        this.holdS = holdS;
    }

    /** The top that comes to so many whole cones above the softest, °C of the readings; empty where none below this one does. */
    OptionalDouble comingTo(double steps) {
        double tooLow = real.levelC() - FURTHEST_K;
        double tooHigh = real.levelC();
        if (stepsAt(tooLow) > steps || stepsAt(tooHigh) < steps) {
            return OptionalDouble.empty();
        }
        while (tooHigh - tooLow > WITHIN_K) {
            double middle = (tooLow + tooHigh) / 2;
            if (stepsAt(middle) < steps) {
                tooLow = middle;
            } else {
                tooHigh = middle;
            }
        }
        return OptionalDouble.of(tooHigh);
    }

    private double stepsAt(double topC) {
        double depthK = topC - real.levelC();
        Trace.Builder line = new Trace.Builder();
        double atS = add(line, 0, real.rise(), depthK);
        if (real.rise().celsius(real.rise().size() - 1) < depthK) {
            atS = add(line, atS, real.top(), depthK);
        }
        put(line, atS, topC);
        put(line, atS + holdS, topC);
        for (int i = 1; i < fall.size(); i++) {
            put(line, atS + holdS + fall.seconds(i) - fall.seconds(0), topC + fall.celsius(i));
        }
        return HeatWork.ofLine(table, line.view())
                .reached(SensorUncertainty.UNKNOWN)
                .cone()
                .steps()
                .orElse(0);
    }

    /** Adds what lies before it comes to a depth; says when that is. */
    private double add(Trace.Builder line, double fromS, Line part, double depthK) {
        for (int i = 0; i < part.size(); i++) {
            double atS = fromS + part.seconds(i) - part.seconds(0);
            if (part.celsius(i) >= depthK) {
                return atS;
            }
            put(line, atS, real.levelC() + part.celsius(i));
        }
        return fromS + part.lengthS();
    }

    private void put(Trace.Builder line, double atS, double readC) {
        line.add(Math.round(atS * 1000), readC + offsetK);
    }
}

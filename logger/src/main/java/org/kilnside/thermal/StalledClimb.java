package org.kilnside.thermal;

import java.util.Optional;
import java.util.OptionalDouble;
import org.hipparchus.analysis.UnivariateFunction;
import org.hipparchus.analysis.solvers.BrentSolver;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast.Remark;
import org.kilnside.thermal.Forecast.TopsOut;

/**
 * A kiln at its full output that comes ever slower nearer to where it tops out, below what its plan wants: it goes on as it
 * climbs now, by an exponential that is where the forecast has it after twelve hours.
 */
public final class StalledClimb {
    /** The top-out is the highest within this. */
    private static final double TOPS_OUT_WITHIN_S = 12 * 3600;

    /** Over so long its pace is taken. */
    private static final long PACE_MS = 1_800_000;

    private static final double FULL = 0.95;
    private static final int FEWEST = 10;
    private static final int CORNERS = 60;

    private final Trace curve;
    private final double nowC;
    private final double perS;
    private final TopsOut topsOut;

    private StalledClimb(Trace curve, double perS, TopsOut topsOut) {
        this.curve = curve;
        this.topsOut = topsOut;
        this.nowC = curve.temperatureC(curve.size() - 1);
        this.perS = perS;
    }

    /** How it goes on; empty where it does not stall, or nothing is known of its power. */
    public static Optional<StalledClimb> of(Trace curve, Forecast answer) {
        boolean full = isAtFullOutput(curve)
                || answer.remarks().stream()
                        .map(Remark::kind)
                        .anyMatch(kind -> kind == Remark.Kind.AT_ITS_LIMIT || kind == Remark.Kind.FULL_OUTPUT_GUESSED);
        Optional<TopsOut> topsOut = answer.arrival().flatMap(Forecast.Arrival::topsOut);
        return topsOut.filter(its -> full)
                .flatMap(its -> pace(curve).map(perS -> new StalledClimb(curve, Math.max(0, perS), its)));
    }

    /** The probable climb as corners, the first after now. */
    public Trace probable() {
        return towards(topsOut.at());
    }

    /** The same where it gets as hot as may be. */
    public Trace early() {
        return towards(topsOut.to());
    }

    /** The same where it stays as cold as may be. */
    public Trace late() {
        return towards(topsOut.from());
    }

    private static int from(Trace curve) {
        long nowMs = curve.elapsedMs(curve.size() - 1);
        return Math.max(0, curve.indexAt(Math.max(curve.elapsedMs(0), nowMs - PACE_MS)));
    }

    private static boolean isAtFullOutput(Trace curve) {
        double sum = 0;
        int told = 0;
        for (int i = from(curve); i < curve.size(); i++) {
            OptionalDouble output = curve.output(i);
            if (output.isPresent()) {
                sum += output.getAsDouble();
                told++;
            }
        }
        return told >= FEWEST && sum / told >= FULL;
    }

    /** The slope of the line through its newest readings, K/s. */
    private static Optional<Double> pace(Trace curve) {
        int from = from(curve);
        int count = curve.size() - from;
        if (count < FEWEST) {
            return Optional.empty();
        }
        double meanS = 0;
        double meanC = 0;
        for (int i = from; i < curve.size(); i++) {
            meanS += curve.elapsedMs(i) / 1000.0 / count;
            meanC += curve.temperatureC(i) / count;
        }
        double both = 0;
        double squares = 0;
        for (int i = from; i < curve.size(); i++) {
            double s = curve.elapsedMs(i) / 1000.0 - meanS;
            both += s * (curve.temperatureC(i) - meanC);
            squares += s * s;
        }
        return squares > 0 ? Optional.of(both / squares) : Optional.empty();
    }

    /** Corners of the climb that is at a temperature in twelve hours. */
    private Trace towards(Temperature top) {
        double risesK = Math.max(0, top.celsius() - nowC);
        double tauS = tau(risesK);
        Trace.Builder corners = new Trace.Builder();
        long nowMs = curve.elapsedMs(curve.size() - 1);
        for (int i = 1; i <= CORNERS; i++) {
            double s = TOPS_OUT_WITHIN_S * i / CORNERS;
            double share = -Math.expm1(-s / tauS) / -Math.expm1(-TOPS_OUT_WITHIN_S / tauS);
            corners.add(nowMs + Math.round(s * 1000), nowC + risesK * share);
        }
        return corners.view();
    }

    /** The time constant with which it begins at the pace of now; one that does not slow down has a very long one. */
    private double tau(double risesK) {
        double longest = 100 * TOPS_OUT_WITHIN_S;
        double shortest = 600;
        UnivariateFunction off = tau -> risesK / (tau * -Math.expm1(-TOPS_OUT_WITHIN_S / tau)) - perS;
        if (off.value(longest) >= 0) {
            return longest;
        }
        return off.value(shortest) <= 0 ? shortest : new BrentSolver(1).solve(200, off, shortest, longest);
    }
}

package org.kilnside.heatwork;

import org.kilnside.quantity.Temperature;

/**
 * How far every cone of a series has bent: the integral of its rate over the curve, and how that integral changes with
 * an error of the temperature. Grows segment by segment; a segment is a straight line between two readings.
 *
 * <p>{@link StrictMath} throughout, so that a replayed firing gives the live numbers bit for bit.
 */
final class Bending {
    /** Gauss–Legendre nodes and weights of order 3 on −1 … 1. */
    static final double[] GAUSS_NODES = {-0.774_596_669_241_483_4, 0, 0.774_596_669_241_483_4};

    static final double[] GAUSS_WEIGHTS = {5.0 / 9, 8.0 / 9, 5.0 / 9};

    /** A rate below exp(−18)/s = 1.5e-8/s bends a cone by a thousandth in a day. */
    private static final double NEGLIGIBLE_LOG_RATE = -18;

    /** Over so short a segment the rate is an exponential of time: its logarithm bends by less than 1e-4. */
    private static final double SHORT_SEGMENT_K = 4;

    private static final double GAUSS_PIECE_K = 25;

    /** Every so many short segments the rates are taken anew, so that nothing rounded on the way adds up. */
    private static final int TAKEN_ANEW_EVERY = 32;

    /** And after so large a change, as cones that stood still may have begun to bend. */
    private static final double TAKEN_ANEW_AFTER_K = 8;

    /** exp(5): a cone so far down, with the two above it down as well, bears on no answer any more. */
    private static final double FAR_DOWN = 148;

    private final ConeTable table;
    private final int cones;
    private final double[] activationK;
    private final double[] logRate;
    private final double[] work;
    private final double[] slope;
    private final double[] rateNow;
    private int first;
    private int end;
    private int shortSegments;
    private double takenAtK;

    Bending(ConeTable table) {
        this.table = table;
        this.cones = table.cones().size();
        this.activationK = new double[cones];
        this.logRate = new double[cones];
        for (int i = 0; i < cones; i++) {
            activationK[i] = table.activationK(i);
            logRate[i] = table.logRate(i);
        }
        this.work = new double[cones];
        this.slope = new double[cones];
        this.rateNow = new double[cones];
    }

    private Bending(Bending other) {
        this.table = other.table;
        this.cones = other.cones;
        this.activationK = other.activationK;
        this.logRate = other.logRate;
        this.work = other.work.clone();
        this.slope = other.slope.clone();
        this.rateNow = other.rateNow.clone();
        this.first = other.first;
        this.end = other.end;
        this.shortSegments = other.shortSegments;
        this.takenAtK = other.takenAtK;
    }

    Bending copy() {
        return new Bending(this);
    }

    /** The same without what the curve gave of late. */
    Bending without(Bending lately) {
        Bending before = copy();
        for (int i = 0; i < cones; i++) {
            before.work[i] = Math.max(0, work[i] - lately.work[i]);
            before.slope[i] = Math.max(0, slope[i] - lately.slope[i]);
        }
        return before;
    }

    ConeTable table() {
        return table;
    }

    /** The integral for a cone by its index in the table; 1 = down. */
    double work(int index) {
        return work[index];
    }

    /** The same of a curve that was hotter all along than read. */
    double work(int index, double shiftK) {
        return work[index] * StrictMath.exp(shiftK * slopePerK(index));
    }

    /** d ln(integral) / dT, 1/K: how much a steady error of the temperature would have changed it. */
    double slopePerK(int index) {
        return work[index] > 0 ? slope[index] / work[index] : 0;
    }

    /** The rate at a temperature, 1/s. */
    double ratePerS(int index, double celsius) {
        return rate(index, 1 / (celsius + Temperature.ZERO_CELSIUS_K));
    }

    /** Begins the curve, or begins it anew after a stretch that is not to count. */
    void startAt(double celsius) {
        takeRates(celsius + Temperature.ZERO_CELSIUS_K);
    }

    /** Takes all rates anew; cones from {@code end} on stand still. */
    private void takeRates(double atK) {
        double perK = 1 / atK;
        end = first;
        for (int i = first; i < cones; i++) {
            rateNow[i] = rate(i, perK);
            if (rateNow[i] > 0) {
                end = i + 1;
            }
        }
        takenAtK = atK;
        shortSegments = 0;
    }

    /** Adds a straight segment from where the curve is. */
    void add(double fromC, double toC, double seconds) {
        double fromK = fromC + Temperature.ZERO_CELSIUS_K;
        double toK = toC + Temperature.ZERO_CELSIUS_K;
        if (Math.abs(toC - fromC) <= SHORT_SEGMENT_K) {
            addShort(fromK, toK, seconds);
        } else {
            addLong(fromK, toK, seconds);
        }
        while (first < cones - 2 && work[first] > FAR_DOWN && work[first + 1] > 1 && work[first + 2] > 1) {
            first++;
        }
    }

    private double rate(int index, double perK) {
        double logarithm = logRate[index] - activationK[index] * perK;
        return logarithm < NEGLIGIBLE_LOG_RATE ? 0 : StrictMath.exp(logarithm);
    }

    /**
     * The mean of an exponential between its ends: f₀·(eˣ − 1)/x, x = ln(f₁/f₀). For the small x of readings a second
     * apart a short series gives it to 1e-9, and no exponential is taken at all.
     */
    private void addShort(double fromK, double toK, double seconds) {
        double perFromK = 1 / fromK;
        double perToK = 1 / toK;
        double perMiddleSquared = perFromK * perToK;
        double perKFallen = perFromK - perToK;
        for (int i = first; i < end; i++) {
            double before = rateNow[i];
            double x = activationK[i] * perKFallen;
            double mean;
            if (x < 0.1 && x > -0.1) {
                double relative = 1 + x * (1.0 / 2 + x * (1.0 / 6 + x * (1.0 / 24 + x * (1.0 / 120 + x / 720))));
                mean = before * relative;
                rateNow[i] = before + mean * x;
            } else {
                double after = before * StrictMath.exp(x);
                mean = (after - before) / x;
                rateNow[i] = after;
            }
            double added = mean * seconds;
            work[i] += added;
            slope[i] += added * activationK[i] * perMiddleSquared;
        }
        shortSegments++;
        if (shortSegments >= TAKEN_ANEW_EVERY || Math.abs(toK - takenAtK) > TAKEN_ANEW_AFTER_K) {
            takeRates(toK);
        }
    }

    private void addLong(double fromK, double toK, double seconds) {
        int pieces = (int) Math.ceil(Math.abs(toK - fromK) / GAUSS_PIECE_K);
        double pieceK = (toK - fromK) / pieces;
        double pieceS = seconds / pieces;
        for (int piece = 0; piece < pieces; piece++) {
            double middleK = fromK + (piece + 0.5) * pieceK;
            for (int node = 0; node < 3; node++) {
                double perK = 1 / (middleK + GAUSS_NODES[node] * pieceK / 2);
                double weightS = GAUSS_WEIGHTS[node] / 2 * pieceS;
                for (int i = first; i < cones; i++) {
                    double added = rate(i, perK) * weightS;
                    work[i] += added;
                    slope[i] += added * activationK[i] * perK * perK;
                }
            }
        }
        takeRates(toK);
    }
}

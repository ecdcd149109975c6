package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;

/**
 * The model laid over one firing: most probable parameters given the cooling seen so far and, where the output is
 * known, the power the heating took. While the elements are on the measured temperature drives the wall; in every span
 * without power the chamber runs free from its beginning and is held against the curve.
 */
final class FiringFit implements LeastSquares.Residuals {
    /** One step of the difference quotients, in prior spreads. */
    private static final double STEP = 1e-3;

    private static final double TOLERANCE = 2e-3;
    private static final int MOST_EVALUATIONS = 120;

    /** After so many steps a kind of wall that is this far behind the best one's logarithm of evidence is given up. */
    private static final int FIRST_STEPS = 10;

    private static final double HOPELESS = 15;

    /** A kind of wall this improbable is not fitted again. */
    private static final double HARDLY_POSSIBLE = 0.01;

    /** The first step is no longer than one prior spread. */
    private static final double LONGEST_STEP = 1;

    /** The mean square taken where there is no free span to hold a fit against: a bad one of those there are. */
    private static final double UNSEEN_MISFIT = 0.3;

    /** What of a sensor's noise counts as misfit, as ever since the widths were set: that of a mean of so many readings. */
    private static final double SMOOTHED_READINGS = 11;

    /**
     * A fit that ends further from the prior's middle than nearly any kiln does, squared, may have gone down the wrong valley:
     * walls much thicker or thinner than usual are then tried as well.
     */
    private static final double STRAYED = 20;

    private static final double[] OTHER_WALLS = {2, -2};

    private static final double HOT_C = 850;
    private static final double SOON_S = 3600;
    private static final double STRANGE_SOON = 4;
    private static final double STRANGE = 30;
    private static final double SETTLED_S = 1500;
    private static final double MISSED_SOON = 4;
    private static final double MISSED = 0.9;

    /** How finely the model is reckoned; most of a search's way is gone at a quarter of the cost or less. */
    private enum Grain {
        ROUGH(WallSlab.USUAL_CELLS / 2, 3 * WallSlab.DRIVEN_STEP_S, WallSlab.COASTING_STEP_S),
        FINE(WallSlab.USUAL_CELLS, 0, WallSlab.COASTING_STEP_S / 2);

        private final int cells;
        private final double drivenStepS;
        private final double coastingStepS;

        Grain(int cells, double drivenStepS, double coastingStepS) {
            this.cells = cells;
            this.drivenStepS = drivenStepS;
            this.coastingStepS = coastingStepS;
        }
    }

    private final FiringData data;
    private final Prior prior;
    private final Grain grain;
    private final DrivenWalls driven;
    private final WallSlab branch;
    private final Map<Fall, double[]> falls = new Newest<>(DrivenWalls.KEPT);
    private final Map<Draught, double[]> draughts = new Newest<>(DrivenWalls.KEPT);

    private FiringFit(FiringData data, WallKind kind, Prior prior, Grain grain) {
        this.data = data;
        this.prior = prior;
        this.grain = grain;
        driven = new DrivenWalls(data, kind.shape(), grain.cells, grain.drivenStepS);
        branch = new WallSlab(kind.shape(), grain.cells);
    }

    /** What is made small for one kind of wall, as a function of the prior's numbers. */
    static LeastSquares.Residuals residuals(FiringData data, WallKind kind) {
        return new FiringFit(data, kind, data.prior(kind), Grain.FINE);
    }

    /** Looks for the least sum of squares from the prior's middle. */
    static LeastSquares.Solution search(LeastSquares.Residuals residuals, int size) {
        return LeastSquares.solveInBall(residuals, new double[size], STEP, TOLERANCE, MOST_EVALUATIONS, LONGEST_STEP);
    }

    /**
     * Whether no kiln left alone falls like this: the walls must be stretched further than any needs (mean square of the
     * distance from the prior's middle, in its spreads), or however stretched they do not draw such a curve. In the first hour above
     * 850 °C 1,300 questions to trial kilns had 3.5 at most, but for five asked two minutes after their top, ramps led down at 60 to
     * 110 K/h 4.2 and more; later a cooling tells more of its kiln and lies further off, 15.6 at most,
     * and 16 to 28 what somebody drew as an exponential of two to fourteen hours. Of 1,440 free curves none was missed
     * by more than 2.8 ten minutes after the elements went off and 0.7 from half an hour on; ramps after a hold by 0.8 in the median.
     */
    static boolean noKilnIsLike(List<Weighted> fits, FiringData data) {
        double square = 0;
        for (Weighted each : fits) {
            square += each.weight() * squaredDistance(each.fit().solution().parameters());
        }
        boolean hot = data.nowC > HOT_C;
        if (square > (hot && data.leftAloneForS() < SOON_S ? STRANGE_SOON : STRANGE)) {
            return true;
        }
        return hot && misfit(fits.get(0).fit()).cooling() > (data.leftAloneForS() < SETTLED_S ? MISSED_SOON : MISSED);
    }

    /** From the prior's middle, in its spreads. */
    private static double squaredDistance(double[] z) {
        double square = 0;
        for (int p = 0; p < Prior.BASIC; p++) {
            square += z[p] * z[p];
        }
        return square;
    }

    /** Mean squares of what the free spans, and the output, are off by where a fit ended. */
    static Misfit misfit(FittedKiln fit) {
        double[] residual = new FiringFit(fit.data(), fit.kind(), fit.prior(), Grain.FINE)
                .at(fit.solution().parameters());
        int stretches = fit.data().powered.size();
        int points = fit.data().observations() - stretches;
        return new Misfit(
                points == 0 ? UNSEEN_MISFIT : modelsPart(fit.data(), residual) / points,
                stretches == 0
                        ? OptionalDouble.empty()
                        : OptionalDouble.of(sumOfSquares(residual, points, points + stretches) / stretches));
    }

    /** What of the free spans' squares the sensor's noise does not explain, in units of what the model may be off by. */
    private static double modelsPart(FiringData data, double[] residual) {
        double sum = 0;
        int next = 0;
        for (FiringData.FreeSpan span : data.free) {
            for (int i = 0; i < span.timeS().length; i++) {
                double square = span.modelK()[i] * span.modelK()[i];
                double noise = span.noiseSquare(i);
                double left = Math.min(noise, span.readingK() * span.readingK() / SMOOTHED_READINGS);
                double off = residual[next++];
                sum += (off * off * (square + noise) - noise + left) / square;
            }
        }
        return Math.max(0, sum);
    }

    private static double sumOfSquares(double[] residual, int from, int to) {
        double sum = 0;
        for (int i = from; i < to; i++) {
            sum += residual[i] * residual[i];
        }
        return sum;
    }

    /** How far a fit lies from what it was held against, as mean squares in units of what the model may be off by. */
    record Misfit(double cooling, OptionalDouble output) {}

    /** Fits one kind of wall. */
    static FittedKiln fit(FiringData data, WallKind kind) {
        return fit(data, kind, data.prior(kind));
    }

    /** Fits one kind of wall with another prior than its own. */
    static FittedKiln fit(FiringData data, WallKind kind, Prior prior) {
        FiringFit first = new FiringFit(data, kind, prior, firstGrain(data));
        LeastSquares.Solution found = search(first, prior.size());
        if (squaredDistance(found.parameters()) > STRAYED) {
            for (double away : OTHER_WALLS) {
                double[] from = new double[prior.size()];
                from[Prior.TAU] = away;
                LeastSquares.Solution other = first.searchFrom(from, MOST_EVALUATIONS);
                found = other.sumOfSquares() < found.sumOfSquares() ? other : found;
            }
        }
        return first.fine(kind, found);
    }

    /** The few stretches of a climb are found in a few steps: there is no way to go roughly first. */
    private static Grain firstGrain(FiringData data) {
        return data.free.isEmpty() ? Grain.FINE : Grain.ROUGH;
    }

    private FittedKiln fine(WallKind kind, LeastSquares.Solution found) {
        return grain == Grain.FINE ? fitted(kind, found) : fitFrom(data, kind, prior, found.parameters());
    }

    /** Fits one kind of wall from where it is nearly reached. */
    private static FittedKiln fitFrom(FiringData data, WallKind kind, Prior prior, double[] from) {
        FiringFit fine = new FiringFit(data, kind, prior, Grain.FINE);
        return fine.fitted(kind, fine.searchFrom(from, MOST_EVALUATIONS));
    }

    private LeastSquares.Solution searchFrom(double[] from, int most) {
        return LeastSquares.solveInBall(this, from, STEP, TOLERANCE, most, LONGEST_STEP);
    }

    private FittedKiln fitted(WallKind kind, LeastSquares.Solution solution) {
        return new FittedKiln(data, kind, prior, solution, evidence(solution));
    }

    /** Fits one kind of wall, as far as it is worth it beside one whose evidence and prior weight are known. */
    private static FittedKiln fitBeside(FiringData data, WallKind kind, double logWeight, double best) {
        Prior prior = data.prior(kind);
        FiringFit first = new FiringFit(data, kind, prior, firstGrain(data));
        LeastSquares.Solution begun = first.searchFrom(new double[prior.size()], FIRST_STEPS);
        FittedKiln soFar = first.fitted(kind, begun);
        if (soFar.evidence() + logWeight < best - HOPELESS) {
            return soFar;
        }
        if (!begun.converged()) {
            begun = first.searchFrom(begun.parameters(), MOST_EVALUATIONS);
        }
        return first.fine(kind, begun);
    }

    /**
     * Logarithm of the probability of the data under this kind of wall, by Laplace's approximation. Neighbouring
     * residuals are correlated, so the sum of squares counts as if there were {@link FiringData#INDEPENDENT} of them.
     * Bound water cannot be less than none, and fits often end where there just is none: what is known of it then is all
     * or nothing from one minute to the next and says nothing of the wall.
     */
    private double evidence(LeastSquares.Solution solution) {
        double[][] covariance = prior.withoutBoundWater(solution.covariance());
        double logDeterminant = Math.log(Math.max(
                1e-300,
                new org.hipparchus.linear.LUDecomposition(
                                new org.hipparchus.linear.Array2DRowRealMatrix(covariance, false))
                        .getDeterminant()));
        int observations = data.observations();
        double weight = observations == 0 ? 1 : Math.min(1, FiringData.INDEPENDENT / (double) observations);
        return -0.5 * weight * solution.sumOfSquares() + 0.5 * logDeterminant;
    }

    @Override
    public double[] at(double[] z) {
        double[] residual = new double[data.observations() + z.length];
        KilnParameters kiln = prior.kiln(z);
        // Elements that are off tell nothing of their strength.
        Fall fall = new Fall(kiln.withPsiC(0), prior.soaked(z), prior.openedTimes(z));
        double[] off = falls.computeIfAbsent(fall, this::runFree);
        System.arraycopy(off, 0, residual, 0, off.length);
        DrivenWalls.Run run = driven.run(kiln, fall.soaked());
        int next = power(run, kiln, prior.strengthLeft(z), residual, off.length);
        System.arraycopy(z, 0, residual, next, z.length);
        return residual;
    }

    /** All that free spans depend on. */
    private record Fall(KilnParameters kiln, double soaked, double openedTimes) {}

    /** What all free spans are off by. */
    private double[] runFree(Fall fall) {
        double[] off = new double[data.observations() - data.powered.size()];
        DrivenWalls.Run run = driven.run(fall.kiln(), fall.soaked());
        int next = 0;
        for (int span = 0; span < data.free.size(); span++) {
            next = runFree(run.begins(span), data.free.get(span), fall.kiln(), fall.openedTimes(), off, next);
        }
        return off;
    }

    private int runFree(
            WallSlab begins,
            FiringData.FreeSpan span,
            KilnParameters kiln,
            double openedTimes,
            double[] residual,
            int next) {
        branch.startLike(begins);
        branch.use(span.opened() ? kiln.withLambda(kiln.lambda() * openedTimes) : kiln);
        double time = data.driveS[span.beginsAt()];
        int at = next;
        for (int i = 0; i < span.timeS().length; i++) {
            double gap = span.timeS()[i] - time;
            int steps = (int) Math.max(1, Math.ceil(gap / grain.coastingStepS));
            for (int k = 0; k < steps; k++) {
                branch.coast(gap / steps);
            }
            time = span.timeS()[i];
            residual[at++] = (branch.chamberC() - span.temperatureC()[i])
                    / Math.sqrt(span.modelK()[i] * span.modelK()[i] + span.noiseSquare(i));
        }
        return at;
    }

    /** Over each stretch of heating: what the load took, the wall took and the leak lost, against the output. */
    private int power(DrivenWalls.Run run, KilnParameters kiln, double strengthLeft, double[] residual, int next) {
        double[] lost =
                draughts.computeIfAbsent(new Draught(kiln.leakExponent(), kiln.ambientC()), this::lostByALeakOfOne);
        for (int i = 0; i < lost.length; i++) {
            FiringData.Powered stretch = data.powered.get(i);
            double heat = run.taken(stretch.to()) - run.taken(stretch.from());
            double seconds = data.driveS[stretch.to()] - data.driveS[stretch.from()];
            double psiC = kiln.psiC() * (data.afterPowerStep(stretch) ? strengthLeft : 1);
            double output = (heat * kiln.tauS() + kiln.lambda() * lost[i]) / seconds / psiC;
            residual[next + i] = (output - stretch.output()) / stretch.sigma();
        }
        return next + lost.length;
    }

    /** All that a leak's loss in a measured curve depends on, but for its size. */
    private record Draught(double exponent, double ambientC) {}

    private double[] lostByALeakOfOne(Draught draught) {
        double[] lost = new double[data.powered.size()];
        for (int s = 0; s < lost.length; s++) {
            FiringData.Powered stretch = data.powered.get(s);
            for (int i = stretch.from() + 1; i <= stretch.to(); i++) {
                double aboveK = (data.driveC[i] + data.driveC[i - 1]) / 2 - draught.ambientC();
                lost[s] += KilnParameters.draught(draught.exponent(), aboveK)
                        * aboveK
                        * (data.driveS[i] - data.driveS[i - 1]);
            }
        }
        return lost;
    }

    /**
     * Fits other data of the same firing, from where fits of it ended: most of the way is gone.
     *
     * @param before kinds of wall that are hardly possible are left out
     * @param priorWeights how probable each kind was before any data
     */
    static List<Weighted> again(List<Weighted> before, FiringData data, Map<WallKind, Double> priorWeights) {
        List<FittedKiln> fits = new ArrayList<>();
        List<Double> log = new ArrayList<>();
        for (Weighted each : before) {
            if (each.weight() > HARDLY_POSSIBLE) {
                FittedKiln known = each.fit();
                Prior prior = data.prior(known.kind());
                double[] from = prior.like(known.prior(), known.solution().parameters());
                FittedKiln found = fitFrom(data, known.kind(), prior, from);
                fits.add(found);
                log.add(found.evidence() + Math.log(priorWeights.get(known.kind())));
            }
        }
        return weighted(fits, log.stream().mapToDouble(Double::doubleValue).toArray());
    }

    /** All kinds of wall that may be, most probable first; their weights sum to one. */
    static List<Weighted> all(FiringData data, List<WallKind> kinds, double[] priorWeights) {
        List<FittedKiln> fits = new ArrayList<>();
        double best = Double.NEGATIVE_INFINITY;
        double[] log = new double[kinds.size()];
        for (int i = 0; i < kinds.size(); i++) {
            double logWeight = Math.log(priorWeights[i]);
            FittedKiln fit = i == 0 ? fit(data, kinds.get(i)) : fitBeside(data, kinds.get(i), logWeight, best);
            fits.add(fit);
            log[i] = fit.evidence() + logWeight;
            best = Math.max(best, log[i]);
        }
        return weighted(fits, log);
    }

    /** Fits of one firing, most probable first; their weights sum to one. */
    static List<Weighted> weighted(List<FittedKiln> fits, double[] log) {
        double best = Arrays.stream(log).max().orElseThrow();
        double sum = 0;
        for (double each : log) {
            sum += Math.exp(each - best);
        }
        List<Weighted> weighted = new ArrayList<>();
        for (int i = 0; i < fits.size(); i++) {
            weighted.add(new Weighted(fits.get(i), Math.exp(log[i] - best) / sum));
        }
        weighted.sort((a, b) -> Double.compare(b.weight(), a.weight()));
        return weighted;
    }

    /** A fit and the probability of its kind of wall. */
    record Weighted(FittedKiln fit, double weight) {}
}

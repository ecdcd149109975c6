package org.kilnside.thermal;

/**
 * Output taken against output needed along a course: the measured curve drives the wall, and what wall, load and leak
 * took of it, over the elements' full power, is what the kiln needed.
 */
final class HeatBalance {
    private final FiringData data;
    private final double psiC;
    private final double tauS;
    private final double[] needed;
    private final double[] seconds;
    private final double[] taken;
    private final double[] told;

    private HeatBalance(FiringData data, KilnParameters kiln) {
        this.data = data;
        psiC = kiln.psiC();
        tauS = kiln.tauS();
        needed = new double[data.driveS.length];
        seconds = new double[data.driveS.length];
        taken = new double[data.driveS.length];
        told = new double[data.driveS.length];
    }

    /** The balance of a course in a kiln of these numbers; ψ must be among them. */
    static HeatBalance of(FiringData data, FittedKiln fit) {
        double[] z = fit.solution().parameters();
        KilnParameters kiln = fit.prior().kiln(z);
        HeatBalance balance = new HeatBalance(data, kiln);
        WallSlab slab = new WallSlab(fit.kind().shape(), WallSlab.USUAL_CELLS);
        data.start(slab, kiln, data.startsWarm ? 0.6 : 0);
        Course course = data.course;
        double held = slab.loadHolds(0);
        for (int i = 1; i < data.driveS.length; i++) {
            double step = data.driveS[i] - data.driveS[i - 1];
            slab.drive(step, data.driveC[i]);
            double before = held;
            held = slab.intoWall() + slab.loadHolds(0);
            double middle = (data.driveC[i] + data.driveC[i - 1]) / 2;
            double leak = kiln.leakAt(middle) * (middle - kiln.ambientC()) * step;
            // A gap counts neither for what was taken nor for what was needed.
            boolean seen = !course.overlapsGap(data.driveS[i - 1], data.driveS[i]);
            balance.needed[i] = balance.needed[i - 1] + (seen ? (held - before) * balance.tauS + leak : 0);
            balance.seconds[i] = balance.seconds[i - 1] + (seen ? step : 0);
            double mean = course.meanOutput(data.driveS[i - 1], data.driveS[i]);
            boolean known = seen && !Double.isNaN(mean);
            balance.taken[i] = balance.taken[i - 1] + (known ? mean * step : 0);
            balance.told[i] = balance.told[i - 1] + (known ? step : 0);
        }
        return balance;
    }

    private int node(double seconds) {
        int found = java.util.Arrays.binarySearch(data.driveS, seconds);
        return Math.max(0, found >= 0 ? found : -found - 2);
    }

    /** Mean output over a stretch; NaN where the controller told it for less than half of it. */
    double taken(double fromS, double toS) {
        int from = node(fromS);
        int to = node(toS);
        double known = told[to] - told[from];
        double all = data.driveS[to] - data.driveS[from];
        return all <= 0 || known < all / 2 ? Double.NaN : (taken[to] - taken[from]) / known;
    }

    /** The output the kiln needed over what was recorded of a stretch; NaN for a stretch of no length. */
    double needed(double fromS, double toS) {
        int from = node(fromS);
        int to = node(toS);
        double whole = seconds[to] - seconds[from];
        return whole <= 0 ? Double.NaN : (needed[to] - needed[from]) / whole / psiC;
    }

    /** Taken over needed, the latter at least a fiftieth of full output; NaN where the output is not told. */
    double ratio(double fromS, double toS) {
        return taken(fromS, toS) / Math.max(0.02, needed(fromS, toS));
    }

    /** Standard error of the difference between the mean ratios of forty minutes before a moment and of what came after it. */
    double ratioError(double sinceS, double toS) {
        int since = node(sinceS);
        int to = node(toS);
        int from = Math.max(0, node(sinceS - 2400));
        double variance = (scatter(from, since) + scatter(since, to)) / 2;
        return Math.sqrt(variance * (1.0 / Math.max(1, since - from) + 1.0 / Math.max(1, to - since)));
    }

    private double scatter(int from, int to) {
        double sum = 0;
        double squares = 0;
        int count = to - from;
        for (int i = from; i < to; i++) {
            double ratio = ratio(data.driveS[i], data.driveS[i + 1]);
            sum += ratio;
            squares += ratio * ratio;
        }
        return count < 2 ? 0 : Math.max(0, squares - sum * sum / count) / (count - 1);
    }
}

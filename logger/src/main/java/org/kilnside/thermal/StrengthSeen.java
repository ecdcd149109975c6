package org.kilnside.thermal;

import java.util.List;
import java.util.Optional;

/**
 * The hottest stretches of an earlier firing whose output was told: how strong the elements must be for it to have gone as
 * it did. Wall, load and leak trade with power along the whole of a firing; what matters for the next top is that they
 * agree near the last one.
 */
final class StrengthSeen {
    /** So far below the highest temperature a firing still tells of its top, K. */
    private static final double NEAR_TOP_K = 150;

    /** A firing as hot as the hottest, within this, tells as much, and the newer the better, K. */
    private static final double AS_HOT_K = 60;

    private final FittedKiln fit;
    private final double fromC;

    private StrengthSeen(FittedKiln fit) {
        this.fit = fit;
        fromC = hottestC(fit) - NEAR_TOP_K;
    }

    /** The newest of the hottest firings that told their output; empty where none did. */
    static Optional<StrengthSeen> of(List<FittedKiln> earlier) {
        List<FittedKiln> told =
                earlier.stream().filter(each -> each.prior().hasPower()).toList();
        double hottestC =
                told.stream().mapToDouble(StrengthSeen::hottestC).max().orElse(0);
        return told.stream()
                .filter(each -> hottestC(each) > hottestC - AS_HOT_K)
                .reduce((older, newer) -> newer)
                .map(StrengthSeen::new);
    }

    private static double hottestC(FittedKiln fit) {
        return fit.data().powered.stream()
                .mapToDouble(each -> fit.data().driveC[each.to()])
                .max()
                .orElse(0);
    }

    /** ψ of a kiln with these walls and this leak that would have done with the output told what that firing did. */
    double psiC(KilnParameters wall, WallKind kind) {
        FiringData data = fit.data();
        KilnParameters kiln =
                wall.withPhi(fit.kiln().phi()).withAmbientC(fit.kiln().ambientC());
        WallSlab slab = new WallSlab(kind.shape(), WallSlab.USUAL_CELLS);
        data.start(slab, kiln, fit.prior().soaked(fit.solution().parameters()));
        double needed = 0;
        double told = 0;
        int at = 0;
        for (FiringData.Powered stretch : data.powered) {
            double held = 0;
            for (; at < stretch.to(); at++) {
                if (at == stretch.from()) {
                    held = slab.intoWall() + slab.loadHolds(0);
                }
                double step = data.driveS[at + 1] - data.driveS[at];
                slab.drive(step, data.driveC[at + 1]);
                double middleC = (data.driveC[at + 1] + data.driveC[at]) / 2;
                if (at >= stretch.from() && data.driveC[stretch.to()] > fromC) {
                    needed += kiln.leakAt(middleC) * (middleC - kiln.ambientC()) * step / stretch.sigma();
                }
            }
            if (data.driveC[stretch.to()] > fromC) {
                double heat = slab.intoWall() + slab.loadHolds(0) - held;
                needed += heat * kiln.tauS() / stretch.sigma();
                told += stretch.output() * (data.driveS[stretch.to()] - data.driveS[stretch.from()]) / stretch.sigma();
            }
        }
        return needed / told;
    }
}

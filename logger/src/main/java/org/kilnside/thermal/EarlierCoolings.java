package org.kilnside.thermal;

import java.util.List;
import java.util.Optional;

/**
 * A kiln that still heats and was seen to cool before: wall, leak and shell are those of its earlier firings, and what
 * this climb tells is how much it holds today. Without them a climb says little of the cooling after it.
 */
final class EarlierCoolings {
    private EarlierCoolings() {}

    /**
     * The fit for the cooling asked on the way up.
     *
     * @return empty where no earlier firing of the kiln was seen to cool
     */
    static Optional<List<FiringFit.Weighted>> fit(KilnMemory memory, FiringData climb) {
        List<FittedKiln> cooled = memory.kilns().stream()
                .filter(each -> !each.data().free.isEmpty())
                .toList();
        if (cooled.isEmpty()) {
            return Optional.empty();
        }
        WallKind kind = cooled.get(cooled.size() - 1).kind();
        List<FittedKiln> alike =
                cooled.stream().filter(each -> each.kind() == kind).toList();
        double[] middle = new double[Prior.BASIC];
        for (FittedKiln each : alike) {
            for (int p = 0; p < Prior.BASIC; p++) {
                middle[p] += each.solution().parameters()[p] / alike.size();
            }
        }
        double logPhi = alike.stream()
                .mapToDouble(each -> Math.log(each.kiln().phi()))
                .average()
                .orElseThrow();
        Prior known = climb.prior(kind).pinned(middle).loadedAsBefore(logPhi);
        FittedKiln fit = FiringFit.fit(climb, kind, known);
        return Optional.of(List.of(new FiringFit.Weighted(fit, 1)));
    }
}

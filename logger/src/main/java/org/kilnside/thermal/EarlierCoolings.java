package org.kilnside.thermal;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A kiln that still heats and was seen to cool before: wall, leak and shell are those of its earlier firings, and what
 * this climb tells is how much it holds today. Without them a climb says little of the cooling after it.
 *
 * <p>A climb tells of its load by the heat it took, and its output tells of that only as far as it is known how strong the elements
 * are: strong elements with a heavy load and weak ones with a light load climb alike. Left open, the strength came out a quarter too low
 * and the load a third too light. The earlier climbs tell it, of which the loads are known from the coolings after them, and up to the
 * same temperature: what the model has not got of a climb is then the same in both.
 */
final class EarlierCoolings {
    /** So many earlier climbs, the newest, tell how strong the elements are: they wear. */
    private static final int STRONG_AS_LATELY = 3;

    /**
     * Where no earlier firing told its output, what this climb's tells of its load counts so many times less: times to 200 °C asked
     * at 900 °C 13 / 28 -> 7 / 14 % (48 virtual kilns).
     */
    private static final double STRENGTH_UNSEEN = 6;

    /** How probable it is that the elements are others than before, or have lost some of their strength. */
    private static final double ELEMENTS_CHANGED = 0.05;

    private EarlierCoolings() {}

    /**
     * The fits for the cooling asked on the way up.
     *
     * @param scale how wide what they say is told
     */
    record Today(List<FiringFit.Weighted> fits, ConformalScale.AfterHeating scale) {}

    /**
     * Fits a climb.
     *
     * @return empty where no earlier firing of the kiln was seen to cool
     */
    static Optional<Today> fit(KilnMemory memory, FiringData climb) {
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
        Optional<FiringData> told = climb.forItsLoad();
        OptionalDouble logPsi = told.isEmpty() ? OptionalDouble.empty() : logPsi(alike, middle, climb.nowC);
        if (logPsi.isEmpty()) {
            FiringData unsure = told.map(data -> data.lessSure(STRENGTH_UNSEEN)).orElse(climb);
            Prior known = unsure.prior(kind).pinned(middle).loadedAsBefore(logPhi);
            FittedKiln fit = FiringFit.fit(unsure, kind, known);
            return Optional.of(
                    new Today(List.of(new FiringFit.Weighted(fit, 1)), ConformalScale.AfterHeating.REMEMBERED));
        }
        FiringData data = told.get();
        Prior known = data.prior(kind).pinned(middle).loadedAsBefore(logPhi);
        FittedKiln asBefore = FiringFit.fit(data, kind, known.strongAsBefore(logPsi.getAsDouble()));
        FittedKiln changed = FiringFit.fit(data, kind, known.perhapsStrongAsBefore(logPsi.getAsDouble()));
        List<FiringFit.Weighted> fits = FiringFit.weighted(List.of(asBefore, changed), new double[] {
            asBefore.evidence() + Math.log(1 - ELEMENTS_CHANGED), changed.evidence() + Math.log(ELEMENTS_CHANGED)
        });
        return Optional.of(new Today(fits, ConformalScale.AfterHeating.STRENGTH_REMEMBERED));
    }

    /** ln ψ with which earlier firings climbed as they did, up to a temperature; empty where none told its output. */
    private static OptionalDouble logPsi(List<FittedKiln> alike, double[] middle, double untilC) {
        List<FittedKiln> told =
                alike.stream().filter(each -> each.prior().hasPower()).toList();
        return told.subList(Math.max(0, told.size() - STRONG_AS_LATELY), told.size()).stream()
                .flatMap(each -> each.data().climbUntil(untilC).flatMap(FiringData::forItsLoad).stream()
                        .map(climb -> {
                            Prior known = climb.prior(each.kind())
                                    .pinned(middle)
                                    .loadedAsSeen(Math.log(each.kiln().phi()));
                            return FiringFit.fit(climb, each.kind(), known);
                        }))
                .mapToDouble(fit -> Math.log(fit.kiln().psiC()))
                .average();
    }
}

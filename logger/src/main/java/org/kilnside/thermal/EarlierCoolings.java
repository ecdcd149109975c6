package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A kiln that still heats and was seen to cool before: wall, leak and shell are those of its earlier firings, and what
 * this climb tells is how much it holds today. Without them a climb says little of the cooling after it.
 *
 * <p>A climb tells of its load by the heat it took, and its output tells of that only as far as it is known how strong the elements
 * are: strong elements with a heavy load and weak ones with a light load climb alike. Left open, the strength came out a quarter too low
 * and the load a third too light. The earlier climbs tell it, of which the loads are known from the coolings after them, and up to the
 * same temperature: what the model has not got of a climb is then the same in both. Whether the elements are others today is told
 * likewise: by how much more this climb leaves their strength open to than the earlier ones do, each left as open.
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
    private static final double ELEMENTS_CHANGED = 0.2;

    /**
     * How far the change of ln ψ comes out from the true one, a standard deviation: 0.1 about -0.02, -0.27 and +0.25 where it was
     * none, ln 0.75 and ln 1.33 (the seventh outside simulator, asked at 500 and 900 °C).
     */
    private static final double CHANGE_SEEN = 0.09;

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
        Optional<Strength> before = told.isEmpty() ? Optional.empty() : strength(alike, middle, logPhi, climb.nowC);
        if (before.isEmpty()) {
            FiringData unsure = told.map(data -> data.lessSure(STRENGTH_UNSEEN)).orElse(climb);
            Prior known = unsure.prior(kind).pinned(middle).loadedAsBefore(logPhi);
            FittedKiln fit = FiringFit.fit(unsure, kind, known);
            return Optional.of(
                    new Today(List.of(new FiringFit.Weighted(fit, 1)), ConformalScale.AfterHeating.REMEMBERED));
        }
        return Optional.of(new Today(
                fits(told.get(), kind, told.get().prior(kind).pinned(middle).loadedAsBefore(logPhi), before.get()),
                ConformalScale.AfterHeating.STRENGTH_REMEMBERED));
    }

    /** With the elements of before, and with others: how probable each is tells the change that is seen. */
    private static List<FiringFit.Weighted> fits(FiringData climb, WallKind kind, Prior known, Strength before) {
        double change =
                logPsi(climb, kind, known.perhapsStrongAsBefore(before.logPsi())) - before.logPsi() - before.leftOpen();
        Change same = new Change(change, Prior.STRENGTH_BY_THE_DAY);
        Change others = new Change(change, Prior.STRENGTH_CHANGED);
        return FiringFit.weighted(
                List.of(
                        FiringFit.fit(
                                climb, kind, known.strong(before.logPsi() + same.mean(), Prior.STRENGTH_BY_THE_DAY)),
                        FiringFit.fit(climb, kind, known.strong(before.logPsi() + others.mean(), others.spread()))),
                new double[] {
                    same.logEvidence() + Math.log(1 - ELEMENTS_CHANGED),
                    others.logEvidence() + Math.log(ELEMENTS_CHANGED)
                });
    }

    /**
     * A change of ln ψ, normal about none, of which a value was seen.
     *
     * @param by the standard deviation beforehand
     */
    private record Change(double seen, double by) {
        private static final double SQUARE = CHANGE_SEEN * CHANGE_SEEN;

        double mean() {
            return seen * by * by / (by * by + SQUARE);
        }

        double spread() {
            return by * CHANGE_SEEN / Math.hypot(by, CHANGE_SEEN);
        }

        double logEvidence() {
            double both = by * by + SQUARE;
            return -(seen * seen / both + Math.log(both)) / 2;
        }
    }

    /**
     * How strong the elements were.
     *
     * @param logPsi ln ψ with which earlier firings climbed as they did, their loads known
     * @param leftOpen by how much more it comes out of the same climbs with the load and itself left open
     */
    private record Strength(double logPsi, double leftOpen) {}

    /** Of the earlier firings up to a temperature; empty where none told its output. */
    private static Optional<Strength> strength(List<FittedKiln> alike, double[] middle, double logPhi, double untilC) {
        List<FittedKiln> told =
                alike.stream().filter(each -> each.prior().hasPower()).toList();
        List<Strength> each = new ArrayList<>();
        for (FittedKiln kiln : told.subList(Math.max(0, told.size() - STRONG_AS_LATELY), told.size())) {
            kiln.data().climbUntil(untilC).flatMap(FiringData::forItsLoad).ifPresent(climb -> {
                Prior known = climb.prior(kiln.kind()).pinned(middle);
                double seen = logPsi(
                        climb,
                        kiln.kind(),
                        known.loadedAsSeen(Math.log(kiln.kiln().phi())));
                double open =
                        logPsi(climb, kiln.kind(), known.loadedAsBefore(logPhi).perhapsStrongAsBefore(seen));
                each.add(new Strength(seen, open - seen));
            });
        }
        return each.isEmpty()
                ? Optional.empty()
                : Optional.of(new Strength(
                        each.stream().mapToDouble(Strength::logPsi).average().orElseThrow(),
                        each.stream().mapToDouble(Strength::leftOpen).average().orElseThrow()));
    }

    private static double logPsi(FiringData climb, WallKind kind, Prior known) {
        return Math.log(FiringFit.fit(climb, kind, known).kiln().psiC());
    }
}

package org.kilnside.review;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/** The causes found so far, each with what it weighs; the heaviest comes first. */
final class Found {
    private record Weighed(double cones, double weight, Sureness sure, List<Evidence> evidence) {}

    /** What else the same evidence could mean weighs this much of what it is taken for. */
    private static final double OTHERWISE = 0.25;

    private final Map<CauseCode, Weighed> causes = new EnumMap<>(CauseCode.class);

    /** A cause that explains so many cones, positive = short. */
    void add(CauseCode code, double cones, Sureness sure, List<Evidence> evidence) {
        add(code, cones, Math.abs(cones), sure, evidence);
    }

    /** A cause that weighs more or less than the cones it explains. */
    void add(CauseCode code, double cones, double weight, Sureness sure, List<Evidence> evidence) {
        Weighed before = causes.get(code);
        if (before == null || before.weight < weight) {
            causes.put(code, new Weighed(cones, weight, sure, evidence));
        }
    }

    /** What the evidence for a cause could also mean; no more than possible. */
    void orElse(CauseCode taken, CauseCode other) {
        Weighed meant = causes.get(taken);
        if (meant != null) {
            add(other, meant.cones, OTHERWISE * meant.weight, Sureness.POSSIBLE, meant.evidence);
        }
    }

    boolean has(CauseCode code) {
        return causes.containsKey(code);
    }

    boolean isEmpty() {
        return causes.isEmpty();
    }

    List<Review.Cause> ranked() {
        List<Review.Cause> ranked = new ArrayList<>();
        causes.entrySet().stream()
                .sorted((one, other) -> Double.compare(other.getValue().weight, one.getValue().weight))
                .forEach(each -> ranked.add(new Review.Cause(
                        each.getKey(), each.getValue().sure, each.getValue().cones, each.getValue().evidence)));
        return ranked;
    }
}

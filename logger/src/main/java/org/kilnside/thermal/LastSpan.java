package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The parts of the last free span: from each moment on, whether something is open that was shut before.
 *
 * @param throughout what a person noted as open since before the span began, where nothing was done to it since
 */
record LastSpan(List<Part> parts, Optional<Ventilated.How> throughout) {
    /** One part, begun where the one before ends. */
    record Part(double fromS, boolean opened) {}

    /** What is opened lets out twice what leaks from a shut kiln, ln. */
    static final double OPEN_TIMES = 0.7;

    /** Nearer to what a person noted than this, a bend of the curve is that very thing, s. */
    private static final double SAME_S = 1500;

    static LastSpan of(Course course, Phases phases, List<Ventilated> said) {
        if (phases.free().isEmpty()) {
            return new LastSpan(List.of(), Optional.empty());
        }
        double begin = course.timeS[phases.free().get(phases.free().size() - 1).from()];
        List<Part> parts = new ArrayList<>();
        boolean opened = false;
        Optional<Ventilated.How> throughout = Optional.empty();
        for (Ventilated each : said) {
            throughout = Optional.of(each.how()).filter(how -> each.sinceS() <= begin && how != Ventilated.How.SHUT);
            boolean opens = each.how() != Ventilated.How.SHUT;
            if (each.sinceS() > begin && opens != opened && each.sinceS() < course.lastS()) {
                parts.add(new Part(each.sinceS(), opens));
            }
            opened = opens;
        }
        // Of the openings nobody has explained the last one counts, and what shut it again.
        Phases.Bend opening = null;
        Phases.Bend shutting = null;
        for (Phases.Bend bend : phases.bends()) {
            double at = course.timeS[bend.at()];
            boolean explained = said.stream().anyMatch(each -> Math.abs(each.sinceS() - at) < SAME_S);
            if (explained || said.stream().anyMatch(each -> each.sinceS() >= at)) {
                continue;
            }
            if (bend.opens()) {
                opening = bend;
                shutting = null;
            } else {
                shutting = bend;
            }
        }
        if (opening != null && !opened) {
            parts.add(new Part(course.timeS[opening.at()], true));
        }
        if (shutting != null && !parts.isEmpty()) {
            parts.add(new Part(course.timeS[shutting.at()], false));
        }
        return new LastSpan(parts, throughout);
    }

    /**
     * What is believed of a kiln that somebody says was open when it began to cool: twice the leak of a shut one, which a fan
     * keeps up while draught through a hole dies away with the kiln's heat.
     */
    Prior believed(Prior shut) {
        if (throughout.isEmpty()) {
            return shut;
        }
        boolean byAFan = throughout.get() == Ventilated.How.VENT_ON;
        return shut.moved(Prior.LAMBDA, OPEN_TIMES)
                .with(Prior.LEAK_EXPONENT, byAFan ? 0.05 : 0.4, byAFan ? 0.08 : 0.15);
    }

    boolean anyOpened() {
        return parts.stream().anyMatch(Part::opened);
    }

    boolean openedNow() {
        return !parts.isEmpty() && parts.get(parts.size() - 1).opened();
    }

    /** When what is open now was opened; only where something is. */
    double openedS() {
        return parts.get(parts.size() - 1).fromS();
    }
}

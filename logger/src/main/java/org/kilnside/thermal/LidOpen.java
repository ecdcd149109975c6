package org.kilnside.thermal;

import java.util.List;
import java.util.Optional;
import org.kilnside.thermal.Forecast.Below;
import org.kilnside.thermal.Forecast.When;

/** A lid that is propped, or a door ajar: since when, and what becomes of the forecast. */
final class LidOpen {
    private static final double OPENED_BELOW_C = 400;

    /** A bung quickens a cooling by less than this, a propped lid by more. */
    private static final double LID_TIMES = 3;

    /** After the lid is shut again the sensor takes this long to be the ware's again, s. */
    private static final double REBOUND_S = 1200;

    private LidOpen() {}

    /** The course without what the sensor read while the lid was open and until it had come back, where that was noted. */
    static Course withoutAir(Course course, List<Ventilated> said) {
        Course shut = course;
        for (int i = 0; i + 1 < said.size(); i++) {
            if (said.get(i).how() == Ventilated.How.LID_PROPPED
                    && said.get(i + 1).how() != Ventilated.How.LID_PROPPED) {
                shut = shut.without(said.get(i).sinceS(), said.get(i + 1).sinceS() + REBOUND_S);
            }
        }
        return shut;
    }

    /**
     * Since when the lid has been open, if it still is: as noted; else where the number suddenly fell several times faster
     * than any bung makes it, from where people open lids, and has not come back up.
     */
    static Optional<Double> sinceS(FiringData data, List<Ventilated> said) {
        List<Phases.Bend> bends = data.phases.bends();
        Optional<Ventilated> last = said.isEmpty() ? Optional.empty() : Optional.of(said.get(said.size() - 1));
        if (last.isPresent() && last.get().how() == Ventilated.How.LID_PROPPED) {
            return last.map(Ventilated::sinceS).filter(at -> at <= data.nowS);
        }
        if (bends.isEmpty()) {
            return Optional.empty();
        }
        Phases.Bend bend = bends.get(bends.size() - 1);
        Course course = data.course;
        double at = course.timeS[bend.at()];
        if (last.isPresent() && last.get().sinceS() > at - REBOUND_S) {
            return Optional.empty();
        }
        double before = course.smoothAt(at, at - 600, at);
        double lowest = before;
        for (int i = bend.at(); i < course.size; i++) {
            lowest = Math.min(lowest, course.temperatureC[i]);
        }
        boolean back = data.nowC > lowest + 0.5 * (before - lowest) && data.nowC > lowest + 8;
        return before < OPENED_BELOW_C && bend.rateTimes() > LID_TIMES && !back ? Optional.of(at) : Optional.empty();
    }

    /** What should have been by now may still be to come: nobody has seen it. */
    static Below notBefore(Below answer, double nowS) {
        Optional<When> when = answer.when()
                .map(each ->
                        new When(Math.max(nowS, each.atS()), Math.max(nowS, each.fromS()), Math.max(nowS, each.toS())));
        return new Below(answer.temperature(), when, when.map(When::fromS));
    }

    /** The ware by the model, as if shut: it is no hotter than this, °C. */
    static double wareC(FittedKiln fit, double openedS, double nowS) {
        WallSlab slab = new Projection(fit).now(fit.solution().parameters());
        for (double time = openedS; time < nowS; time += 120) {
            slab.coast(120);
        }
        return slab.chamberC();
    }
}

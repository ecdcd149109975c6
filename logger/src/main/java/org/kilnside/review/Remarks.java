package org.kilnside.review;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.kilnside.firing.GoodReadings;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.heatwork.WitnessJudgement;
import org.kilnside.heatwork.WitnessOffset;

/** What a review rests on and cannot know. */
final class Remarks {
    private Remarks() {}

    static List<Remark> of(Case facts, Extent extent) {
        if (extent == Extent.NO_FIRING) {
            return List.of();
        }
        ReviewQuestion question = facts.question();
        TopPhase phase = facts.phase();
        Shape plan = facts.plan();
        Optional<HiddenTop> hidden = facts.hidden();
        List<Remark> remarks = new ArrayList<>();
        GoodReadings readings = question.readings();
        if (!facts.planReaches()) {
            remarks.add(Remark.of(Remark.Kind.PLAN_WITHOUT_CONE));
        }
        if (facts.isPlanOfAnotherFiring()) {
            remarks.add(Remark.of(
                    Remark.Kind.PLAN_OF_ANOTHER_FIRING, Amount.degrees(phase.levelC()), Amount.degrees(plan.levelC())));
        }
        double first = facts.bins().celsius[0];
        if (!facts.riseSeen() && first > Case.WARM_C) {
            remarks.add(Remark.of(Remark.Kind.BEGINS_NEAR_TOP, Amount.degrees(first)));
        } else if (first > Case.WARM_C) {
            remarks.add(Remark.of(Remark.Kind.BEGINS_WARM, Amount.degrees(first)));
        }
        if (hidden.isPresent()) {
            remarks.add(Remark.of(
                    Remark.Kind.TOP_HIDDEN, Amount.minutes(hidden.get().minutes())));
        } else if (!facts.seen().gaps().isZero()) {
            remarks.add(
                    Remark.of(Remark.Kind.GAP, new Amount.Lasting(facts.seen().gaps())));
        }
        if (!phase.falls() && facts.seen().top() != ConeReached.Top.BEFORE_FIRST_READING) {
            boolean heating = phase.levelC() < plan.levelC() - TopPhase.NEAR_K && hidden.isEmpty();
            remarks.add(
                    heating
                            ? Remark.of(Remark.Kind.ENDS_HEATING, Amount.degrees(phase.levelC()))
                            : Remark.of(Remark.Kind.NO_COOLING));
        }
        if (readings.rejected() > 0) {
            remarks.add(Remark.of(Remark.Kind.FALSE_READINGS, new Amount.Count(readings.rejected())));
        }
        readings.jumps().stream()
                .limit(1)
                .forEach(jump -> remarks.add(Remark.of(
                        Remark.Kind.JUMP,
                        Amount.degrees(jump.fromC()),
                        Amount.degrees(jump.toC()),
                        new Amount.At(jump.elapsedMs()))));
        if (!hearsController(readings.curve())) {
            remarks.add(Remark.of(Remark.Kind.NO_CONTROLLER));
        }
        facts.witness().objections().forEach(objection -> remarks.add(remark(objection)));
        if (question.witness().isEmpty()) {
            remarks.add(Remark.of(Remark.Kind.NO_WITNESS));
        }
        List<WitnessOffset> offsets = question.offsets();
        WitnessOffset.driftKPerFiring(offsets)
                .ifPresent(slopeK -> remarks.add(Remark.of(
                        Remark.Kind.SENSOR_DRIFTS,
                        Amount.span(slopeK * (offsets.size() - 1)),
                        new Amount.Count(offsets.size()),
                        Amount.span(slopeK))));
        return remarks;
    }

    private static boolean hearsController(Trace curve) {
        return IntStream.range(0, curve.size())
                .anyMatch(i -> curve.setpointC(i).isPresent() || curve.output(i).isPresent());
    }

    private static Remark remark(WitnessJudgement.Objection objection) {
        if (objection instanceof WitnessJudgement.Objection.PackContradictsItself pack) {
            return Remark.of(
                    Remark.Kind.PACK_CONTRADICTS_ITSELF,
                    new Amount.Word(pack.shelf()),
                    new Amount.Named(pack.harder()),
                    new Amount.Named(pack.softer()));
        } else if (objection instanceof WitnessJudgement.Objection.ContradictsCurve curve) {
            return Remark.of(Remark.Kind.CONES_CONTRADICT_CURVE, Amount.span(curve.offK()));
        } else if (objection instanceof WitnessJudgement.Objection.FitsNothing pack) {
            return Remark.of(Remark.Kind.PACK_FITS_NOTHING, new Amount.Word(pack.shelf()));
        }
        throw new IllegalArgumentException("nobody has said how to say " + objection);
    }
}

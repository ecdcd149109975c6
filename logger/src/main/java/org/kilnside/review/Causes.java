package org.kilnside.review;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.heatwork.WitnessJudgement;

/** What made a firing come out otherwise, the costliest first. */
final class Causes {
    /** A firing this close to its plan is as planned: controllers swing by as much, K of steady error. */
    private static final double AS_PLANNED_K = 4.5;

    /** A part that costs less than this is no cause where another makes it good, K. */
    private static final double PART_K = 8;

    /** Nor does anybody see less than these in the ware, cones (common practice). */
    private static final double AS_PLANNED_CONES = 0.2;

    private static final double PART_CONES = 0.3;

    /** A hold that costs as much and was plainly another one is no controller's swing. */
    private static final double HOLD_CONES = 0.25;

    /** A cooling out of its range spoils a glaze as half a cone does, whatever the cone says (common practice). */
    private static final double COOLING_WEIGHT = 0.3;

    /** With no hold planned, a firing that ends so little short may as well have had a lower top, K. */
    private static final double LITTLE_SHORT_K = 30;

    /** A kiln whose heat ends takes so long to turn, minutes. */
    private static final double TURNING_MIN = 3;

    /** By so much more or less it might as well have been the other of an end on the way and a short hold, minutes. */
    private static final double TURNS_WITHIN_MIN = 1.5;

    private static final double TOO_FAST = 1.3;

    /**
     * A set-point that stands so long, beyond what a ramp takes for a degree, holds; longer where it may be the last
     * number of a controller that had ended.
     */
    private static final double SEEN_MIN = 1;

    private static final double UNSEEN_MIN = 4;

    /** An offset the cones leave in doubt is worth a line from here on, K. */
    private static final double HINT_K = 2;

    private final Case facts;
    private final double perK;
    private final double level;
    private final double hold;
    private final double rise;
    private final Found found = new Found();

    private Causes(Case facts) {
        this.facts = facts;
        perK = facts.conesPerK();
        level = facts.cost(Attribution.Part.LEVEL);
        hold = facts.cost(Attribution.Part.HOLD);
        rise = facts.cost(Attribution.Part.RISE);
    }

    static List<Review.Cause> of(Case facts) {
        return new Causes(facts).look();
    }

    private List<Review.Cause> look() {
        SensorSuspects.look(facts, found);
        if (facts.beginsAfterTop()) {
            // What came before the first reading may have been anything.
            return found.ranked();
        }
        if (isOff() && !found.has(CauseCode.SENSOR_FAULT)) {
            if (!powerCut() && !askedTooFast()) {
                shaped();
            }
        }
        cooling();
        if (facts.isPlanOfAnotherFiring()) {
            return found.isEmpty() ? asPlanned() : doubted(found.ranked());
        }
        return found.isEmpty() ? asPlanned() : found.ranked();
    }

    /** Against a plan it was perhaps not fired by, nothing is more than possible. */
    private static List<Review.Cause> doubted(List<Review.Cause> causes) {
        return causes.stream()
                .map(cause -> new Review.Cause(cause.code(), Sureness.POSSIBLE, cause.cones(), cause.evidence()))
                .toList();
    }

    private boolean isOff() {
        double largest = Math.max(Math.abs(level), Math.max(Math.abs(hold), Math.abs(rise)));
        if (Math.abs(hold) > HOLD_CONES && isHoldAnother()) {
            return true;
        }
        return Math.abs(level + hold + rise) > Math.max(AS_PLANNED_K * perK, AS_PLANNED_CONES)
                || largest > Math.max(PART_K * perK, PART_CONES);
    }

    /** Whether the hold was another one than planned, however little a controller's swing is told from it by its cost. */
    private boolean isHoldAnother() {
        double held = facts.heldMinutes();
        double planned = facts.plannedHoldMinutes();
        return planned > 2 * UNSEEN_MIN && (held < planned / 2 || held > 2 * planned);
    }

    private void shaped() {
        PowerSuspects.Explains power = PowerSuspects.look(facts, found, AS_PLANNED_K / 2 * perK);
        if (!power.level()) {
            top();
        }
        if (!power.hold()) {
            held();
        }
        if (!power.rise()) {
            ramp();
        }
    }

    private List<Review.Cause> asPlanned() {
        List<Review.Cause> causes = new ArrayList<>();
        WitnessJudgement witness = facts.witness();
        causes.add(new Review.Cause(
                CauseCode.AS_PLANNED,
                witness.isKnown() ? Sureness.VERY_LIKELY : Sureness.LIKELY,
                0,
                List.of(Evidence.of(
                        Evidence.Kind.TOP_HOLD_RAMP_AS_PLANNED,
                        Amount.degrees(facts.real().levelC()),
                        Amount.minutes(facts.heldMinutes()),
                        Amount.speed(facts.real().lastRateKPerH())))));
        if (witness.isKnown() && !witness.uneven() && Math.abs(witness.offsetK()) > HINT_K) {
            boolean hotter = witness.offsetK() > 0;
            causes.add(new Review.Cause(
                    hotter ? CauseCode.SENSOR_READS_LOW : CauseCode.SENSOR_READS_HIGH,
                    Sureness.POSSIBLE,
                    facts.cost(Attribution.Part.SENSOR),
                    List.of(Evidence.of(
                            hotter ? Evidence.Kind.WARE_WAS_HOTTER : Evidence.Kind.WARE_WAS_COLDER,
                            Amount.span(witness.offsetK()),
                            Amount.span(facts.halfWidthK())))));
        }
        // An interruption that was made good cost nothing, and is worth a line all the same.
        lastDip()
                .ifPresent(dip -> causes.add(
                        new Review.Cause(CauseCode.POWER_CUT, Sureness.POSSIBLE, 0, List.of(interrupted(dip)))));
        return causes;
    }

    private boolean powerCut() {
        Conduct conduct = facts.conduct();
        double cost = level + Math.max(0, hold) + rise;
        if (cost < AS_PLANNED_K / 2 * perK) {
            // A firing that came to all of its plan lost nothing by whatever ended it.
            return false;
        }
        Optional<HiddenTop> fell = facts.hidden().filter(hidden -> !hidden.heatingWentOn());
        if (fell.isPresent()) {
            HiddenTop hidden = fell.get();
            found.add(
                    CauseCode.POWER_CUT,
                    cost,
                    hidden.clear() ? Sureness.VERY_LIKELY : Sureness.LIKELY,
                    List.of(Evidence.of(
                            Evidence.Kind.FELL_IN_GAP,
                            Amount.at(hidden.fromS()),
                            Amount.minutes(hidden.minutes()),
                            Amount.degrees(hidden.fromC()),
                            Amount.degrees(hidden.toC()))));
            // The same gap, right behind: whether the kiln or only its readings stopped is told by the cooling alone.
            found.add(
                    CauseCode.SENSOR_FAULT,
                    cost,
                    0.99 * Math.abs(cost),
                    Sureness.POSSIBLE,
                    List.of(Evidence.of(
                            Evidence.Kind.NO_READINGS, Amount.at(hidden.fromS()), Amount.minutes(hidden.minutes()))));
            return true;
        }
        if (conduct.end().how() == Ending.How.STILL_ASKING) {
            found.add(
                    CauseCode.POWER_CUT,
                    cost,
                    Sureness.VERY_LIKELY,
                    List.of(Evidence.of(
                            Evidence.Kind.FELL_WHILE_ASKING,
                            Amount.degrees(conduct.end().atC()),
                            Amount.at(conduct.end().atS()))));
            return true;
        }
        if (isLogCutOff()) {
            found.add(
                    CauseCode.POWER_CUT,
                    cost,
                    Sureness.POSSIBLE,
                    List.of(Evidence.of(
                            Evidence.Kind.LOG_ENDS_HEATING,
                            Amount.degrees(conduct.end().atC()),
                            Amount.at(conduct.end().atS()))));
            found.orElse(CauseCode.POWER_CUT, CauseCode.ENDED_EARLY);
            return true;
        }
        Optional<Conduct.Dip> dip = lastDip();
        if (dip.isPresent() && cost > AS_PLANNED_K * perK) {
            found.add(
                    CauseCode.POWER_CUT,
                    cost,
                    dip.get().asking() && conduct.asks().known() ? Sureness.VERY_LIKELY : Sureness.LIKELY,
                    List.of(interrupted(dip.get())));
            return true;
        }
        return false;
    }

    private Optional<Conduct.Dip> lastDip() {
        List<Conduct.Dip> dips = facts.conduct().dipsThatCount(facts.real().levelC());
        return dips.isEmpty() ? Optional.empty() : Optional.of(dips.get(dips.size() - 1));
    }

    private static Evidence interrupted(Conduct.Dip dip) {
        return Evidence.of(
                Evidence.Kind.INTERRUPTED,
                Amount.at(dip.fromS()),
                Amount.degrees(dip.fromC()),
                Amount.minutes(dip.minutes()));
    }

    /** The log stops for good on the way up: whatever wrote it had its power from the same plug, or was stopped. */
    private boolean isLogCutOff() {
        return facts.conduct().end().how() == Ending.How.NOT_SEEN
                && facts.hidden().isEmpty()
                && !facts.conduct().limited().atEnd()
                && facts.heldMinutes() < 3
                && level > AS_PLANNED_K * perK;
    }

    /** A program faster than the plan, which the kiln could not follow though it could have followed the plan. */
    private boolean askedTooFast() {
        Conduct conduct = facts.conduct();
        double planned = facts.plan().lastRateKPerH();
        boolean faster = conduct.asks().known() && conduct.asks().rateKPerH() > TOO_FAST * planned;
        if (!faster || conduct.limited().behindK() < Conduct.BEHIND_K || level <= 0) {
            return false;
        }
        found.add(
                CauseCode.RAMP_FAST,
                level + hold + rise,
                Sureness.VERY_LIKELY,
                List.of(
                        Evidence.of(
                                Evidence.Kind.ASKED_RATE,
                                Amount.speed(conduct.asks().rateKPerH()),
                                Amount.speed(planned)),
                        Evidence.of(
                                Evidence.Kind.BEHIND_SETPOINT,
                                Amount.span(conduct.limited().behindK()))));
        found.orElse(CauseCode.RAMP_FAST, CauseCode.WEAK_ELEMENTS);
        return true;
    }

    private void top() {
        if (Math.abs(level) < AS_PLANNED_K / 2 * perK || found.has(CauseCode.AMPLIFIER_UNCORRECTED) && level < 0) {
            return;
        }
        double levelC = facts.real().levelC();
        double planC = facts.plan().levelC();
        Conduct.Asks asks = facts.conduct().asks();
        List<Evidence> evidence = new ArrayList<>();
        if (asks.known() && Math.abs(asks.topC() - planC) > 2) {
            evidence.add(Evidence.of(Evidence.Kind.ASKED_TOP, Amount.degrees(asks.topC()), Amount.degrees(planC)));
        }
        evidence.add(Evidence.of(Evidence.Kind.HELD_AT, Amount.degrees(levelC), Amount.degrees(planC)));
        Sureness sure = asks.known() ? Sureness.VERY_LIKELY : Sureness.LIKELY;
        if (level < 0) {
            found.add(CauseCode.OVER_FIRED_TOP, level, sure, evidence);
        } else if (isEarly(planC - levelC)) {
            evidence.add(Evidence.of(
                    facts.conduct().outputKnown() ? Evidence.Kind.OUTPUT_ENDED : Evidence.Kind.HEAT_ENDED,
                    Amount.at(facts.conduct().end().atS()),
                    Amount.degrees(facts.conduct().end().atC())));
            // Where neither output nor set-point says it, a power cut looks just the same.
            boolean seen = facts.conduct().end().how() != Ending.How.UNKNOWN;
            // It had come to its top: what it lacks is the hold, whoever ended that.
            double weight = cameToItsTop() ? level : level + Math.max(0, hold);
            found.add(
                    CauseCode.ENDED_EARLY,
                    level + Math.max(0, hold),
                    weight,
                    seen ? sure : Sureness.POSSIBLE,
                    evidence);
            boolean stood = turnedSlowly() && facts.heldMinutes() > TURNING_MIN - 1;
            found.orElse(CauseCode.ENDED_EARLY, seen || stood ? CauseCode.TOP_LOW : CauseCode.POWER_CUT);
        } else {
            found.add(CauseCode.TOP_LOW, level, sure, evidence);
            if (turnedSlowly()) {
                double behind = 0.99 * Math.max(level, hold);
                found.add(CauseCode.ENDED_EARLY, level + Math.max(0, hold), behind, Sureness.POSSIBLE, evidence);
            } else {
                found.orElse(CauseCode.TOP_LOW, CauseCode.ENDED_EARLY);
            }
        }
    }

    private boolean cameToItsTop() {
        return facts.plan().levelC() - facts.real().levelC() < AS_PLANNED_K;
    }

    /** Whether it was at its level for about as long as a kiln takes to turn: a hold of a few minutes looks the same. */
    private boolean turnedSlowly() {
        return facts.plannedHoldMinutes() >= TURNING_MIN
                && Math.abs(facts.heldMinutes() - TURNING_MIN) < TURNS_WITHIN_MIN;
    }

    /** Whether a firing that did not come to its top was cut off on the way, where a lower program would have held. */
    private boolean isEarly(double lowK) {
        if (stoodAtALowerTop()) {
            return false;
        }
        double planned = facts.plannedHoldMinutes();
        if (planned < 3) {
            return lowK > LITTLE_SHORT_K;
        }
        double least = lowK > LITTLE_SHORT_K ? TURNING_MIN + 2 : Math.min(TURNING_MIN, 0.35 * planned);
        return facts.heldMinutes() < least;
    }

    /** Whether the set-point came to a top of its own below the plan's and stood there: a program, not an end in a ramp. */
    private boolean stoodAtALowerTop() {
        Conduct.Asks asks = facts.conduct().asks();
        boolean content = asks.known() && facts.real().levelC() > asks.topC() - Conduct.CONTENT_K;
        double passing = asks.rateKPerH() > 0 ? 60 / asks.rateKPerH() : 1;
        return content
                && asks.stoodMinutes()
                        > passing + (asks.stale() && !facts.conduct().outputKnown() ? UNSEEN_MIN : SEEN_MIN);
    }

    private void held() {
        boolean partOfTheEnd =
                found.has(CauseCode.ENDED_EARLY) && !found.has(CauseCode.TOP_LOW) && !cameToItsTop() && hold > 0;
        if (Math.abs(hold) < AS_PLANNED_K / 2 * perK || partOfTheEnd) {
            return;
        }
        List<Evidence> evidence = List.of(Evidence.of(
                Evidence.Kind.HELD_FOR,
                Amount.minutes(facts.heldMinutes()),
                Amount.minutes(facts.plannedHoldMinutes())));
        // Where the log ends with the top the hold may have gone on.
        boolean cutOff = hold > 0 && facts.conduct().end().how() == Ending.How.NOT_SEEN;
        Sureness told = facts.conduct().asks().known() ? Sureness.VERY_LIKELY : Sureness.LIKELY;
        Sureness sure = cutOff ? Sureness.POSSIBLE : told;
        if (hold > 0) {
            found.add(CauseCode.HOLD_SHORT, hold, sure, evidence);
            found.orElse(CauseCode.HOLD_SHORT, CauseCode.ENDED_EARLY);
        } else {
            found.add(CauseCode.OVER_FIRED_HOLD, hold, sure, evidence);
        }
    }

    private void ramp() {
        if (Math.abs(rise) < AS_PLANNED_K / 2 * perK) {
            return;
        }
        List<Evidence> evidence = List.of(Evidence.of(
                Evidence.Kind.LAST_RAMP,
                Amount.speed(facts.real().lastRateKPerH()),
                Amount.speed(facts.plan().lastRateKPerH())));
        Sureness sure = facts.conduct().asks().known() ? Sureness.VERY_LIKELY : Sureness.LIKELY;
        found.add(rise > 0 ? CauseCode.RAMP_FAST : CauseCode.RAMP_SLOW, rise, sure, evidence);
        if (rise < 0 && !facts.conduct().outputKnown()) {
            found.orElse(CauseCode.RAMP_SLOW, CauseCode.WEAK_ELEMENTS);
        }
    }

    private void cooling() {
        boolean cutOff = found.has(CauseCode.POWER_CUT) || found.has(CauseCode.ENDED_EARLY);
        Optional<Cooling> cooling = facts.cooling().filter(found -> found.isFast() || found.isSlow());
        if (cooling.isEmpty()) {
            return;
        }
        Cooling seen = cooling.get();
        found.add(
                seen.isFast() ? CauseCode.COOLING_FAST : CauseCode.COOLING_SLOW,
                facts.cost(Attribution.Part.FALL),
                cutOff ? COOLING_WEIGHT / 10 : COOLING_WEIGHT,
                seen.against() == Cooling.Against.ITSELF ? Sureness.LIKELY : Sureness.VERY_LIKELY,
                List.of(Evidence.of(
                        switch (seen.against()) {
                            case PLAN -> Evidence.Kind.COOLED_IN;
                            case HABIT -> Evidence.Kind.COOLED_IN_USUALLY;
                            case ITSELF -> Evidence.Kind.COOLED_IN_BY_ITSELF;
                        },
                        Amount.degrees(seen.fromC()),
                        Amount.degrees(seen.toC()),
                        Amount.minutes(seen.tookS() / 60),
                        Amount.minutes(seen.goalS() / 60))));
    }
}

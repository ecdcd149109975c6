package org.kilnside.review;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** What made a firing come out otherwise, the costliest first. */
final class Causes {
    /** A firing this close to its plan is as planned: controllers swing by as much, K of steady error. */
    private static final double AS_PLANNED_K = 4.5;

    /** A part that costs less than this is no cause even where it is made good by another, K. */
    private static final double PART_K = 8;

    private final Case facts;
    private final double perK;
    private final Map<CauseCode, Weighed> found = new EnumMap<>(CauseCode.class);

    private record Weighed(double cones, double weight, Sureness sure, List<Evidence> evidence) {}

    private Causes(Case facts) {
        this.facts = facts;
        this.perK = facts.conesPerK();
    }

    static List<Review.Cause> of(Case facts) {
        Causes causes = new Causes(facts);
        causes.look();
        return causes.ranked();
    }

    private void look() {
        double level = facts.cost(Attribution.Part.LEVEL);
        double hold = facts.cost(Attribution.Part.HOLD);
        double rise = facts.cost(Attribution.Part.RISE);
        sensor();
        gap();
        cooling();
        double shown = level + hold + rise;
        boolean off = Math.abs(shown) > AS_PLANNED_K * perK
                || Math.max(Math.abs(level), Math.max(Math.abs(hold), Math.abs(rise))) > PART_K * perK;
        if (!off) {
            return;
        }
        if (!powerCut(level, hold, rise) && !tooWeak(level, hold, rise)) {
            top(level, hold);
            hold(hold);
            rise(rise);
        }
    }

    // ---- the sensor

    private void sensor() {
        WitnessJudgement witness = facts.witness();
        double cost = facts.cost(Attribution.Part.SENSOR);
        if (witness.uneven()) {
            List<Evidence> evidence = new ArrayList<>();
            double low = Double.POSITIVE_INFINITY;
            double high = Double.NEGATIVE_INFINITY;
            for (WitnessJudgement.Shelf shelf : witness.shelves()) {
                low = Math.min(low, shelf.offsetK());
                high = Math.max(high, shelf.offsetK());
                evidence.add(Evidence.of(
                        shelf.offsetK() >= 0 ? Evidence.Kind.SHELF_HOTTER : Evidence.Kind.SHELF_COLDER,
                        new Amount.Word(shelf.name()),
                        Amount.span(shelf.offsetK())));
            }
            evidence.add(0, Evidence.of(Evidence.Kind.SHELVES_DIFFER, Amount.span(high - low)));
            add(
                    CauseCode.UNEVEN,
                    cost,
                    (high - low) * perK,
                    high - low > 22 ? Sureness.VERY_LIKELY : Sureness.LIKELY,
                    evidence);
            return;
        }
        if (!witness.isOff()) {
            return;
        }
        Evidence offset = Evidence.of(
                witness.offsetK() > 0 ? Evidence.Kind.WARE_WAS_HOTTER : Evidence.Kind.WARE_WAS_COLDER,
                Amount.span(witness.offsetK()),
                Amount.span(facts.halfWidthK()));
        boolean sharp = Math.abs(witness.offsetK()) > 2.2 * witness.sigmaK();
        if (witness.offsetK() < 0) {
            add(
                    CauseCode.SENSOR_READS_HIGH,
                    cost,
                    Math.abs(cost),
                    sharp ? Sureness.VERY_LIKELY : Sureness.LIKELY,
                    List.of(offset));
        } else {
            add(
                    CauseCode.SENSOR_READS_LOW,
                    cost,
                    Math.abs(cost),
                    sharp ? Sureness.VERY_LIKELY : Sureness.LIKELY,
                    List.of(offset));
        }
    }

    private void gap() {
        facts.hidden()
                .filter(HiddenTop::heatingWentOn)
                .ifPresent(hidden -> add(
                        CauseCode.SENSOR_FAULT,
                        0,
                        5,
                        Sureness.VERY_LIKELY,
                        List.of(Evidence.of(
                                Evidence.Kind.NO_READINGS,
                                Amount.at(hidden.fromS()),
                                Amount.minutes(hidden.minutes())))));
    }

    private void cooling() {
        double cost = facts.cost(Attribution.Part.FALL);
        if (Math.abs(cost) > AS_PLANNED_K * perK) {
            add(
                    cost > 0 ? CauseCode.COOLING_FAST : CauseCode.COOLING_SLOW,
                    cost,
                    Math.abs(cost),
                    Sureness.LIKELY,
                    List.of());
        }
    }

    // ---- the heat

    private boolean powerCut(double level, double hold, double rise) {
        Conduct conduct = facts.conduct();
        Optional<HiddenTop> fellInGap = facts.hidden().filter(hidden -> !hidden.heatingWentOn());
        double cost = level + Math.max(0, hold) + rise;
        if (fellInGap.isPresent()) {
            HiddenTop hidden = fellInGap.get();
            add(
                    CauseCode.POWER_CUT,
                    cost,
                    Math.abs(cost),
                    Sureness.VERY_LIKELY,
                    List.of(Evidence.of(
                            Evidence.Kind.FELL_IN_GAP,
                            Amount.at(hidden.fromS()),
                            Amount.minutes(hidden.minutes()),
                            Amount.degrees(hidden.fromC()),
                            Amount.degrees(hidden.toC()))));
            return true;
        }
        if (conduct.end().how() == Conduct.End.How.STILL_ASKING) {
            add(
                    CauseCode.POWER_CUT,
                    cost,
                    Math.abs(cost),
                    Sureness.VERY_LIKELY,
                    List.of(Evidence.of(
                            Evidence.Kind.FELL_WHILE_ASKING,
                            Amount.degrees(conduct.end().atC()),
                            Amount.at(conduct.end().atS()))));
            return true;
        }
        List<Conduct.Dip> dips = conduct.dipsThatCount(facts.real().levelC());
        if (!dips.isEmpty() && cost > AS_PLANNED_K * perK) {
            Conduct.Dip dip = dips.get(dips.size() - 1);
            add(
                    CauseCode.POWER_CUT,
                    cost,
                    Math.abs(cost),
                    dip.asking() && conduct.asks().known() ? Sureness.VERY_LIKELY : Sureness.LIKELY,
                    List.of(Evidence.of(
                            Evidence.Kind.INTERRUPTED,
                            Amount.at(dip.fromS()),
                            Amount.degrees(dip.fromC()),
                            Amount.minutes(dip.minutes()))));
            return true;
        }
        return false;
    }

    private boolean tooWeak(double level, double hold, double rise) {
        Conduct.Limited limited = facts.conduct().limited();
        if (!limited.atEnd() && !limited.inRise()) {
            return false;
        }
        Power power = facts.conduct().outputKnown()
                ? Power.of(facts.bins(), facts.phase().leftS())
                : Power.UNKNOWN;
        double cost = limited.atEnd() ? level + hold + rise : Math.max(0, hold) + rise;
        List<Evidence> evidence = new ArrayList<>();
        if (limited.fullMinutes() > 10) {
            evidence.add(Evidence.of(Evidence.Kind.FULL_OUTPUT, Amount.minutes(limited.fullMinutes())));
        }
        if (limited.behindK() > Conduct.BEHIND_K) {
            evidence.add(Evidence.of(Evidence.Kind.BEHIND_SETPOINT, Amount.span(limited.behindK())));
        }
        if (limited.toKPerH() > 0 && limited.toKPerH() < 0.8 * limited.fromKPerH()) {
            evidence.add(Evidence.of(
                    Evidence.Kind.RATE_FELL_AWAY, Amount.speed(limited.fromKPerH()), Amount.speed(limited.toKPerH())));
        }
        CauseCode code = CauseCode.WEAK_ELEMENTS;
        Optional<Power.Loss> step = power.step();
        if (step.isPresent() && step.get().part() > 0.2) {
            code = CauseCode.ONE_PHASE_LOST;
            evidence.add(Evidence.of(
                    Evidence.Kind.POWER_STEP,
                    Amount.at(step.get().fromS()),
                    Amount.degrees(step.get().atC()),
                    Amount.part(step.get().part())));
        } else if (power.sag().isPresent()) {
            code = CauseCode.MAINS_SAG;
            evidence.add(Evidence.of(
                    Evidence.Kind.POWER_STEP,
                    Amount.at(power.sag().get().fromS()),
                    Amount.degrees(power.sag().get().atC()),
                    Amount.part(power.sag().get().part())));
        }
        add(code, cost, Math.abs(cost), Sureness.LIKELY, evidence);
        return true;
    }

    private void top(double level, double hold) {
        if (Math.abs(level) < AS_PLANNED_K / 2 * perK) {
            return;
        }
        Conduct conduct = facts.conduct();
        double levelC = facts.real().levelC();
        double planC = facts.plan().levelC();
        List<Evidence> evidence = new ArrayList<>();
        if (conduct.asks().known()) {
            evidence.add(Evidence.of(
                    Evidence.Kind.ASKED_TOP, Amount.degrees(conduct.asks().topC()), Amount.degrees(planC)));
        }
        evidence.add(Evidence.of(Evidence.Kind.HELD_AT, Amount.degrees(levelC), Amount.degrees(planC)));
        if (level < 0) {
            add(CauseCode.OVER_FIRED_TOP, level, -level, Sureness.LIKELY, evidence);
            return;
        }
        boolean held = facts.real().topMinutes() > 3 + 0.35 * (facts.plan().topMinutes() - 3);
        boolean early = !held && facts.plan().topMinutes() > 6;
        CauseCode code = early ? CauseCode.ENDED_EARLY : CauseCode.TOP_LOW;
        if (early) {
            evidence.add(Evidence.of(
                    conduct.outputKnown() ? Evidence.Kind.OUTPUT_ENDED : Evidence.Kind.HEAT_ENDED,
                    Amount.at(conduct.end().atS()),
                    Amount.degrees(conduct.end().atC())));
            add(code, level + Math.max(0, hold), level + Math.max(0, hold), Sureness.LIKELY, evidence);
        } else {
            add(code, level, level, Sureness.LIKELY, evidence);
        }
    }

    private void hold(double hold) {
        if (Math.abs(hold) < AS_PLANNED_K / 2 * perK || found.containsKey(CauseCode.ENDED_EARLY)) {
            return;
        }
        List<Evidence> evidence = List.of(Evidence.of(
                Evidence.Kind.HELD_FOR,
                Amount.minutes(facts.heldMinutes()),
                Amount.minutes(facts.plannedHoldMinutes())));
        add(
                hold > 0 ? CauseCode.HOLD_SHORT : CauseCode.OVER_FIRED_HOLD,
                hold,
                Math.abs(hold),
                Sureness.LIKELY,
                evidence);
    }

    private void rise(double rise) {
        if (Math.abs(rise) < AS_PLANNED_K / 2 * perK) {
            return;
        }
        List<Evidence> evidence = List.of(Evidence.of(
                Evidence.Kind.LAST_RAMP,
                Amount.speed(facts.real().lastRateKPerH()),
                Amount.speed(facts.plan().lastRateKPerH())));
        add(rise > 0 ? CauseCode.RAMP_FAST : CauseCode.RAMP_SLOW, rise, Math.abs(rise), Sureness.LIKELY, evidence);
    }

    private void add(CauseCode code, double cones, double weight, Sureness sure, List<Evidence> evidence) {
        found.merge(
                code,
                new Weighed(cones, weight, sure, evidence),
                (one, other) -> one.weight() >= other.weight() ? one : other);
    }

    private List<Review.Cause> ranked() {
        List<Review.Cause> causes = new ArrayList<>();
        found.entrySet().stream()
                .sorted((one, other) ->
                        Double.compare(other.getValue().weight(), one.getValue().weight()))
                .forEach(each -> causes.add(new Review.Cause(
                        each.getKey(),
                        each.getValue().sure(),
                        each.getValue().cones(),
                        each.getValue().evidence())));
        if (causes.isEmpty()) {
            causes.add(new Review.Cause(
                    CauseCode.AS_PLANNED,
                    Sureness.VERY_LIKELY,
                    0,
                    List.of(Evidence.of(
                            Evidence.Kind.TOP_HOLD_RAMP_AS_PLANNED,
                            Amount.degrees(facts.real().levelC()),
                            Amount.minutes(facts.heldMinutes()),
                            Amount.speed(facts.real().lastRateKPerH())))));
        }
        return causes;
    }
}

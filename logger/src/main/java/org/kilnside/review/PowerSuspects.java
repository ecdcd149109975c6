package org.kilnside.review;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Causes that lie with what the elements could give: worn, a third of them gone, or the mains low. */
final class PowerSuspects {
    /** A ring of three takes 27 to 37 % with it; a sag rarely that much. */
    private static final double RING = 0.26;

    /** Less than this comes and goes with every load. */
    private static final double LEAST_DROP = 0.07;

    /** A kiln worn so far would have shown it long before; one that lost a ring comes to this at once. */
    private static final double UNSEEN_RING = 0.18;

    /** Elements do not wear by so much from one firing to the next. */
    private static final double AT_ONCE = 0.15;

    private static final double FAR_SHORT_K = 70;

    /** A passing sag takes the last degrees, a lost ring more. */
    private static final double NEARLY_THERE_K = 20;

    private PowerSuspects() {}

    /**
     * The parts of the firing that a lack of power explains.
     *
     * @param level the top
     * @param hold a hold cut short by coming late
     * @param rise a slow rise
     */
    record Explains(boolean level, boolean hold, boolean rise) {
        static final Explains NOTHING = new Explains(false, false, false);
    }

    static Explains look(Case facts, Found found, double leastCones) {
        Conduct.Limited limited = facts.conduct().limited();
        double hold = facts.cost(Attribution.Part.HOLD);
        Explains explains = limited.atEnd()
                ? new Explains(true, true, true)
                : new Explains(
                        limited.late() && facts.cost(Attribution.Part.LEVEL) > 0,
                        limited.late() && hold > 0,
                        limited.late() || limited.inRise());
        double cost = (explains.level ? facts.cost(Attribution.Part.LEVEL) : 0)
                + (explains.hold ? hold : 0)
                + (explains.rise ? facts.cost(Attribution.Part.RISE) : 0);
        double largest = Math.max(
                explains.hold ? Math.abs(hold) : 0, explains.rise ? Math.abs(facts.cost(Attribution.Part.RISE)) : 0);
        if (!explains.rise || !limited.atEnd() && Math.max(Math.abs(cost), largest) < leastCones) {
            return Explains.NOTHING;
        }
        List<Evidence> evidence = seen(facts, limited);
        Power power = facts.conduct().outputKnown()
                ? Power.of(facts.bins(), facts.conduct().end().askedUntilS())
                : Power.UNKNOWN;
        Optional<Power.Loss> ring = power.step().filter(step -> step.part() >= RING);
        Optional<Power.Loss> passing = power.sag()
                .filter(sag ->
                        power.step().map(step -> sag.gain() > 1.3 * step.gain()).orElse(true));
        Optional<Power.Loss> small = power.step().filter(step -> step.part() < RING);
        Habit habit = facts.habit();
        double drop = habit.strength() > 0 && power.strength() > 0 ? 1 - power.strength() / habit.strength() : 0;
        if (drop > LEAST_DROP) {
            evidence.add(Evidence.of(
                    Evidence.Kind.POWER_AGAINST_EARLIER, Amount.part(drop), new Amount.Count(habit.firings())));
        }
        if (habit.fallsByPart() > 0) {
            evidence.add(Evidence.of(
                    Evidence.Kind.POWER_FALLS, Amount.part(habit.fallsByPart()), new Amount.Count(habit.firings())));
        }
        if (ring.isPresent() && passing.isEmpty()) {
            step(evidence, ring.get());
            found.add(CauseCode.ONE_PHASE_LOST, cost, Sureness.VERY_LIKELY, evidence);
            found.orElse(CauseCode.ONE_PHASE_LOST, CauseCode.WEAK_ELEMENTS);
        } else if (passing.isPresent()) {
            step(evidence, passing.get());
            evidence.add(Evidence.of(
                    Evidence.Kind.POWER_BACK, Amount.at(passing.get().toS())));
            found.add(CauseCode.MAINS_SAG, cost, Sureness.VERY_LIKELY, evidence);
            found.orElse(CauseCode.MAINS_SAG, CauseCode.WEAK_ELEMENTS);
        } else if (habit.fallsByPart() == 0 && pacedLikeASag(facts, limited)) {
            found.add(CauseCode.MAINS_SAG, cost, Sureness.LIKELY, evidence);
            found.orElse(CauseCode.MAINS_SAG, CauseCode.WEAK_ELEMENTS);
        } else if (habit.fallsByPart() == 0 && small.isPresent()) {
            step(evidence, small.get());
            found.add(CauseCode.MAINS_SAG, cost, Sureness.LIKELY, evidence);
            found.orElse(CauseCode.MAINS_SAG, CauseCode.WEAK_ELEMENTS);
        } else if (habit.fallsByPart() == 0 && (drop >= RING || drop > AT_ONCE && habit.firings() > 1)) {
            found.add(CauseCode.ONE_PHASE_LOST, cost, Sureness.LIKELY, evidence);
            found.orElse(CauseCode.ONE_PHASE_LOST, CauseCode.WEAK_ELEMENTS);
        } else {
            weak(facts, found, cost, evidence, limited, habit);
        }
        return explains;
    }

    /** Without output the pace alone tells: it came back, or it broke at once by less than a ring takes. */
    private static boolean pacedLikeASag(Case facts, Conduct.Limited limited) {
        Conduct conduct = facts.conduct();
        return !conduct.outputKnown() && (conduct.recovered() || conduct.broke() && !isFarShort(facts, limited));
    }

    /** Whether more is missing than wear or a sag ever takes, where the output is not known. */
    private static boolean isFarShort(Case facts, Conduct.Limited limited) {
        return limited.atEnd()
                && (1 - facts.powerAgainstNeed() > UNSEEN_RING
                        || facts.plan().levelC() - facts.real().levelC() > FAR_SHORT_K);
    }

    private static void weak(
            Case facts, Found found, double cost, List<Evidence> evidence, Conduct.Limited limited, Habit habit) {
        double missing = limited.atEnd() ? 1 - facts.powerAgainstNeed() : 0;
        if (missing > 0.02) {
            evidence.add(Evidence.of(Evidence.Kind.POWER_SHORT, Amount.part(missing)));
        }
        if (!facts.conduct().outputKnown() && isFarShort(facts, limited)) {
            found.add(CauseCode.ONE_PHASE_LOST, cost, Sureness.POSSIBLE, evidence);
            found.add(CauseCode.WEAK_ELEMENTS, cost, 0.9 * Math.abs(cost), Sureness.POSSIBLE, evidence);
            return;
        }
        boolean clear = facts.conduct().outputKnown() || habit.fallsByPart() > 0;
        found.add(CauseCode.WEAK_ELEMENTS, cost, clear ? Sureness.VERY_LIKELY : Sureness.LIKELY, evidence);
        found.orElse(
                CauseCode.WEAK_ELEMENTS,
                facts.conduct().outputKnown()
                                || !facts.hungBackEarly()
                                        && facts.plan().levelC() - facts.real().levelC() < NEARLY_THERE_K
                        ? CauseCode.MAINS_SAG
                        : CauseCode.ONE_PHASE_LOST);
    }

    private static void step(List<Evidence> evidence, Power.Loss loss) {
        evidence.add(Evidence.of(
                Evidence.Kind.POWER_STEP,
                Amount.at(loss.fromS()),
                Amount.degrees(loss.atC()),
                Amount.part(loss.part())));
    }

    private static List<Evidence> seen(Case facts, Conduct.Limited limited) {
        List<Evidence> evidence = new ArrayList<>();
        if (limited.fullMinutes() > 10) {
            evidence.add(Evidence.of(Evidence.Kind.FULL_OUTPUT, Amount.minutes(limited.fullMinutes())));
        }
        Ending end = facts.conduct().end();
        if (end.how() == Ending.How.GAVE_WAY) {
            evidence.add(Evidence.of(
                    Evidence.Kind.GAVE_WAY_AT_FULL_OUTPUT, Amount.degrees(end.atC()), Amount.at(end.atS())));
        }
        if (limited.behindK() > Conduct.BEHIND_K) {
            evidence.add(Evidence.of(Evidence.Kind.BEHIND_SETPOINT, Amount.span(limited.behindK())));
        }
        if (limited.toKPerH() > 0 && limited.toKPerH() < 0.8 * limited.fromKPerH()) {
            evidence.add(Evidence.of(
                    Evidence.Kind.RATE_FELL_AWAY, Amount.speed(limited.fromKPerH()), Amount.speed(limited.toKPerH())));
        }
        if (evidence.isEmpty()) {
            evidence.add(Evidence.of(
                    Evidence.Kind.LAST_RAMP,
                    Amount.speed(facts.real().lastRateKPerH()),
                    Amount.speed(facts.plan().lastRateKPerH())));
        }
        return evidence;
    }
}

package org.kilnside.review;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.kilnside.heatwork.Cone;
import org.kilnside.quantity.Temperature;

/**
 * What to change next time, in the numbers the controller shows, and what to do with this load. Careful: one change a
 * firing, a top moved by at most 15 °C and never past a limit, none raised where the shelves disagree, the elements can
 * give no more, or the load has what it wants.
 */
final class Advisor {
    /** The most a top is moved at once, K (common practice). */
    static final double MOST_K = 15;

    /** Under-fired by more than this, a load is worth firing again and ware for the table testing (common practice). */
    private static final double WORTH_REFIRING = 0.4;

    /** Nearer than this to the cone the load wants, nothing is to be gained, cones (common practice). */
    private static final double HAS_ITS_CONE = 0.2;

    /** A smaller move is within what a controller swings, K. */
    private static final double LEAST_K = 1;

    /** A known error of the sensor smaller than this is not reckoned with, K. */
    private static final double LEAST_OFFSET_K = 3;

    /** Where number and truth lie so far apart, both are said, K. */
    private static final double TOLD_APART_K = 1.5;

    private static final Set<CauseCode> NO_POWER =
            Set.of(CauseCode.WEAK_ELEMENTS, CauseCode.ONE_PHASE_LOST, CauseCode.MAINS_SAG);

    private final Case facts;
    private final List<Review.Cause> causes;
    private final List<Advice> advice = new ArrayList<>();

    private Advisor(Case facts, List<Review.Cause> causes) {
        this.facts = facts;
        this.causes = causes;
    }

    static List<Advice> advise(Case facts, List<Review.Cause> causes) {
        return new Advisor(facts, causes).advise();
    }

    private List<Advice> advise() {
        CauseCode first = causes.get(0).code();
        if (facts.isPlanOfAnotherFiring()) {
            say(Advice.Kind.NAME_ITS_PLAN);
            return advice;
        }
        next(first);
        if (first != CauseCode.AS_PLANNED) {
            say(Advice.Kind.ONE_CHANGE_WITNESS);
        }
        load(first);
        return advice;
    }

    private void say(Advice.Kind kind, Amount... amounts) {
        advice.add(Advice.of(kind, amounts));
    }

    private void next(CauseCode first) {
        switch (first) {
            case AS_PLANNED -> {
                say(Advice.Kind.LOOK_AT_GLAZE);
                say(Advice.Kind.TEST_TILE);
            }
            case TOP_LOW, OVER_FIRED_TOP -> moveTop();
            case HOLD_SHORT -> {
                if (lacksPower()) {
                    say(Advice.Kind.NO_MORE_TOP);
                } else {
                    say(Advice.Kind.SET_HOLD, Amount.minutes(facts.plannedHoldMinutes()));
                }
            }
            case OVER_FIRED_HOLD -> say(Advice.Kind.SET_HOLD, Amount.minutes(facts.plannedHoldMinutes()));
            case RAMP_FAST, RAMP_SLOW ->
                say(Advice.Kind.SET_LAST_RAMP, Amount.speed(facts.plan().lastRateKPerH()));
            case WEAK_ELEMENTS -> {
                say(Advice.Kind.NO_MORE_TOP);
                endSooner();
                say(Advice.Kind.MEASURE_ELEMENTS);
                say(Advice.Kind.ELECTRICIAN);
            }
            case ONE_PHASE_LOST -> {
                say(Advice.Kind.LOOK_AT_RINGS);
                say(Advice.Kind.NO_MORE_TOP);
                endSooner();
                say(Advice.Kind.ELECTRICIAN);
            }
            case MAINS_SAG -> {
                say(Advice.Kind.FIRE_OFF_PEAK);
                say(Advice.Kind.NO_MORE_TOP);
                endSooner();
            }
            case POWER_CUT -> {
                say(Advice.Kind.LOOK_AT_SUPPLY);
                say(Advice.Kind.ELECTRICIAN);
            }
            case ENDED_EARLY -> {
                double planC = facts.plan().levelC();
                if (withinLimits(planC, knownOffsetK()) == planC) {
                    say(Advice.Kind.LET_IT_FINISH, Amount.degrees(facts.shownC(planC)));
                    both(planC);
                }
            }
            case SENSOR_READS_HIGH, SENSOR_READS_LOW -> {
                moveTop();
                tellApart();
                say(Advice.Kind.CHECK_SENSOR);
            }
            case AMPLIFIER_UNCORRECTED -> {
                say(Advice.Kind.CORRECT_AMPLIFIER);
                moveTop();
                tellApart();
            }
            case SENSOR_FAULT -> say(Advice.Kind.CHECK_SENSOR);
            case COOLING_FAST ->
                say(AfterTop.leadsDown(facts.question().plan()) ? Advice.Kind.SLOW_COOLING : Advice.Kind.LEAVE_SHUT);
            case COOLING_SLOW -> say(Advice.Kind.QUICKEN_COOLING);
            case UNEVEN -> say(Advice.Kind.EVEN_OUT);
        }
    }

    /** Where cones of a bisque firing would tell a sensor that reads low from a board that nobody corrects. */
    private void tellApart() {
        boolean both = causes.stream().anyMatch(cause -> cause.code() == CauseCode.AMPLIFIER_UNCORRECTED)
                && causes.stream().anyMatch(cause -> cause.code() == CauseCode.SENSOR_READS_LOW);
        if (both) {
            say(Advice.Kind.TELL_BOARD_FROM_SENSOR);
        }
    }

    /** Brings the ware to what the plan means, all known errors counted, as far as one firing may go. */
    private void moveTop() {
        double offsetK = knownOffsetK();
        double missingK = facts.plan().levelC() - offsetK - facts.real().levelC();
        double changeK = Math.max(-MOST_K, Math.min(MOST_K, missingK));
        boolean hasItsCone = facts.wanted().isPresent() && Math.signum(facts.shortForLoad()) != Math.signum(changeK)
                || facts.wanted().isPresent() && Math.abs(facts.shortForLoad()) < HAS_ITS_CONE;
        if (hasItsCone) {
            say(Advice.Kind.LOAD_HAS_ITS_CONE);
            return;
        }
        if (changeK > 0 && facts.witness().uneven()) {
            say(Advice.Kind.EVEN_OUT);
            return;
        }
        if (changeK > 0 && lacksPower()) {
            say(Advice.Kind.NO_MORE_TOP);
            return;
        }
        double nowC = facts.conduct().asks().known()
                ? facts.conduct().asks().topC()
                : facts.real().levelC();
        double goalC = nowC + changeK;
        if (changeK > 0) {
            goalC = withinLimits(goalC, offsetK);
            changeK = goalC - nowC;
            if (changeK < LEAST_K) {
                return;
            }
        }
        if (Math.abs(changeK) < LEAST_K) {
            return;
        }
        say(
                changeK > 0 ? Advice.Kind.RAISE_TOP_CAREFULLY : Advice.Kind.LOWER_TOP,
                Amount.span(changeK),
                Amount.degrees(facts.shownC(goalC)));
        both(goalC);
    }

    /** A kiln that creeps up to a top it hardly reaches gives its ware the cone below it. */
    private void endSooner() {
        if (facts.wanted().isEmpty() || facts.shortForLoad() > -WORTH_REFIRING || !facts.riseSeen()) {
            return;
        }
        Cone cone = facts.wanted().get();
        OptionalDouble found = new TopForCone(
                        facts.question().table(),
                        facts.real(),
                        facts.plan().fall(),
                        facts.offsetK(),
                        facts.plannedHoldMinutes() * 60)
                .comingTo(Reviewer.wantedSteps(cone));
        if (found.isPresent()) {
            double topC = found.getAsDouble();
            double halfK = facts.halfWidthK();
            say(
                    Advice.Kind.TOP_WHILE_WEAK,
                    Amount.degrees(facts.shownC(topC)),
                    Amount.degrees(facts.shownC(topC - halfK)),
                    Amount.degrees(facts.shownC(topC + halfK)),
                    new Amount.Named(cone));
            both(topC);
        }
    }

    /** By how much the ware is hotter than the sensor reads, where that is worth reckoning with, K. */
    private double knownOffsetK() {
        return Math.abs(facts.offsetK()) < LEAST_OFFSET_K ? 0 : facts.offsetK();
    }

    /** A reading the top is to be raised to, or the lowest of the limits it would go past; says which. */
    private double withinLimits(double goalC, double offsetK) {
        double kilnC = readingAt(facts.question().limit(), offsetK);
        double wareC = readingAt(facts.question().wareLimit(), offsetK);
        double lowestC = Math.min(kilnC, wareC);
        if (goalC <= lowestC) {
            return goalC;
        }
        say(
                wareC < kilnC ? Advice.Kind.AT_THE_LIMIT_OF_THE_WARE : Advice.Kind.AT_THE_LIMIT,
                Amount.degrees(lowestC + offsetK));
        return lowestC;
    }

    private static double readingAt(Optional<Temperature> limit, double offsetK) {
        return limit.isPresent() ? limit.get().celsius() - offsetK : Double.POSITIVE_INFINITY;
    }

    /** A reading as the controller shows it and as it is in the ware, where the two differ. */
    private void both(double readC) {
        double shownC = facts.shownC(readC);
        double trueC = readC + knownOffsetK();
        if (Math.abs(trueC - shownC) > TOLD_APART_K) {
            say(Advice.Kind.SHOWN_AND_TRUE, Amount.degrees(shownC), Amount.degrees(trueC));
        }
    }

    private boolean lacksPower() {
        return facts.conduct().limited().atEnd()
                || causes.stream()
                        .anyMatch(cause -> NO_POWER.contains(cause.code()) && cause.sure() != Sureness.POSSIBLE);
    }

    private void load(CauseCode first) {
        if (!Extent.of(facts).tellsACone()) {
            say(Advice.Kind.ABSORPTION_TEST);
            return;
        }
        double shortBy = facts.shortForLoad();
        boolean mayBeShort = shortBy > WORTH_REFIRING || first == CauseCode.SENSOR_FAULT;
        if (mayBeShort || first == CauseCode.UNEVEN) {
            if (shortBy > WORTH_REFIRING && !facts.beginsAfterTop()) {
                say(Advice.Kind.REFIRE_FULL);
            }
            say(Advice.Kind.ABSORPTION_TEST);
        } else if (shortBy < -WORTH_REFIRING) {
            say(Advice.Kind.LOOK_FOR_OVERFIRING);
        }
    }
}

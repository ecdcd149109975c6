package org.kilnside.review;

import java.util.ArrayList;
import java.util.List;

/**
 * What to change next time, in the numbers the controller shows, and what to do with this load. Careful: one change a
 * firing, a top moved by at most 15 °C, none raised where the shelves disagree or the elements can give no more.
 */
final class Advisor {
    /** The most a top is moved at once, K (common practice). */
    static final double MOST_K = 15;

    /** Under-fired by more than this, a load is worth firing again and ware for the table testing (common practice). */
    private static final double WORTH_REFIRING = 0.4;

    private Advisor() {}

    static List<Advice> advise(Case facts, List<Review.Cause> causes) {
        List<Advice> advice = new ArrayList<>();
        CauseCode first = causes.get(0).code();
        next(facts, first, advice);
        if (first != CauseCode.AS_PLANNED) {
            advice.add(Advice.of(Advice.Kind.ONE_CHANGE_WITNESS));
        }
        load(facts, first, advice);
        return advice;
    }

    private static void next(Case facts, CauseCode first, List<Advice> advice) {
        double planC = facts.plan().levelC();
        switch (first) {
            case AS_PLANNED -> {
                advice.add(Advice.of(Advice.Kind.LOOK_AT_GLAZE));
                advice.add(Advice.of(Advice.Kind.TEST_TILE));
            }
            case TOP_LOW, OVER_FIRED_TOP -> {
                double asked = facts.conduct().asks().known()
                        ? facts.conduct().asks().topC()
                        : facts.real().levelC();
                double change =
                        Math.max(-MOST_K, Math.min(MOST_K, planC - facts.real().levelC()));
                advice.add(Advice.of(
                        change > 0 ? Advice.Kind.RAISE_TOP_CAREFULLY : Advice.Kind.LOWER_TOP,
                        Amount.span(change),
                        Amount.degrees(asked + change)));
            }
            case HOLD_SHORT, OVER_FIRED_HOLD ->
                advice.add(Advice.of(Advice.Kind.SET_HOLD, Amount.minutes(facts.plannedHoldMinutes())));
            case RAMP_FAST, RAMP_SLOW ->
                advice.add(Advice.of(
                        Advice.Kind.SET_LAST_RAMP, Amount.speed(facts.plan().lastRateKPerH())));
            case WEAK_ELEMENTS -> {
                advice.add(Advice.of(Advice.Kind.NO_MORE_TOP));
                advice.add(Advice.of(Advice.Kind.MEASURE_ELEMENTS));
                advice.add(Advice.of(Advice.Kind.ELECTRICIAN));
            }
            case ONE_PHASE_LOST -> {
                advice.add(Advice.of(Advice.Kind.LOOK_AT_RINGS));
                advice.add(Advice.of(Advice.Kind.NO_MORE_TOP));
                advice.add(Advice.of(Advice.Kind.ELECTRICIAN));
            }
            case MAINS_SAG -> {
                advice.add(Advice.of(Advice.Kind.FIRE_OFF_PEAK));
                advice.add(Advice.of(Advice.Kind.NO_MORE_TOP));
            }
            case POWER_CUT -> {
                advice.add(Advice.of(Advice.Kind.LOOK_AT_SUPPLY));
                advice.add(Advice.of(Advice.Kind.ELECTRICIAN));
            }
            case ENDED_EARLY -> advice.add(Advice.of(Advice.Kind.LET_IT_FINISH, Amount.degrees(planC)));
            case SENSOR_READS_HIGH, SENSOR_READS_LOW -> {
                double change = Math.max(-MOST_K, Math.min(MOST_K, -facts.offsetK()));
                advice.add(Advice.of(
                        change > 0 ? Advice.Kind.RAISE_TOP_CAREFULLY : Advice.Kind.LOWER_TOP,
                        Amount.span(change),
                        Amount.degrees(planC + change)));
                advice.add(Advice.of(Advice.Kind.CHECK_SENSOR));
            }
            case AMPLIFIER_UNCORRECTED -> {
                double change = Math.max(-MOST_K, Math.min(0, -facts.offsetK()));
                advice.add(
                        Advice.of(Advice.Kind.CORRECT_AMPLIFIER, Amount.span(change), Amount.degrees(planC + change)));
            }
            case SENSOR_FAULT -> advice.add(Advice.of(Advice.Kind.CHECK_SENSOR));
            case COOLING_FAST -> advice.add(Advice.of(Advice.Kind.SLOW_COOLING));
            case COOLING_SLOW -> advice.add(Advice.of(Advice.Kind.QUICKEN_COOLING));
            case UNEVEN -> advice.add(Advice.of(Advice.Kind.EVEN_OUT));
        }
    }

    private static void load(Case facts, CauseCode first, List<Advice> advice) {
        double shortBy = facts.shortForLoad();
        boolean mayBeShort = shortBy > WORTH_REFIRING || first == CauseCode.SENSOR_FAULT;
        if (mayBeShort || first == CauseCode.UNEVEN) {
            if (shortBy > WORTH_REFIRING) {
                advice.add(Advice.of(Advice.Kind.REFIRE_FULL));
            }
            advice.add(Advice.of(Advice.Kind.ABSORPTION_TEST));
        } else if (shortBy < -WORTH_REFIRING) {
            advice.add(Advice.of(Advice.Kind.LOOK_FOR_OVERFIRING));
        }
    }
}

package org.kilnside.review;

import java.util.ArrayList;
import java.util.List;
import org.kilnside.heatwork.WitnessJudgement;
import org.kilnside.heatwork.WitnessOffset;
import org.kilnside.sensor.Amplifier;

/** Causes that lie with the sensor: only witness cones, a corrected log or missing readings show them. */
final class SensorSuspects {
    /** A missing top outweighs what a guess at it may cost. */
    private static final double HIDDEN_WEIGHT = 5;

    /** A gap so near the top outweighs nothing that was seen, but where nothing was, it is what is odd. */
    private static final double GAP_WEIGHT = 0.2;

    private static final double LONG_GAP_S = 900;
    private static final double NEAR_TOP_K = 80;

    private static final double CLEARLY = 2.2;

    /** Amplifiers of one make scatter by so much, K (data sheets). */
    private static final double AMPLIFIER_SCATTER_K = 3;

    /** Sensors that read low do so by anything in a range of this width, K. */
    private static final double LOW_RANGE_K = 20;

    /** Below this an amplifier's error is within any sensor's. */
    private static final double LEAST_AMPLIFIER_K = 7;

    /** Where no cones tell of another heat, both explain the offset alike within these odds. */
    private static final double ALIKE_ODDS = 3;

    /** Less likely than this it is not worth a line. */
    private static final double HARDLY_ODDS = 0.01;

    /** Cones of a firing so much colder or hotter show the shape of the error, K. */
    private static final double OTHER_HEAT_K = 80;

    /** Studios are this warm, give or take, °C and K. */
    private static final double ROOM_C = 15;

    private static final double ROOMS_DIFFER_K = 8;

    private static final double NINE_IN_TEN = 1.645;
    private static final double VERY_UNEVEN_K = 22;

    /** A known error of the sensor smaller than this is no cause. */
    private static final double KNOWN_OFF_K = 5;

    private SensorSuspects() {}

    static void look(Case facts, Found found) {
        facts.hidden()
                .filter(HiddenTop::heatingWentOn)
                .ifPresent(hidden -> found.add(
                        CauseCode.SENSOR_FAULT,
                        0,
                        HIDDEN_WEIGHT,
                        Sureness.VERY_LIKELY,
                        List.of(Evidence.of(
                                Evidence.Kind.NO_READINGS,
                                Amount.at(hidden.fromS()),
                                Amount.minutes(hidden.minutes())))));
        facts.hidden()
                .filter(hidden -> hidden.heatingWentOn() && !hidden.clear())
                .ifPresent(hidden -> found.add(
                        CauseCode.POWER_CUT,
                        0,
                        0.99 * HIDDEN_WEIGHT,
                        Sureness.POSSIBLE,
                        List.of(Evidence.of(
                                Evidence.Kind.FELL_IN_GAP,
                                Amount.at(hidden.fromS()),
                                Amount.minutes(hidden.minutes()),
                                Amount.degrees(hidden.fromC()),
                                Amount.degrees(hidden.toC())))));
        if (facts.beginsAfterTop()) {
            found.add(
                    CauseCode.SENSOR_FAULT,
                    0,
                    HIDDEN_WEIGHT,
                    Sureness.LIKELY,
                    List.of(Evidence.of(Evidence.Kind.LOG_BEGINS_FALLING, Amount.degrees(facts.bins().celsius[0]))));
        } else if (facts.hidden().isEmpty()) {
            gapNearTop(facts, found);
        }
        facts.frozen()
                .ifPresent(frozen -> found.add(
                        CauseCode.SENSOR_FAULT,
                        0,
                        HIDDEN_WEIGHT,
                        Sureness.VERY_LIKELY,
                        List.of(Evidence.of(
                                Evidence.Kind.FROZEN,
                                Amount.minutes(frozen.minutes()),
                                Amount.degrees(frozen.celsius())))));
        steeredByRaw(facts, found);
        if (facts.witness().uneven()) {
            uneven(facts, found);
        } else if (facts.witness().isOff() || Math.abs(facts.offsetK()) > KNOWN_OFF_K && facts.knownK() != 0) {
            off(facts, found);
        }
    }

    /** Readings missing for long just before the top or at it: what the kiln did there nobody saw. */
    private static void gapNearTop(Case facts, Found found) {
        Bins bins = facts.bins();
        for (int i = 1; i < bins.size && bins.timeS[i - 1] < facts.phase().leftS(); i++) {
            double seconds = bins.timeS[i] - bins.timeS[i - 1];
            boolean near = bins.celsius[i] > facts.phase().levelC() - NEAR_TOP_K
                    && bins.celsius[i - 1] > facts.phase().levelC() - NEAR_TOP_K;
            if (near && seconds > LONG_GAP_S) {
                found.add(
                        CauseCode.SENSOR_FAULT,
                        0,
                        GAP_WEIGHT,
                        Sureness.LIKELY,
                        List.of(Evidence.of(
                                Evidence.Kind.NO_READINGS,
                                Amount.at(bins.timeS[i - 1]),
                                Amount.minutes(seconds / 60))));
            }
        }
    }

    private static void uneven(Case facts, Found found) {
        List<Evidence> evidence = new ArrayList<>();
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (WitnessJudgement.Shelf shelf : facts.witness().shelves()) {
            low = Math.min(low, shelf.offsetK());
            high = Math.max(high, shelf.offsetK());
            evidence.add(Evidence.of(
                    shelf.offsetK() >= 0 ? Evidence.Kind.SHELF_HOTTER : Evidence.Kind.SHELF_COLDER,
                    new Amount.Word(shelf.name()),
                    Amount.span(shelf.offsetK())));
        }
        evidence.add(0, Evidence.of(Evidence.Kind.SHELVES_DIFFER, Amount.span(high - low)));
        found.add(
                CauseCode.UNEVEN,
                facts.cost(Attribution.Part.SENSOR),
                (high - low) / 2 * facts.conesPerK(),
                high - low > VERY_UNEVEN_K ? Sureness.VERY_LIKELY : Sureness.LIKELY,
                evidence);
    }

    private static Evidence known(Case facts) {
        return Evidence.of(
                facts.knownK() > 0 ? Evidence.Kind.KNOWN_TO_READ_LOW : Evidence.Kind.KNOWN_TO_READ_HIGH,
                Amount.span(facts.knownK()));
    }

    private static void off(Case facts, Found found) {
        WitnessJudgement witness = facts.witness();
        double cost = facts.cost(Attribution.Part.SENSOR);
        boolean clear = !witness.isOff() || Math.abs(witness.offsetK()) > CLEARLY * witness.sigmaK();
        Sureness sure = clear ? Sureness.VERY_LIKELY : Sureness.LIKELY;
        List<Evidence> evidence = new ArrayList<>();
        if (witness.isKnown()) {
            evidence.add(Evidence.of(
                    facts.offsetK() > 0 ? Evidence.Kind.WARE_WAS_HOTTER : Evidence.Kind.WARE_WAS_COLDER,
                    Amount.span(facts.offsetK()),
                    Amount.span(facts.halfWidthK())));
        }
        if (Math.abs(facts.knownK()) > KNOWN_OFF_K) {
            evidence.add(known(facts));
        }
        if (facts.offsetK() < 0) {
            found.add(CauseCode.SENSOR_READS_HIGH, cost, sure, evidence);
            return;
        }
        double levelC = facts.real().levelC();
        double errorK = AmplifierError.atShownK(levelC);
        double odds = amplifierOdds(facts, errorK);
        if (odds < 0.1) {
            found.add(CauseCode.SENSOR_READS_LOW, cost, sure, evidence);
            if (odds > HARDLY_ODDS) {
                found.orElse(CauseCode.SENSOR_READS_LOW, CauseCode.AMPLIFIER_UNCORRECTED);
            }
            return;
        }
        List<Evidence> board = new ArrayList<>(evidence);
        board.add(Evidence.of(Evidence.Kind.AMPLIFIER_ERROR, Amount.span(errorK), Amount.degrees(levelC)));
        if (AmplifierError.stepsOf(facts.question().readings().curve()) == AmplifierError.Steps.QUARTERS) {
            board.add(Evidence.of(Evidence.Kind.QUARTER_DEGREES));
        }
        boolean boardFirst = odds > 1;
        CauseCode first = boardFirst ? CauseCode.AMPLIFIER_UNCORRECTED : CauseCode.SENSOR_READS_LOW;
        CauseCode second = boardFirst ? CauseCode.SENSOR_READS_LOW : CauseCode.AMPLIFIER_UNCORRECTED;
        boolean alike = odds < ALIKE_ODDS && odds > 1 / ALIKE_ODDS;
        found.add(first, cost, alike ? Sureness.POSSIBLE : Sureness.LIKELY, boardFirst ? board : evidence);
        // Both explain the same offset, so the second stands right behind the first.
        found.add(second, cost, Math.abs(cost) * 0.99, Sureness.POSSIBLE, boardFirst ? evidence : board);
    }

    /**
     * How much likelier an amplifier nobody corrects is than a sensor that happens to read as much too low. Before
     * looking neither is; how closely the offset meets the amplifier's known error, cones of firings at another heat, and
     * how finely the numbers are stepped tell.
     */
    private static double amplifierOdds(Case facts, double errorK) {
        Amplifier amplifier = facts.question().sensor().probe().amplifier();
        boolean corrects = amplifier == Amplifier.MAX31856 || facts.isCorrectedLog();
        if (errorK < LEAST_AMPLIFIER_K || corrects) {
            return 0;
        }
        double sigmaK = facts.halfWidthK() / NINE_IN_TEN;
        double scatter = Math.hypot(sigmaK, AMPLIFIER_SCATTER_K);
        double odds = density(facts.offsetK(), errorK, scatter) * LOW_RANGE_K;
        for (WitnessOffset before : facts.question().offsets()) {
            if (Math.abs(before.atC() - facts.real().levelC()) <= OTHER_HEAT_K) {
                // A board is off by the same from the first firing on; a sensor may have come to it since.
                double itsScatter = Math.hypot(before.halfWidthK() / NINE_IN_TEN, AMPLIFIER_SCATTER_K);
                double board = density(before.correctionK(), AmplifierError.atShownK(before.atC()), itsScatter);
                double steady = density(before.correctionK(), facts.offsetK(), itsScatter);
                odds *= (board + 1e-4) / ((steady + 1 / (2 * LOW_RANGE_K)) / 2);
            }
            if (Math.abs(before.atC() - facts.real().levelC()) > OTHER_HEAT_K) {
                double itsScatter = Math.hypot(before.halfWidthK() / NINE_IN_TEN, AMPLIFIER_SCATTER_K);
                double board = density(before.correctionK(), AmplifierError.atShownK(before.atC()), itsScatter);
                double steady = density(before.correctionK(), facts.offsetK(), itsScatter);
                double grows = density(
                        before.correctionK(),
                        facts.offsetK() * before.atC() / facts.real().levelC(),
                        itsScatter);
                odds *= (board + 1e-4) / (Math.max(steady, grows) + 1e-4);
            }
        }
        odds *= coldStartOdds(facts);
        // By judgement: such a chip gives quarters; a finer number has been through some sum.
        return odds
                * switch (AmplifierError.stepsOf(facts.question().readings().curve())) {
                    case QUARTERS -> 1.25;
                    case COARSER -> 1;
                    case FINER -> 0.4;
                };
    }

    /**
     * What the first reading of a cold kiln says: an amplifier is right at the room's temperature, and so is a sensor that
     * reads low by a part of the reading; one that reads low by the same amount everywhere shows a room too cold by it.
     */
    private static double coldStartOdds(Case facts) {
        double startC = facts.bins().celsius[0];
        if (startC > Case.WARM_C) {
            return 1;
        }
        double right = density(startC, ROOM_C, ROOMS_DIFFER_K);
        double shifted = density(startC + facts.offsetK(), ROOM_C, ROOMS_DIFFER_K);
        return right / ((right + shifted) / 2);
    }

    private static double density(double value, double middle, double scatter) {
        double z = (value - middle) / scatter;
        return Math.exp(-z * z / 2) / (scatter * Math.sqrt(2 * Math.PI));
    }

    /** A log whose numbers were corrected here, while the controller went by the raw ones. */
    private static void steeredByRaw(Case facts, Found found) {
        if (!facts.isCorrectedLog()) {
            return;
        }
        double planC = facts.plan().levelC();
        double errorK = AmplifierError.atShownK(planC);
        double over = facts.real().levelC() - planC;
        boolean setpointKnown = facts.conduct().asks().known();
        double askedC = setpointKnown ? facts.shownC(facts.conduct().asks().topC()) : planC;
        boolean content = Math.abs(askedC - planC) < 4;
        if (errorK >= LEAST_AMPLIFIER_K && content && Math.abs(over - errorK) < 5) {
            double cost = facts.cost(Attribution.Part.LEVEL);
            found.add(
                    CauseCode.AMPLIFIER_UNCORRECTED,
                    cost,
                    setpointKnown ? Sureness.VERY_LIKELY : Sureness.LIKELY,
                    List.of(Evidence.of(
                            Evidence.Kind.STEERED_BY_RAW_NUMBER,
                            Amount.degrees(askedC),
                            Amount.degrees(facts.real().levelC()))));
        }
    }
}

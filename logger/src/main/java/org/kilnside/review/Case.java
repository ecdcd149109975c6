package org.kilnside.review;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConePosition;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.heatwork.FreeFall;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.heatwork.WitnessJudgement;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlannedCurve;
import org.kilnside.schedule.Segment;
import org.kilnside.sensor.Calibration;
import org.kilnside.sensor.Probe;

/** A firing laid out for review: its parts, its plan's parts, its cost part by part, what its controller and cones say. */
final class Case {
    /** Nine in ten of a normal error, in standard errors. */
    private static final double NINE_IN_TEN = 1.645;

    /** Further from the plan's top than this, a firing that was not cut short had another plan (common practice). */
    private static final double ANOTHER_PLAN_K = 100;

    static final double WARM_C = 60;

    private static final double CLOCK_S = 180;
    private static final double EARLY_FROM_C = 650;
    private static final double EARLY_BELOW_TOP_K = 150;
    private static final double HUNG_BACK = 1.15;

    /** A kiln that creeps more slowly than this stands, K/h. */
    private static final double SLOWEST_RAMP_K_PER_H = 30;

    /** A firing whose top was not seen at all may have gone as planned, or over it by so much, cones. */
    private static final double UNSEEN_STEPS = 0.5;

    /** A usual kiln's need per K hotter, in the need's own unit. */
    private static final double HEAT_PER_K = 2;

    private final ReviewQuestion question;
    private final Bins bins;
    private final double knownK;
    private final Optional<ShownNumbers> shown;
    private final Optional<HiddenTop> hidden;
    private final TopPhase phase;
    private final Shape real;
    private final Shape plan;
    private final Conduct conduct;
    private final WitnessJudgement witness;
    private final Attribution attribution;
    private final Map<Attribution.Part, Double> shares;
    private final FreeFall fall;
    private final ConeReached seen;
    private final Optional<Frozen> frozen;
    private final Optional<Cooling> cooling;
    private final Habit habit;
    private final boolean riseSeen;
    private final PlannedCurve planned;

    private Case(ReviewQuestion question) {
        this.question = question;
        Bins corrected = Bins.of(question.readings().curve());
        knownK = knownK(question, corrected);
        // What the controller saw: it knows nothing of a calibration, and plan and set-point are in its numbers.
        Bins uncalibrated = corrected.colderBy(knownK);
        Optional<ShownNumbers> said = question.shown()
                .map(chip ->
                        new ShownNumbers(new Probe(question.sensor().probe().type(), chip)));
        // Whoever fitted the amplifier may not know whether the controller corrects it: the set-point does.
        boolean corrects =
                said.map(numbers -> numbers.areCorrected(uncalibrated)).orElse(false);
        shown = corrects ? Optional.empty() : said;
        frozen = Frozen.of(question.readings().curve());
        Bins steered = corrects ? uncalibrated.withSetpoints(said.get()::shownAt) : uncalibrated;
        // A frozen number is no reading: what the kiln did meanwhile is as unknown as in a gap.
        Bins read = frozen.map(stands -> steered.without(stands.fromS(), stands.fromS() + 60 * stands.minutes()))
                .orElse(steered);
        planned = question.plan().curveFrom(Temperature.ofCelsius(start(read)));
        Shape unfallen = Shape.planned(planned, new Line(), FreeFall.USUAL);
        double topC = unfallen.levelC();
        hidden = HiddenTop.of(
                read, new HiddenTop.Asked(topC, unfallen.lastRateKPerH(), plannedHoldMinutes() * 60, planned));
        bins = hidden.map(HiddenTop::filled).orElse(read);
        phase = TopPhase.of(bins, AfterTop.nearTopK(planned));
        fall = freeFall(bins, phase);
        Shape measured = Shape.measured(bins, phase, fall);
        // A fall from far below tells nothing of how the kiln would have left the plan's top but by its pace.
        boolean likeThePlans = measured.levelC() > topC - Shape.BELOW_K;
        plan = Shape.planned(planned, likeThePlans ? measured.fall() : Shape.byItself(topC, fall), fall);
        riseSeen = measured.rise().size() > 1 && measured.rise().celsius(0) < -100;
        real = riseSeen ? measured : new Shape(measured.levelC(), plan.rise(), measured.top(), measured.fall());
        conduct = Conduct.of(bins, phase, real, plan, plannedHoldMinutes(), schedule(planned));
        witness = WitnessJudgement.of(question.table(), trace(bins.colderBy(-knownK)), question.witness());
        attribution = new Attribution(question.table(), real, plan, offsetK());
        shares = attribution.shares();
        List<Bins> earlier = question.earlier().stream().map(Bins::of).toList();
        cooling = Cooling.of(bins, phase, planned, fall, earlier);
        habit = Habit.of(
                earlier,
                earlier.stream()
                        .map(before -> TopPhase.of(before, HeatWork.NEAR_TOP_K).leftS())
                        .toList());
        seen = HeatWork.of(question.table(), question.readings().curve()).reached(question.sensor());
    }

    static Case of(ReviewQuestion question) {
        return new Case(question);
    }

    /** A plan is lit at the log's first temperature, or cold where the log begins later than its first ramp. */
    private static double start(Bins read) {
        double first = read.celsius[0];
        return first < WARM_C ? first : 20;
    }

    private Conduct.Schedule schedule(PlannedCurve planned) {
        boolean heatsAgain = AfterTop.heatsAgain(planned);
        if (bins.celsius[0] > WARM_C) {
            return new Conduct.Schedule(false, 0, heatsAgain);
        }
        double topC = planned.schedule().top().celsius();
        double endS = planned.legs().stream()
                .filter(leg -> leg.toC() >= topC)
                .mapToDouble(leg -> leg.toMs() / 1000.0)
                .max()
                .orElseThrow();
        boolean held = plannedHoldMinutes() > 4 && heldMinutes() > Math.min(4, 0.35 * plannedHoldMinutes());
        double tookS = phase.leftS() - bins.timeS[0];
        double goalC = Math.min(phase.levelC(), topC) - TopPhase.NEAR_K;
        double plannedS = 0;
        for (PlannedCurve.Leg leg : planned.legs()) {
            boolean here = leg.kind() == PlannedCurve.Kind.RAMP && leg.fromC() < goalC && leg.toC() >= goalC;
            if (here) {
                double share = (goalC - leg.fromC()) / (leg.toC() - leg.fromC());
                plannedS = (leg.fromMs() + share * leg.durationMs()) / 1000.0;
                break;
            }
        }
        double lateS = plannedS > 0 ? phase.reachedS() - bins.timeS[0] - plannedS : 0;
        // A kiln that creeps up to the end looks held; one that held a lower top on purpose came there in time.
        boolean byTheClock = (!held || lateS > Conduct.LATE_S)
                && Math.abs(tookS - endS - AfterTop.heldBackS(planned, phase.levelC())) < CLOCK_S + 0.003 * endS;
        return new Conduct.Schedule(byTheClock, lateS, heatsAgain);
    }

    private static FreeFall freeFall(Bins bins, TopPhase phase) {
        double level = phase.levelC();
        int from = bins.firstFrom(phase.leftS());
        while (from < bins.last() && bins.celsius[from] > level - 8) {
            from++;
        }
        int to = from;
        while (to < bins.last() && bins.celsius[to] > level - 60) {
            to++;
        }
        double seconds = bins.timeS[to] - bins.timeS[from];
        double ratio = (bins.celsius[from] - 20) / (bins.celsius[to] - 20);
        boolean known = bins.celsius[from] - bins.celsius[to] > 25 && seconds > 60 && ratio > 1;
        return known
                ? FreeFall.ofConstant(Math.max(1800, Math.min(60_000, seconds / Math.log(ratio))))
                : FreeFall.USUAL;
    }

    private static Trace trace(Bins bins) {
        Trace.Builder line = new Trace.Builder();
        for (int i = 0; i < bins.size; i++) {
            line.add(Math.round(bins.timeS[i] * 1000), bins.celsius[i]);
        }
        return line.view();
    }

    ReviewQuestion question() {
        return question;
    }

    Bins bins() {
        return bins;
    }

    TopPhase phase() {
        return phase;
    }

    Shape real() {
        return real;
    }

    Shape plan() {
        return plan;
    }

    Conduct conduct() {
        return conduct;
    }

    WitnessJudgement witness() {
        return witness;
    }

    Attribution attribution() {
        return attribution;
    }

    /** The hold the plan has at its top, minutes. */
    double plannedHoldMinutes() {
        double minutes = 0;
        for (Segment segment : question.plan().segments()) {
            if (segment instanceof Segment.Ramp ramp
                    && ramp.to().equals(question.plan().top())) {
                minutes += ramp.hold().toSeconds() / 60.0;
            }
        }
        return minutes;
    }

    /** The hold there was, counted as the plan's is: without the last degrees of the ramp, minutes. */
    double heldMinutes() {
        double rate = Math.max(SLOWEST_RAMP_K_PER_H, real.lastRateKPerH());
        double ramp = Math.max(plan.topMinutes() - plannedHoldMinutes(), TopPhase.NEAR_K / rate * 60);
        return Math.max(0, real.topMinutes() - ramp);
    }

    Optional<HiddenTop> hidden() {
        return hidden;
    }

    Optional<Frozen> frozen() {
        return frozen;
    }

    Optional<Cooling> cooling() {
        return cooling;
    }

    Habit habit() {
        return habit;
    }

    /** Whether the log held an amplifier's raw numbers and was corrected before it came here. */
    boolean isCorrectedLog() {
        return shown.isPresent();
    }

    /** The number the controller shows at a reading, °C: another one where it shows what an amplifier says as it is. */
    double shownC(double readC) {
        return shown.map(numbers -> numbers.shownAt(readC)).orElse(readC);
    }

    /** What the kiln gave when it came to its top, against what the plan's last ramp needs there; 1 = enough. */
    double powerAgainstNeed() {
        double[] wall = HeatNeed.intoWall(bins);
        double left = phase.leftS();
        int at = bins.at(left - 600);
        double gave =
                HeatNeed.whole(Math.max(0, bins.slopeKPerH(left - 2400, left - 60)) / 3600, wall[at], bins.celsius[at]);
        double further = (plan.levelC() - phase.levelC()) * HEAT_PER_K;
        double needed = HeatNeed.whole(plan.lastRateKPerH() / 3600, wall[at], bins.celsius[at]) + further;
        return gave / needed;
    }

    /** Whether it was slower than planned long before its top already, as a kiln is that has lost a third of its power. */
    boolean hungBackEarly() {
        double toC = phase.levelC() - EARLY_BELOW_TOP_K;
        double plannedS = 0;
        for (PlannedCurve.Leg leg : planned.legs()) {
            if (leg.kind() == PlannedCurve.Kind.RAMP
                    && leg.toC() > leg.fromC()
                    && leg.toC() <= planned.schedule().top().celsius()) {
                double span = Math.min(toC, leg.toC()) - Math.max(EARLY_FROM_C, leg.fromC());
                plannedS += Math.max(0, span) / (leg.toC() - leg.fromC()) * leg.durationMs() / 1000.0;
            }
        }
        int from = 0;
        while (from < bins.last() && bins.celsius[from] < EARLY_FROM_C) {
            from++;
        }
        int to = from;
        while (to < bins.last() && bins.celsius[to] < toC) {
            to++;
        }
        return from > 0 && plannedS > 0 && bins.timeS[to] - bins.timeS[from] > HUNG_BACK * plannedS;
    }

    boolean topHidden() {
        return hidden.map(HiddenTop::heatingWentOn).orElse(false) || seen.top() == ConeReached.Top.BEFORE_FIRST_READING;
    }

    /** What the readings alone prove. */
    Optional<ConePosition> proven() {
        return seen.cone().past().isPresent() ? Optional.of(seen.cone()) : Optional.empty();
    }

    /** By how much the ware was hotter than the sensor read, as far as anything tells, K. */
    double offsetK() {
        return knownK + (witness.isKnown() ? witness.offsetK() : 0);
    }

    /** By how much the ware is hotter than the sensor reads at the top, as known before this firing, K. */
    double knownK() {
        return knownK;
    }

    private static double knownK(ReviewQuestion question, Bins corrected) {
        Calibration calibration = question.sensor().calibration();
        double highest = Double.NEGATIVE_INFINITY;
        for (double celsius : corrected.celsius) {
            highest = Math.max(highest, celsius);
        }
        if (!calibration.covers(highest)) {
            return 0;
        }
        double shown = highest;
        for (int i = 0; i < 4; i++) {
            shown = highest - (calibration.correctedC(shown) - shown);
        }
        return highest - shown;
    }

    /** What a part cost, cones, positive = short. */
    double cost(Attribution.Part part) {
        return shares.get(part);
    }

    Optional<Cone> wanted() {
        return question.wanted().or(() -> question.plan().aimsFor().flatMap(Cone::find));
    }

    /** Cones short of what the load wants; of the plan where nobody said. */
    double shortForLoad() {
        return wanted().map(cone -> Reviewer.wantedSteps(cone)
                        - attribution.reached().cone().steps().orElse(0))
                .orElseGet(() -> attribution.plannedSteps() - attribution.reachedSteps());
    }

    /** Cones by which a degree more of everything would have changed the firing. */
    double conesPerK() {
        return Math.max(0.005, (attribution.reachedSteps(3) - attribution.reachedSteps(-3)) / 6);
    }

    /** How far the curve may be off, nine in ten, K. */
    double halfWidthK() {
        if (witness.isKnown()) {
            return NINE_IN_TEN * Math.sqrt(witness.sigmaK() * witness.sigmaK() + 1);
        }
        return HeatWork.halfWidthK(question.table().series(), question.sensor(), phase.levelC() + knownK);
    }

    double mostSteps() {
        double most = attribution.reachedSteps(halfWidthK() + hiddenK());
        return beginsAfterTop() ? Math.max(most, attribution.plannedSteps() + UNSEEN_STEPS) : most;
    }

    /** Whether the log begins when the kiln was falling already, so that nobody knows from where. */
    boolean beginsAfterTop() {
        return seen.top() == ConeReached.Top.BEFORE_FIRST_READING && phase.levelC() < plan.levelC() - TopPhase.NEAR_K;
    }

    double leastSteps() {
        double proven = topHidden() && !witness.isKnown()
                ? Math.min(seen.between().from().steps().orElse(0), attribution.reachedSteps(-halfWidthK()))
                : Double.POSITIVE_INFINITY;
        return Math.min(proven, attribution.reachedSteps(-halfWidthK()));
    }

    /** What was not seen may have been a little hotter than the likeliest course. */
    private double hiddenK() {
        return topHidden() ? 10 : 0;
    }

    /** Whether the last ramp was seen. */
    boolean riseSeen() {
        return riseSeen;
    }

    /** Whether the plan brings a cone down. */
    boolean planReaches() {
        return !attribution.planned().isBelowScale();
    }

    /** What the readings come to by themselves. */
    ConeReached seen() {
        return seen;
    }

    /** Whether a firing that was neither cut short nor too weak went somewhere else altogether. */
    boolean isPlanOfAnotherFiring() {
        double off = phase.levelC() - plan.levelC();
        boolean cutShort = conduct.end().how() == Ending.How.STILL_ASKING
                || conduct.limited().atEnd()
                || hidden.isPresent()
                || !Extent.of(this).tellsACone()
                || conduct.asks().known() && Math.abs(conduct.asks().topC() - plan.levelC()) < 30
                || real.topMinutes() < 6 && off < 0;
        return off > ANOTHER_PLAN_K || off < -ANOTHER_PLAN_K && !cutShort;
    }
}

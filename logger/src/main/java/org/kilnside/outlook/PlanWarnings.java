package org.kilnside.outlook;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.firing.Trace;
import org.kilnside.outlook.PlanWarning.AboveLimit;
import org.kilnside.outlook.PlanWarning.Basis;
import org.kilnside.outlook.PlanWarning.CandlingShort;
import org.kilnside.outlook.PlanWarning.CannotFollow;
import org.kilnside.outlook.PlanWarning.CoolsSlower;
import org.kilnside.outlook.PlanWarning.FallsTooFast;
import org.kilnside.outlook.PlanWarning.HoldMayBoil;
import org.kilnside.outlook.PlanWarning.MissesAim;
import org.kilnside.outlook.PlanWarning.Passage;
import org.kilnside.outlook.PlanWarning.TooFast;
import org.kilnside.outlook.PlanWarning.TopOutOfReach;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlannedCurve;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.thermal.ImaginedFiring;
import org.kilnside.thermal.ImaginedFirings;

/** Looks through a plan, and through how this kiln will fire it, for what is rash. */
final class PlanWarnings {
    /** Less likely than this is not worth a warning. */
    private static final double LEAST_SHARE = 0.1;

    /** A kiln of which nothing is known falls one way or the other: of that a toss-up is no warning. */
    private static final double LIKELY_SHARE = 0.6;

    /** A segment that ends later by less is as good as followed. */
    private static final Duration LEAST_LATE = Duration.ofMinutes(5);

    private static final double BOILING_FROM_C = 80;
    private static final double BOILING_TO_C = 120;
    private static final double QUARTZ_FROM_C = 548;
    private static final double QUARTZ_TO_C = 598;
    private static final double BURN_OUT_FROM_C = 650;
    private static final double BURN_OUT_TO_C = 900;

    /** Less of a range than this says nothing of the rate through it, K. */
    private static final double LEAST_RANGE_K = 10;

    /** A home-built controller overshoots 10 to 20 °C at low heat (common practice). */
    private static final double OVERSHOOT_C = 10;

    private static final double BOILS_C = 100;

    /** Candling is done between these (common practice: 80 to 85 °C). */
    private static final double CANDLING_FROM_C = 60;

    /** A written rate this little beyond a limit is the same. */
    private static final double ROUNDING = 1.005;

    /** A cone this little off is the aim. */
    private static final double LEAST_CONES = 0.5;

    private final OutlookQuestion question;
    private final Schedule plan;
    private final ImaginedFirings firings;
    private final ImaginedFiring middle;
    private final List<PlanWarning> found = new ArrayList<>();

    private PlanWarnings(OutlookQuestion question, ImaginedFirings firings) {
        this.question = question;
        this.plan = question.plan();
        this.firings = firings;
        this.middle = firings.middle();
    }

    static List<PlanWarning> of(
            OutlookQuestion question, ImaginedFirings firings, ConeAhead cone, Estimate<Temperature> highest) {
        PlanWarnings warnings = new PlanWarnings(question, firings);
        warnings.limits();
        warnings.candling();
        for (int i = 0; i < warnings.middle.legs().size(); i++) {
            warnings.leg(i);
        }
        warnings.freeCooling();
        warnings.top(highest);
        warnings.aim(cone);
        List<PlanWarning> sorted = new ArrayList<>(warnings.found);
        sorted.sort(Comparator.comparingInt(PlanWarning::segment));
        return sorted;
    }

    private void limits() {
        for (int number = 1; number <= plan.segments().size(); number++) {
            if (plan.segments().get(number - 1) instanceof Segment.Ramp ramp) {
                Optional<Temperature> kiln = question.kiln().limits().temperature();
                if (kiln.isPresent() && ramp.to().isAbove(kiln.get())) {
                    found.add(new AboveLimit(number, ramp.to(), kiln.get(), Basis.KILN_MAKER));
                }
                Optional<Temperature> ware = question.ware().limit();
                if (ware.isPresent() && ramp.to().isAbove(ware.get())) {
                    found.add(new AboveLimit(number, ramp.to(), ware.get(), Basis.WARE_MAKER));
                }
                Optional<HeatingRate> fastest = question.kiln().limits().rate();
                if (fastest.isPresent() && !plan.isControlledCooling(number) && exceeds(ramp.rate(), fastest.get())) {
                    found.add(new TooFast(number, Passage.WHOLE_SEGMENT, ramp.rate(), fastest.get(), Basis.KILN_MAKER));
                }
            }
        }
    }

    /** Raw ware: how long it stays warm below the boiling point, and whether a hold comes too near to it. */
    private void candling() {
        if (!question.ware().isRaw()) {
            return;
        }
        Duration held = Duration.ZERO;
        int number = 1;
        for (int i = 1; i <= plan.segments().size(); i++) {
            if (!(plan.segments().get(i - 1) instanceof Segment.Ramp ramp) || plan.isControlledCooling(i)) {
                break;
            }
            double toC = ramp.to().celsius();
            if (toC < BOILS_C && !ramp.hold().isZero()) {
                if (toC >= CANDLING_FROM_C) {
                    held = held.plus(ramp.hold());
                    number = i;
                }
                if (toC > BOILS_C - OVERSHOOT_C) {
                    found.add(new HoldMayBoil(i, ramp.to()));
                }
            }
            if (toC >= BOILS_C) {
                break;
            }
        }
        Duration wanted = question.ware().candling().orElseThrow();
        if (held.compareTo(wanted) < 0) {
            found.add(new CandlingShort(number, held, wanted));
        }
    }

    private void leg(int index) {
        ImaginedFiring.Leg leg = middle.legs().get(index);
        switch (leg.planned().kind()) {
            case RAMP -> {
                follows(index);
                through(
                        leg,
                        BOILING_FROM_C,
                        BOILING_TO_C,
                        Passage.BOILING,
                        question.ware().fastestTo600());
                through(
                        leg,
                        QUARTZ_FROM_C,
                        QUARTZ_TO_C,
                        Passage.QUARTZ_RISING,
                        question.ware().fastestTo600());
                question.ware()
                        .fastestInBurnOut()
                        .ifPresent(limit -> through(leg, BURN_OUT_FROM_C, BURN_OUT_TO_C, Passage.BURN_OUT, limit));
            }
            case CONTROLLED_COOLING -> {
                coolsSlower(index);
                through(
                        leg,
                        QUARTZ_FROM_C,
                        QUARTZ_TO_C,
                        Passage.QUARTZ_FALLING,
                        question.ware().fastestDownThroughQuartz());
            }
            case HOLD -> {
                // A hold has no rate.
            }
        }
    }

    private record Lag(double share, double fromC, double lateS) {}

    /** In how many of the kilns it may be a stretch is not followed, where they fall behind and how late they end. */
    private Optional<Lag> lag(int index) {
        List<ImaginedFiring.Leg> lagging = firings.draws().stream()
                .filter(draw -> index < draw.legs().size())
                .map(draw -> draw.legs().get(index))
                .filter(leg -> leg.lagsFromC().isPresent() && leg.lateS() > LEAST_LATE.toSeconds())
                .toList();
        double share = lagging.size() / (double) firings.draws().size();
        if (share < LEAST_SHARE) {
            return Optional.empty();
        }
        double[] from = lagging.stream()
                .mapToDouble(leg -> leg.lagsFromC().getAsDouble())
                .sorted()
                .toArray();
        double[] late =
                lagging.stream().mapToDouble(ImaginedFiring.Leg::lateS).sorted().toArray();
        return Optional.of(new Lag(share, from[from.length / 2], late[late.length / 2]));
    }

    private void follows(int index) {
        if (middle.powerKnown()) {
            lag(index)
                    .ifPresent(lag -> found.add(new CannotFollow(
                            middle.legs().get(index).planned().segment(),
                            Temperature.ofCelsius(lag.fromC()),
                            Duration.ofSeconds(Math.round(lag.lateS())),
                            lag.share())));
        }
    }

    private void coolsSlower(int index) {
        Optional<Lag> lag = lag(index);
        if (lag.isPresent()) {
            PlannedCurve.Leg planned = middle.legs().get(index).planned();
            double fallK = planned.fromC() - planned.toC();
            double planHours = planned.durationMs() / 3.6e6;
            found.add(new CoolsSlower(
                    planned.segment(),
                    HeatingRate.ofKelvinPerHour(fallK / planHours),
                    HeatingRate.ofKelvinPerHour(fallK / (planHours + lag.get().lateS() / 3600)),
                    lag.get().share()));
        }
    }

    /** How fast the kiln will really go through a range on a stretch of the plan, against a limit of common practice. */
    private void through(ImaginedFiring.Leg leg, double lowC, double highC, Passage passage, HeatingRate limit) {
        double fromC = Math.min(leg.planned().fromC(), leg.planned().toC());
        double toC = Math.max(leg.planned().fromC(), leg.planned().toC());
        if (passage.pointC().isPresent() && !isWithin(passage.pointC().getAsDouble(), fromC, toC)) {
            return;
        }
        OptionalDouble rate = rate(middle.curve(), leg.fromS(), leg.toS(), Math.max(lowC, fromC), Math.min(highC, toC));
        if (rate.isPresent() && exceeds(HeatingRate.ofKelvinPerHour(rate.getAsDouble()), limit)) {
            found.add(new TooFast(
                    leg.planned().segment(),
                    passage,
                    HeatingRate.ofKelvinPerHour(rate.getAsDouble()),
                    limit,
                    Basis.COMMON_PRACTICE));
        }
    }

    /** Of two stretches that meet at a point the one below it goes through. */
    private static boolean isWithin(double pointC, double fromC, double toC) {
        return fromC < pointC && pointC <= toC;
    }

    private void freeCooling() {
        int last = plan.segments().size();
        HeatingRate limit = question.ware().fastestDownThroughQuartz();
        double[] rates = firings.draws().stream()
                .map(draw -> rate(draw.curve(), draw.planOverS(), Double.MAX_VALUE, QUARTZ_FROM_C, QUARTZ_TO_C))
                .flatMapToDouble(OptionalDouble::stream)
                .sorted()
                .toArray();
        double share = Arrays.stream(rates)
                        .filter(each -> exceeds(HeatingRate.ofKelvinPerHour(each), limit))
                        .count()
                / (double) firings.draws().size();
        if (share >= LIKELY_SHARE) {
            HeatingRate own = HeatingRate.ofKelvinPerHour(rates[rates.length / 2]);
            found.add(new FallsTooFast(last, own, limit, share));
        }
    }

    /** Mean rate between two temperatures within a span of time, K/h, whichever way it goes; empty when it is not there. */
    private static OptionalDouble rate(Trace curve, double fromS, double toS, double lowC, double highC) {
        if (highC - lowC < LEAST_RANGE_K) {
            return OptionalDouble.empty();
        }
        double lowS = Double.NaN;
        double highS = Double.NaN;
        for (int i = 1; i < curve.size(); i++) {
            double beginS = curve.elapsedMs(i - 1) / 1000.0;
            double endS = curve.elapsedMs(i) / 1000.0;
            if (endS <= fromS || beginS >= toS) {
                continue;
            }
            lowS = Double.isNaN(lowS) ? crossing(curve, i, lowC) : lowS;
            highS = Double.isNaN(highS) ? crossing(curve, i, highC) : highS;
        }
        double seconds = Math.abs(highS - lowS);
        return Double.isNaN(seconds) || seconds == 0
                ? OptionalDouble.empty()
                : OptionalDouble.of((highC - lowC) / seconds * 3600);
    }

    /** When the curve passes a temperature on its way to corner i; NaN when it does not. */
    private static double crossing(Trace curve, int i, double celsius) {
        double before = curve.temperatureC(i - 1) - celsius;
        double after = curve.temperatureC(i) - celsius;
        if (before * after > 0 || before == after) {
            return Double.NaN;
        }
        double beginS = curve.elapsedMs(i - 1) / 1000.0;
        double endS = curve.elapsedMs(i) / 1000.0;
        return beginS + (endS - beginS) * before / (before - after);
    }

    private void top(Estimate<Temperature> highest) {
        if (!middle.powerKnown()) {
            return;
        }
        double missing = 1 - firings.share(firing -> firing.arrivalS().isPresent());
        if (missing >= LEAST_SHARE) {
            int segment = plan.topSegment();
            found.add(new TopOutOfReach(segment, plan.top(), highest, missing));
        }
    }

    private void aim(ConeAhead cone) {
        question.plan().aimsFor().flatMap(org.kilnside.heatwork.Cone::find).ifPresent(aim -> {
            Optional<Double> wanted = ConeAhead.steps(aim, question.table());
            OptionalDouble comes = cone.cone().steps();
            if (wanted.isPresent()) {
                double off = comes.orElse(-1) - wanted.get();
                if (Math.abs(off) >= LEAST_CONES) {
                    found.add(new MissesAim(plan.topSegment(), aim, off));
                }
            }
        });
    }

    private static boolean exceeds(HeatingRate rate, HeatingRate limit) {
        return rate.kelvinPerHour() > limit.kelvinPerHour() * ROUNDING;
    }
}

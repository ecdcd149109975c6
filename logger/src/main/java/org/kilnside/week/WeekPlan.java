package org.kilnside.week;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.kilnside.firing.Kiln;
import org.kilnside.outlook.Estimate;
import org.kilnside.outlook.Outlook;
import org.kilnside.outlook.OutlookQuestion;
import org.kilnside.quantity.Energy;
import org.kilnside.week.PlannedFiring.AtTop;

/**
 * When which load is fired. Each firing is planned by the late end of its doubt, so that each holds in about nineteen of
 * twenty; one that takes longer still moves everything behind it.
 *
 * @param loads what each load's firing will come to, in the week's order
 * @param firings in the order in which they are lit
 * @param cannotKnow places of the loads of which nobody can say how long they take
 * @param noRoom places of the loads for which there is no time within {@link #HORIZON}, or which wait for one there is none
 *     for
 * @param ifLit when each of those without room would come to its top if it were lit as soon as somebody is there, in the order of
 *     {@code noRoom}; empty where not even that gives a time at which somebody unloads it, or where it waits for another
 * @param spare how long before its date the tightest load is out; below zero where it is late; empty without a date
 * @param ifCoolAtProbable what it would come to if every firing were cool at its probable time, an even chance each; told
 *     only where something is late or has no room
 * @param ifTopAlone what it would come to if nobody had to be there at the tops; told only where something is late or has
 *     no room, and only where it would be better
 * @param energy of the firings planned; empty where one's cannot be known, or none is planned
 * @param cost of that; empty without a tariff
 */
public record WeekPlan(
        List<LoadAhead> loads,
        List<PlannedFiring> firings,
        List<Integer> cannotKnow,
        List<Integer> noRoom,
        List<Optional<Lit>> ifLit,
        Optional<Duration> spare,
        Optional<Instead> ifCoolAtProbable,
        Optional<Instead> ifTopAlone,
        Optional<Estimate<Energy>> energy,
        Optional<Outlook.Cost> cost) {
    /** Nothing is planned further ahead: nobody knows what a month brings. */
    public static final Duration HORIZON = Duration.ofDays(28);

    public WeekPlan {
        loads = List.copyOf(loads);
        firings = List.copyOf(firings);
        cannotKnow = List.copyOf(cannotKnow);
        noRoom = List.copyOf(noRoom);
        ifLit = List.copyOf(ifLit);
    }

    /** A lighting, and the probable times of its top and of its hold's end. */
    public record Lit(Instant light, Instant top, Instant topOver) {}

    /**
     * What another plan would come to.
     *
     * @param out when all are out
     * @param inTime whether that is in time
     */
    public record Instead(Instant out, boolean inTime) {}

    /**
     * Plans.
     *
     * @param about the kiln, what earlier firings taught, the sensor, and the room where the week does not say it; its plan,
     *     load and ware do not count
     * @param now nothing is planned before
     */
    public static WeekPlan of(Week week, OutlookQuestion about, Instant now) {
        OutlookQuestion inRoom = week.room().map(about::withRoom).orElse(about);
        Kiln.Thresholds thresholds = about.kiln().thresholds();
        List<LoadAhead> loads = new ArrayList<>();
        for (Load load : week.loads()) {
            Outlook outlook = Outlook.of(inRoom.withPlan(load.plan())
                    .withLoadKg(load.kg())
                    .withWare(load.ware())
                    .withWanted(Optional.empty()));
            loads.add(new LoadAhead(load, outlook, FiringTimes.of(outlook, thresholds)));
        }
        return of(week, loads, now);
    }

    /** Plans loads whose firings are known. */
    static WeekPlan of(Week week, List<LoadAhead> loads, Instant now) {
        Instant start = week.kilnFree().map(free -> Presence.later(free, now)).orElse(now);
        Instant end = now.plus(HORIZON);
        List<Integer> known = plannable(loads);
        List<Timed> timed =
                known.stream().map(place -> timed(week, loads, known, place)).toList();
        Presence there = start.isBefore(end)
                ? week.there().within(new Span(start, end), week.zone())
                : Presence.of(List.of(), List.of(), new Span(now, end));
        Planning planning = (firings, wanted) -> new Planner(firings, there, start, end, week.packing(), wanted).plan();
        List<PlannedFiring> chosen = chosen(week, timed, planning);
        boolean inTime = isInTime(chosen, timed);
        Optional<Instead> probable = inTime
                ? Optional.empty()
                : instead(
                        known.size() == loads.size(),
                        planning.plan(
                                timed.stream().map(Timed::coolAtProbable).toList(),
                                week.topAlone() ? AtTop.NOBODY : AtTop.SOMEBODY),
                        timed);
        Optional<Instead> alone = inTime || week.topAlone()
                ? Optional.empty()
                : Optional.of(planning.plan(timed, AtTop.NOBODY))
                        .filter(plan -> isBetter(plan, chosen))
                        .flatMap(plan -> instead(known.size() == loads.size(), plan, timed));
        List<Integer> missing = IntStream.range(0, known.size())
                .filter(place -> chosen.stream().noneMatch(firing -> firing.load() == place))
                .mapToObj(known::get)
                .toList();
        List<Integer> unknown = IntStream.range(0, loads.size())
                .filter(place -> loads.get(place).times().isEmpty())
                .boxed()
                .toList();
        List<Integer> waiting = IntStream.range(0, loads.size())
                .filter(place -> !known.contains(place) && !unknown.contains(place))
                .boxed()
                .toList();
        List<Integer> noRoom = new ArrayList<>(missing);
        noRoom.addAll(waiting);
        noRoom.sort(Comparator.naturalOrder());
        List<LoadAhead> fired = chosen.stream()
                .map(firing -> loads.get(known.get(firing.load())))
                .toList();
        return new WeekPlan(
                loads,
                chosen.stream()
                        .map(firing -> firing.ofLoad(known.get(firing.load())))
                        .toList(),
                unknown,
                noRoom,
                noRoom.stream()
                        .map(place -> waitsFor(loads, place).isPresent()
                                ? Optional.<Lit>empty()
                                : loads.get(place).times().flatMap(times -> lit(times, new Slots(there, end), start)))
                        .toList(),
                spare(chosen, timed),
                probable,
                alone,
                sum(fired, ahead -> ahead.outlook().energy().map(each -> each.map(Energy::kilowattHours)))
                        .map(kwh -> kwh.map(Energy::ofKilowattHours)),
                cost(fired));
    }

    private static Optional<Lit> lit(FiringTimes times, Slots slots, Instant start) {
        return slots.first(times, AtTop.NOBODY, start)
                .map(light -> new Lit(
                        light,
                        light.plus(times.top().probable()),
                        light.plus(times.topOver().probable())));
    }

    /** Places of the loads that can be planned: how long they take is known, and so it is of what they wait for. */
    private static List<Integer> plannable(List<LoadAhead> loads) {
        List<Integer> known = new ArrayList<>();
        for (int place = 0; place < loads.size(); place++) {
            boolean can = true;
            Optional<Integer> at = Optional.of(place);
            while (at.isPresent() && can) {
                can = loads.get(at.get()).times().isPresent();
                at = waitsFor(loads, at.get());
            }
            if (can) {
                known.add(place);
            }
        }
        return known;
    }

    private static Optional<Integer> waitsFor(List<LoadAhead> loads, int place) {
        return loads.get(place)
                .load()
                .after()
                .map(after -> IntStream.range(0, loads.size())
                        .filter(other -> loads.get(other).load().name().equals(after.load()))
                        .findFirst()
                        .orElseThrow());
    }

    private static Timed timed(Week week, List<LoadAhead> loads, List<Integer> known, int place) {
        Load load = loads.get(place).load();
        Optional<Integer> after = waitsFor(loads, place).map(known::indexOf);
        return new Timed(
                loads.get(place).times().orElseThrow(),
                load.ready(),
                after.map(OptionalInt::of).orElse(OptionalInt.empty()),
                load.after().map(Load.After::drying).orElse(Duration.ZERO),
                load.due().or(week::due),
                load.packed());
    }

    /**
     * The one with somebody at every top all through its doubt; the one with somebody there at the probable time, where
     * that alone is in time.
     */
    private static List<PlannedFiring> chosen(Week week, List<Timed> timed, Planning planning) {
        if (week.topAlone()) {
            return planning.plan(timed, AtTop.NOBODY);
        }
        List<PlannedFiring> attended = planning.plan(timed, AtTop.SOMEBODY);
        if (isInTime(attended, timed)) {
            return attended;
        }
        List<PlannedFiring> probably = planning.plan(timed, AtTop.PROBABLY);
        return isInTime(probably, timed) ? probably : attended;
    }

    private interface Planning {
        List<PlannedFiring> plan(List<Timed> loads, AtTop wanted);
    }

    private static boolean isInTime(List<PlannedFiring> plan, List<Timed> timed) {
        return plan.size() == timed.size()
                && spare(plan, timed).map(spare -> !spare.isNegative()).orElse(true);
    }

    private static Optional<Duration> spare(List<PlannedFiring> plan, List<Timed> timed) {
        return plan.stream()
                .flatMap(firing ->
                        timed.get(firing.load()).due().stream().map(due -> Duration.between(firing.out(), due)))
                .min(Comparator.naturalOrder());
    }

    /** @param all whether a plan for every load could be tried */
    private static Optional<Instead> instead(boolean all, List<PlannedFiring> plan, List<Timed> timed) {
        return !all || plan.size() < timed.size() || plan.isEmpty()
                ? Optional.empty()
                : Optional.of(new Instead(lastOut(plan), isInTime(plan, timed)));
    }

    private static boolean isBetter(List<PlannedFiring> plan, List<PlannedFiring> other) {
        return plan.size() > other.size()
                || plan.size() == other.size()
                        && !plan.isEmpty()
                        && lastOut(plan).isBefore(lastOut(other));
    }

    private static Instant lastOut(List<PlannedFiring> plan) {
        return plan.get(plan.size() - 1).out();
    }

    /** When the last planned load is unloaded; empty where none can be planned. */
    public Optional<Instant> out() {
        return firings.isEmpty() ? Optional.empty() : Optional.of(lastOut(firings));
    }

    /** Whether every load is planned and out before its date, where it has one. */
    public boolean isInTime() {
        return cannotKnow.isEmpty()
                && noRoom.isEmpty()
                && spare.map(each -> !each.isNegative()).orElse(true);
    }

    /** When a load has to be out. */
    public static Optional<Instant> due(Week week, PlannedFiring firing) {
        return week.loads().get(firing.load()).due().or(week::due);
    }

    private static Optional<Outlook.Cost> cost(List<LoadAhead> loads) {
        return sum(loads, ahead -> ahead.outlook().cost().map(Outlook.Cost::price))
                .map(price -> new Outlook.Cost(
                        price, loads.get(0).outlook().cost().orElseThrow().currency()));
    }

    /** One kiln's estimates err together, so that their ends are added too. */
    private static Optional<Estimate<Double>> sum(
            List<LoadAhead> loads, Function<LoadAhead, Optional<Estimate<Double>>> of) {
        if (loads.isEmpty()) {
            return Optional.empty();
        }
        double at = 0;
        double from = 0;
        double to = 0;
        for (LoadAhead each : loads) {
            Optional<Estimate<Double>> its = of.apply(each);
            if (its.isEmpty()) {
                return Optional.empty();
            }
            at += its.get().probable();
            from += its.get().from();
            to += its.get().to();
        }
        return Optional.of(Estimate.of(at, from, to));
    }
}

package org.kilnside.week;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.kilnside.week.PlannedFiring.AtTop;
import org.kilnside.week.PlannedFiring.WaitsFor;

/**
 * Finds the order and the times: the fewest dates missed, by the least; then the most in hand before the tightest,
 * up to a day; then all done soonest. Every order is tried, as there are few loads, and
 * in each every load is lit as soon as it can be, for no later lighting ever has anything out sooner.
 */
final class Planner {
    private static final Duration IN_HAND = Duration.ofHours(24);

    private final List<Timed> loads;
    private final Presence there;
    private final Slots slots;
    private final Instant start;
    private final Duration packing;
    private final AtTop wanted;

    private List<PlannedFiring> best = List.of();
    private Cost leastCost = Cost.NONE_PLANNED;

    /**
     * A search to be made once.
     *
     * @param start when the kiln is empty, or may be lit if something stands in it
     * @param end nothing is planned beyond
     * @param wanted who has to be there at the tops; somebody all through their doubt falls back to the probable time
     *     where there is no such hour for a firing, never to nobody
     */
    Planner(List<Timed> loads, Presence there, Instant start, Instant end, Duration packing, AtTop wanted) {
        this.loads = List.copyOf(loads);
        this.there = there;
        this.slots = new Slots(there, end);
        this.start = start;
        this.packing = packing;
        this.wanted = wanted;
    }

    /** The best plan; loads that cannot be fired in the time there is are missing from it. */
    List<PlannedFiring> plan() {
        search(
                new ArrayList<>(),
                new Instant[loads.size()],
                start,
                new Cost(0, 0, Duration.ZERO, IN_HAND, start, Duration.ZERO));
        return withLastLightings(best);
    }

    /**
     * What makes one plan worse than another, the weightiest first.
     *
     * @param spare of the tightest date that is kept, up to a day: a day in hand is worth more than being done soonest, a
     *     second one is not
     */
    private record Cost(int planned, int missed, Duration late, Duration spare, Instant lastOut, Duration sumOut) {
        static final Cost NONE_PLANNED = new Cost(0, 0, Duration.ZERO, Duration.ZERO, Instant.MAX, Duration.ZERO);

        /** Whether more firings behind it may still come to less; each adds to all of it, and none gives more to spare. */
        boolean mayBecomeLessThan(Cost whole) {
            return new Cost(whole.planned, missed, late, spare, lastOut, Duration.ZERO).isLessThan(whole);
        }

        boolean isLessThan(Cost other) {
            return Comparator.comparingInt((Cost cost) -> -cost.planned)
                            .thenComparingInt(Cost::missed)
                            .thenComparing(Cost::late)
                            .thenComparing(Cost::spare, Comparator.reverseOrder())
                            .thenComparing(Cost::lastOut)
                            .thenComparing(Cost::sumOut)
                            .compare(this, other)
                    < 0;
        }
    }

    private void search(List<PlannedFiring> sofar, Instant[] outs, Instant free, Cost cost) {
        if (cost.isLessThan(leastCost)) {
            leastCost = cost;
            best = List.copyOf(sofar);
        }
        if (leastCost.planned() == loads.size() && !cost.mayBecomeLessThan(leastCost)) {
            return;
        }
        for (int i = 0; i < loads.size(); i++) {
            if (outs[i] == null && isItsTurn(i, sofar.isEmpty(), outs)) {
                Optional<PlannedFiring> next = place(i, free, outs, sofar.isEmpty());
                if (next.isPresent()) {
                    Instant out = next.get().out();
                    outs[i] = out;
                    sofar.add(next.get());
                    search(sofar, outs, out, with(cost, loads.get(i).due(), out));
                    sofar.remove(sofar.size() - 1);
                    outs[i] = null;
                }
            }
        }
    }

    private Cost with(Cost cost, Optional<Instant> due, Instant out) {
        Duration spare = due.map(date -> Duration.between(out, date)).orElse(IN_HAND);
        boolean late = spare.isNegative();
        return new Cost(
                cost.planned() + 1,
                cost.missed() + (late ? 1 : 0),
                late ? cost.late().minus(spare) : cost.late(),
                late || spare.compareTo(cost.spare()) > 0 ? cost.spare() : spare,
                out,
                cost.sumOut().plus(Duration.between(start, out)));
    }

    /** What stands in the kiln goes first; what is the same ware goes after it. */
    private boolean isItsTurn(int load, boolean isFirst, Instant[] outs) {
        Timed its = loads.get(load);
        boolean somethingStandsIn = loads.stream().anyMatch(Timed::packed);
        return (!isFirst || !somethingStandsIn || its.packed())
                && (its.after().isEmpty() || outs[its.after().getAsInt()] != null);
    }

    private Optional<PlannedFiring> place(int load, Instant free, Instant[] outs, boolean isFirst) {
        Timed its = loads.get(load);
        Instant dry = dry(its, outs).orElse(free);
        Instant begin = Presence.later(dry, free);
        Optional<Instant> packed = its.packed() && isFirst ? Optional.of(begin) : there.done(begin, packing);
        return packed.flatMap(earliest -> light(its.times(), earliest)
                .flatMap(light -> slots.out(its.times(), light)
                        .map(out -> new PlannedFiring(
                                load,
                                light,
                                Optional.empty(),
                                its.times(),
                                out,
                                slots.atTop(its.times(), light),
                                waitsFor(its.times(), light, earliest, begin, dry.isAfter(free), isFirst)))));
    }

    private Optional<Instant> dry(Timed load, Instant[] outs) {
        Optional<Instant> glazed = load.after().isPresent()
                ? Optional.of(outs[load.after().getAsInt()].plus(load.drying()))
                : Optional.empty();
        return load.ready()
                .map(ready -> glazed.map(each -> Presence.later(each, ready)).orElse(ready))
                .or(() -> glazed);
    }

    private Optional<Instant> light(FiringTimes times, Instant earliest) {
        Optional<Instant> light = slots.first(times, wanted, earliest);
        return wanted == AtTop.SOMEBODY ? light.or(() -> slots.first(times, AtTop.PROBABLY, earliest)) : light;
    }

    private WaitsFor waitsFor(
            FiringTimes times, Instant light, Instant earliest, Instant begin, boolean dryLast, boolean isFirst) {
        Optional<Instant> withNobody = slots.first(times, AtTop.NOBODY, earliest);
        if (withNobody.isPresent() && light.isAfter(withNobody.get())) {
            return WaitsFor.SOMEBODY_AT_TOP;
        }
        // Both the packing and the lighting may have had to wait for somebody.
        if (light.isAfter(Slots.quarter(begin.plus(packing)))) {
            return WaitsFor.SOMEBODY;
        }
        return dryLast ? WaitsFor.WARE : isFirst ? WaitsFor.NOTHING : WaitsFor.KILN;
    }

    /** Until when each may be lit in this order with everything still in time, from the last to the first. */
    private List<PlannedFiring> withLastLightings(List<PlannedFiring> plan) {
        PlannedFiring[] done = plan.toArray(PlannedFiring[]::new);
        for (int i = done.length - 1; i >= 0; i--) {
            PlannedFiring firing = done[i];
            Optional<Instant> outBy = outBy(i, done);
            done[i] = firing.withLightBy(
                    outBy.flatMap(by -> slots.last(firing.times(), heldTo(firing), firing.light(), by)));
        }
        return Collections.unmodifiableList(Arrays.asList(done));
    }

    /** A later lighting is no better attended than was asked for, and no worse than the one chosen. */
    private AtTop heldTo(PlannedFiring firing) {
        return firing.atTop().compareTo(wanted) > 0 ? firing.atTop() : wanted;
    }

    /** When a firing has to be out for its own date, for the next one's last lighting and for those of the same ware. */
    private Optional<Instant> outBy(int place, PlannedFiring[] plan) {
        Timed its = loads.get(plan[place].load());
        Optional<Instant> by = its.due();
        for (int j = place + 1; j < plan.length; j++) {
            Timed later = loads.get(plan[j].load());
            boolean sameWare = later.after().isPresent() && later.after().getAsInt() == plan[place].load();
            boolean next = j == place + 1;
            if (sameWare || next) {
                if (plan[j].lightBy().isEmpty() && isDated(j, plan)) {
                    return Optional.empty();
                }
                Duration drying = sameWare ? later.drying() : Duration.ZERO;
                by = earlier(by, plan[j].lightBy().flatMap(latest -> packedBy(latest, drying)));
            }
        }
        return by;
    }

    /** Whether a firing, or one that has to wait for it, has a date. */
    private boolean isDated(int place, PlannedFiring[] plan) {
        for (int j = place; j < plan.length; j++) {
            if (loads.get(plan[j].load()).due().isPresent()) {
                return true;
            }
        }
        return false;
    }

    /** The latest unloading from which a load is dry, packed and lit by a moment. */
    private Optional<Instant> packedBy(Instant light, Duration drying) {
        // Packing rests while nobody is there: found by trying, as the spans run one way only.
        for (Instant out = light.minus(drying).minus(packing);
                out.isAfter(start.minus(Slots.QUARTER));
                out = out.minus(Slots.QUARTER)) {
            Optional<Instant> packed = there.done(out.plus(drying), packing);
            if (packed.isPresent() && !packed.get().isAfter(light)) {
                return Optional.of(out);
            }
        }
        return Optional.empty();
    }

    private static Optional<Instant> earlier(Optional<Instant> one, Optional<Instant> other) {
        return one.isPresent() && other.isPresent()
                ? Optional.of(one.get().isBefore(other.get()) ? one.get() : other.get())
                : one.or(() -> other);
    }
}

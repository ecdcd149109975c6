package org.kilnside.week;

import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import org.kilnside.week.PlannedFiring.AtTop;

/** When a firing may be lit, in quarters of an hour. */
final class Slots {
    /** Nobody lights a kiln to the minute a plan says. */
    static final Duration QUARTER = Duration.ofMinutes(15);

    private final Presence there;
    private final Instant end;

    /** @param end no firing is unloaded later */
    Slots(Presence there, Instant end) {
        this.there = there;
        this.end = end;
    }

    /** A moment, or the next full quarter of an hour. */
    static Instant quarter(Instant moment) {
        long seconds = QUARTER.toSeconds();
        // Up from a fraction of a second too.
        long whole = moment.getEpochSecond() + (moment.getNano() > 0 ? 1 : 0);
        return Instant.ofEpochSecond(Math.floorDiv(whole + seconds - 1, seconds) * seconds);
    }

    /** The first lighting from a moment on, with somebody there at the top as said or better. */
    Optional<Instant> first(FiringTimes times, AtTop wanted, Instant from) {
        Optional<Instant> slot = someonesQuarter(from);
        while (slot.isPresent() && !slot.get().isAfter(end)) {
            if (isMet(times, wanted, slot.get())) {
                return out(times, slot.get()).isPresent() ? slot : Optional.empty();
            }
            slot = someonesQuarter(slot.get().plus(QUARTER));
        }
        return Optional.empty();
    }

    /** The last lighting of those from a first on that has it unloaded by a moment; empty when even the first has not. */
    Optional<Instant> last(FiringTimes times, AtTop wanted, Instant first, Instant outBy) {
        Optional<Instant> last = Optional.empty();
        Optional<Instant> slot = first(times, wanted, first);
        while (slot.isPresent()) {
            Optional<Instant> out = out(times, slot.get());
            if (out.isEmpty() || out.get().isAfter(outBy)) {
                return last;
            }
            last = slot;
            slot = first(times, wanted, slot.get().plus(QUARTER));
        }
        return last;
    }

    /** When somebody can unload it, nine in ten of the doubt over, to the quarter of an hour. */
    Optional<Instant> out(FiringTimes times, Instant light) {
        return someonesQuarter(light.plus(times.unload().to())).filter(out -> !out.isAfter(end));
    }

    /** The first full quarter of an hour from a moment on at which somebody is there. */
    private Optional<Instant> someonesQuarter(Instant from) {
        Optional<Instant> quarter = there.from(quarter(from)).map(Slots::quarter);
        while (quarter.isPresent() && !there.holds(quarter.get(), quarter.get())) {
            quarter = there.from(quarter.get()).map(Slots::quarter);
        }
        return quarter;
    }

    AtTop atTop(FiringTimes times, Instant light) {
        for (AtTop each : AtTop.values()) {
            if (isMet(times, each, light)) {
                return each;
            }
        }
        return AtTop.NOBODY;
    }

    private boolean isThere(Instant moment) {
        return there.holds(moment, moment);
    }

    /** A long hold may be left alone between its begin and its end: they are when something is to be seen to. */
    private boolean isMet(FiringTimes times, AtTop wanted, Instant light) {
        return switch (wanted) {
            case SOMEBODY ->
                there.holds(
                                light.plus(times.top().from()),
                                light.plus(times.top().to()))
                        && there.holds(
                                light.plus(times.topOver().from()),
                                light.plus(times.topOver().to()));
            case PROBABLY ->
                isThere(light.plus(times.top().probable()))
                        && isThere(light.plus(times.topOver().probable()));
            case NOBODY -> true;
        };
    }
}

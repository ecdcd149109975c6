package org.kilnside.week;

import java.time.Instant;
import java.util.Optional;
import org.kilnside.outlook.Estimate;

/**
 * A firing with its times by the clock.
 *
 * @param load the load's place in the week's list, from 0
 * @param light when to light it
 * @param lightBy until when it may be lit with everything still in time; empty where nothing has a date, or it is too late
 * @param times how long it takes
 * @param out when it is unloaded: the first moment at which somebody is there and it is cool enough, nine in ten of the
 *     doubt over
 * @param atTop who is there at its top
 * @param waitsFor what it cannot be lit sooner for
 */
public record PlannedFiring(
        int load,
        Instant light,
        Optional<Instant> lightBy,
        FiringTimes times,
        Instant out,
        AtTop atTop,
        WaitsFor waitsFor) {
    /** Who is there at the top. */
    public enum AtTop {
        /** Somebody, all through the time in which it may be reached and that in which its hold may be over. */
        SOMEBODY,
        /** Somebody at the probable times; not all through those in which they may come. */
        PROBABLY,
        /** Nobody. */
        NOBODY
    }

    /** What keeps a firing from being lit sooner. */
    public enum WaitsFor {
        /** Nothing: it is lit as soon as it is packed. */
        NOTHING,
        /** The firing before it, its cooling and the packing. */
        KILN,
        /** The ware, until it is dry. */
        WARE,
        /** Somebody to pack it and to light it. */
        SOMEBODY,
        /** Somebody at its top. */
        SOMEBODY_AT_TOP
    }

    public Estimate<Instant> top() {
        return times.top().map(light::plus);
    }

    /** When its top's hold is over and the kiln may go on to cool. */
    public Estimate<Instant> topOver() {
        return times.topOver().map(light::plus);
    }

    public Optional<Estimate<Instant>> crack() {
        return times.crack().map(time -> time.map(light::plus));
    }

    public Estimate<Instant> unload() {
        return times.unload().map(light::plus);
    }

    PlannedFiring ofLoad(int other) {
        return new PlannedFiring(other, light, lightBy, times, out, atTop, waitsFor);
    }

    PlannedFiring withLightBy(Optional<Instant> latest) {
        return new PlannedFiring(load, light, latest, times, out, atTop, waitsFor);
    }
}

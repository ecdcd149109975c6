package org.kilnside.week;

import java.time.Duration;
import java.util.Optional;
import org.kilnside.firing.Kiln;
import org.kilnside.outlook.Estimate;
import org.kilnside.outlook.Outlook;

/**
 * How long a firing takes, from the lighting.
 *
 * @param top until the top is reached
 * @param topOver until its hold is over
 * @param crack until it is below the temperature for cracking the lid; empty when not within days, or never above it
 * @param unload until it is below the temperature for unloading
 */
public record FiringTimes(
        Estimate<Duration> top,
        Estimate<Duration> topOver,
        Optional<Estimate<Duration>> crack,
        Estimate<Duration> unload) {
    /** What an outlook says of it; empty where the top is never reached, or not cool again within days. */
    public static Optional<FiringTimes> of(Outlook outlook, Kiln.Thresholds thresholds) {
        // A plan that never is above the temperature for unloading, such as for drying, ends when it is over.
        Optional<Estimate<Duration>> out =
                outlook.unload().or(() -> outlook.planOver().filter(over -> outlook.isNeverAbove(thresholds.unload())));
        return outlook.arrival()
                .flatMap(top -> outlook.topOver()
                        .flatMap(over -> out.map(cool -> new FiringTimes(top, over, outlook.crack(), cool))));
    }

    /** The same firing, cool enough at its probable time. */
    FiringTimes coolAtProbable() {
        return new FiringTimes(top, topOver, crack, Estimate.of(unload.probable(), unload.from(), unload.probable()));
    }
}

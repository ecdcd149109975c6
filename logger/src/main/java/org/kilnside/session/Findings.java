package org.kilnside.session;

import java.util.List;
import java.util.Optional;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.sensor.SignalWatch.Suspicion;

/**
 * What is worked out of the readings beyond where they stand.
 *
 * @param doubts why the number may not be believed, the oldest first; a suspicion is no proof, and none proves nothing
 * @param cone what the ware has had so far; empty before the first good reading, and withdrawn while the number is not
 *     to be trusted
 * @param forecast what the kiln will do; empty before the first answer, when the firing has ended, and while the number
 *     is not to be trusted
 */
public record Findings(List<Doubt> doubts, Optional<ConeReached> cone, Optional<LiveForecast> forecast) {
    public static final Findings NONE = new Findings(List.of(), Optional.empty(), Optional.empty());

    public Findings {
        doubts = List.copyOf(doubts);
    }

    /** Something that may be wrong with the sensor, and since when on the recording's clock. */
    public record Doubt(Suspicion what, long sinceMs) {
        /**
         * Whether cone and forecast fall with it. A hot board shifts the number by a few degrees and says that worse
         * may come; the others mean that the number is none.
         */
        public boolean withdraws() {
            return what != Suspicion.HOT_COLD_JUNCTION;
        }
    }

    /** Whether the number is not to be trusted, so that nothing is said that rests on it. */
    public boolean isDistrusted() {
        return doubts.stream().anyMatch(Doubt::withdraws)
                || forecast.flatMap(LiveForecast::forecast).stream()
                        .flatMap(answer -> answer.remarks().stream())
                        .anyMatch(remark -> remark.kind().distrustsNumber());
    }

    /** Neither cone nor forecast: the number is not to be trusted. */
    public Findings withdrawn() {
        return new Findings(doubts, Optional.empty(), Optional.empty());
    }

    /** The same with another forecast; where that finds the sensor false, the cone goes. */
    public Findings with(Optional<LiveForecast> other) {
        Findings all = new Findings(doubts, cone, other);
        return all.isDistrusted() ? new Findings(doubts, Optional.empty(), other) : all;
    }
}

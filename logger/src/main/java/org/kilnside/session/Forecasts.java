package org.kilnside.session;

import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.kilnside.firing.FiringEvent;
import org.kilnside.session.Snapshot.Stage;
import org.kilnside.thermal.Ventilated;
import org.kilnside.tracking.PlanPosition;
import org.kilnside.tracking.PlanPosition.PlanPoint;

/**
 * When a forecast is due, what it is asked, and which answer counts: a minute of the kiln's time after the last, or as
 * soon as a person has noted that bung, vent or lid was opened or shut; never twice in a second of the host's, and only
 * while there is a firing to forecast. Confined to the session's thread.
 */
final class Forecasts {
    private static final long KILN_MS = 60_000;
    private static final long HOST_MS = 1_000;

    private final Supplier<FiringSettings> settings;
    private long generation;
    private boolean asked;
    private long askedKilnMs;
    private long askedHostMs;
    private List<Ventilated> askedWith = List.of();
    private Optional<LiveForecast> newest = Optional.empty();

    /** @param settings as they are when a question is asked */
    Forecasts(Supplier<FiringSettings> settings) {
        this.settings = settings;
    }

    /** The question that is due now; empty when none is. */
    Optional<ForecastRequest> due(long firing, Following following, List<FiringEvent> events, long hostMs) {
        int last = following.curve().size() - 1;
        if (last < 0 || !isUnderWay(following.stage())) {
            return Optional.empty();
        }
        long atMs = following.curve().elapsedMs(last);
        List<Ventilated> ventilated = OpeningNotes.in(events);
        boolean noted = !ventilated.equals(askedWith);
        boolean early = asked && (atMs - askedKilnMs < KILN_MS && !noted || hostMs - askedHostMs < HOST_MS);
        if (early || following.ware().findings().isDistrusted()) {
            return Optional.empty();
        }
        FiringSettings its = settings.get();
        asked = true;
        askedKilnMs = atMs;
        askedHostMs = hostMs;
        askedWith = ventilated;
        return Optional.of(new ForecastRequest(
                generation,
                following.curve(),
                its.plan(),
                following.position().flatMap(position -> ahead(position, atMs)),
                following.ware().workSoFar(),
                following.ware().uncertainty(),
                following.ware().ambient(),
                its.thresholds(),
                its.wall(),
                its.powerKw(),
                firing,
                ventilated,
                its.described()));
    }

    /** The corners from now on; a plan that cools by itself or is through has none left. */
    static Optional<List<PlanPoint>> ahead(PlanPosition position, long nowMs) {
        return switch (position.leg()) {
            case WAITING -> Optional.empty();
            case FREE_COOLING, DONE -> Optional.of(List.of());
            case RAMP, HOLD, CONTROLLED_COOLING ->
                Optional.of(position.aligned().stream()
                        .filter(point -> point.elapsedMs() > nowMs)
                        .toList());
        };
    }

    private static boolean isUnderWay(Stage stage) {
        return switch (stage) {
            case HEATING, HOLDING, COOLING -> true;
            case NO_READING_YET, WAITING_TO_START, ENDED -> false;
        };
    }

    /** Takes an answer; false when it is about a course the firing has not taken. */
    boolean take(ForecastRequest request, LiveForecast answer) {
        if (request.generation() != generation) {
            return false;
        }
        newest = Optional.of(answer);
        return true;
    }

    /** Another firing, a filled gap, or other thresholds: what was said before is about something else, and the question is due anew. */
    void courseChanged() {
        generation++;
        newest = Optional.empty();
        askedKilnMs = Long.MIN_VALUE / 2;
    }

    /** What may be shown beside these findings. */
    Findings with(Findings found, Stage stage) {
        return found.isDistrusted() || !isUnderWay(stage) ? found : found.with(newest);
    }
}

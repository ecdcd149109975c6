package org.kilnside.session;

import java.util.List;
import java.util.Optional;
import org.kilnside.firing.Kiln;
import org.kilnside.heatwork.ConePosition;
import org.kilnside.quantity.Interval;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast;
import org.kilnside.thermal.ForecastFan;

/**
 * What the kiln will do, as it could be known at one moment of the firing.
 *
 * @param askedMs the reading it rests on, ms on the recording's clock
 * @param thresholds the kiln's, when the lid may be cracked and the ware unloaded in the opinion of whom they name
 * @param forecast the model's answer; empty when it could not be worked out
 * @param fan the future as a curve with its nine-in-ten band; empty where there is none to draw
 * @param cone what the ware will have had when the plan goes on as written; empty without a plan that still heats
 * @param aimed when the cone the plan aims for is down; empty where it aims for none, and once the kiln cools
 * @param failure why there is no answer, in one sentence
 */
public record LiveForecast(
        long askedMs,
        Kiln.Thresholds thresholds,
        Optional<Forecast> forecast,
        List<ForecastFan.Point> fan,
        Optional<ExpectedCone> cone,
        Optional<ConeDown> aimed,
        Optional<String> failure) {
    public LiveForecast {
        fan = List.copyOf(fan);
    }

    /**
     * What the ware will have had at the end of the top, natural cooling down to 25 °C under it counted.
     *
     * @param position where on the scale
     * @param between the same with all that sensor and chart may be off by
     */
    public record ExpectedCone(ConePosition position, Interval<ConePosition> between) {}

    /** No answer, and why. */
    static LiveForecast failed(ForecastRequest request, String why) {
        return new LiveForecast(
                request.askedMs(),
                request.thresholds(),
                Optional.empty(),
                List.of(),
                Optional.empty(),
                Optional.empty(),
                Optional.of(why));
    }

    /** When it will be below a temperature that was asked for. */
    public Optional<Forecast.Below> below(Temperature temperature) {
        return forecast.flatMap(answer -> answer.below().stream()
                .filter(below -> below.temperature().equals(temperature))
                .findFirst());
    }
}

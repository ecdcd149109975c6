package org.kilnside.wording;

import org.kilnside.thermal.Forecast;
import org.kilnside.thermal.Forecast.Reaches;
import org.kilnside.thermal.Forecast.Remark.Kind;
import org.kilnside.thermal.Forecast.Stage;

/** Why nothing can be known of when a kiln will be below a temperature. */
final class UnknownCooling {
    /** The model takes a temperature no further above the room than this as never surely reached, K. */
    private static final double ABOVE_ROOM_K = 3;

    private UnknownCooling() {}

    /** The text that says it, of one temperature or several. */
    static String key(Forecast.Below below, Forecast forecast) {
        if (has(forecast, Kind.TOO_SHORT)) {
            return "forecast.below_too_short";
        }
        if (has(forecast, Kind.NEVER_HEATED)) {
            return "forecast.below_not_lit";
        }
        if (forecast.remarks().stream().anyMatch(remark -> remark.kind().distrustsNumber())) {
            return "forecast.below_distrusted";
        }
        if (below.temperature().minus(forecast.ambient()).kelvin() < ABOVE_ROOM_K) {
            return "forecast.below_room";
        }
        if (forecast.stage() == Stage.COOLING) {
            return "forecast.below_too_far";
        }
        if (forecast.arrival().isEmpty()) {
            return "forecast.below_no_target";
        }
        Forecast.Arrival arrival = forecast.arrival().get();
        if (arrival.reaches() == Reaches.NO) {
            return "forecast.below_when_off";
        }
        return arrival.when().isPresent() ? "forecast.below_too_far" : "forecast.below_open_top";
    }

    private static boolean has(Forecast forecast, Kind kind) {
        return forecast.remarks().stream().anyMatch(remark -> remark.kind() == kind);
    }
}

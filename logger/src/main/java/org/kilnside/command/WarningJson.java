package org.kilnside.command;

import java.util.Locale;
import org.kilnside.files.JsonObject;
import org.kilnside.outlook.PlanWarning;
import org.kilnside.outlook.PlanWarning.AboveLimit;
import org.kilnside.outlook.PlanWarning.CandlingShort;
import org.kilnside.outlook.PlanWarning.CannotFollow;
import org.kilnside.outlook.PlanWarning.CoolsSlower;
import org.kilnside.outlook.PlanWarning.FallsTooFast;
import org.kilnside.outlook.PlanWarning.HoldMayBoil;
import org.kilnside.outlook.PlanWarning.MissesAim;
import org.kilnside.outlook.PlanWarning.TooFast;
import org.kilnside.outlook.PlanWarning.TopOutOfReach;
import org.kilnside.wording.WarningWords;

/** A warning about a plan for a program: what kind, where, its numbers with their units in the keys, and its words. */
final class WarningJson {
    private WarningJson() {}

    static JsonObject of(PlanWarning warning, WarningWords words) {
        JsonObject object = new JsonObject()
                .with("kind", snake(warning.getClass().getSimpleName()))
                .with("segment", warning.segment())
                .with("basis", warning.basis().name().toLowerCase(Locale.ROOT));
        numbers(object, warning);
        return object.with("text", words.reason(warning));
    }

    private static void numbers(JsonObject object, PlanWarning warning) {
        if (warning instanceof CannotFollow cannot) {
            object.with("from_c", cannot.from().celsius(), 1)
                    .with("late_s", cannot.late().toSeconds())
                    .with("share", cannot.share(), 2);
        } else if (warning instanceof TopOutOfReach out) {
            object.with("wanted_c", out.wanted().celsius(), 1)
                    .with("tops_out_c", out.highest().probable().celsius(), 1)
                    .with("share", out.share(), 2);
        } else if (warning instanceof CoolsSlower slower) {
            object.with("rate_c_per_h", slower.planned().kelvinPerHour(), 1)
                    .with("own_rate_c_per_h", slower.own().kelvinPerHour(), 1)
                    .with("share", slower.share(), 2);
        } else if (warning instanceof FallsTooFast falls) {
            object.with("own_rate_c_per_h", falls.own().kelvinPerHour(), 1)
                    .with("limit_c_per_h", falls.limit().kelvinPerHour(), 1)
                    .with("share", falls.share(), 2);
        } else if (warning instanceof TooFast fast) {
            object.with("passage", fast.passage().name().toLowerCase(Locale.ROOT))
                    .with("rate_c_per_h", fast.found().kelvinPerHour(), 1)
                    .with("limit_c_per_h", fast.limit().kelvinPerHour(), 1);
        } else if (warning instanceof CandlingShort candling) {
            object.with("hold_s", candling.found().toSeconds())
                    .with("wanted_s", candling.wanted().toSeconds());
        } else if (warning instanceof HoldMayBoil hold) {
            object.with("found_c", hold.found().celsius(), 1);
        } else if (warning instanceof AboveLimit above) {
            object.with("found_c", above.found().celsius(), 1)
                    .with("limit_c", above.limit().celsius(), 1);
        } else if (warning instanceof MissesAim misses) {
            object.with("aim", misses.aim().number()).with("cones", misses.cones(), 2);
        }
    }

    private static String snake(String name) {
        return name.replaceAll("(?<=[a-z])(?=[A-Z])", "_").toLowerCase(Locale.ROOT);
    }
}

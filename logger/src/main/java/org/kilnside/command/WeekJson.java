package org.kilnside.command;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import org.kilnside.files.JsonObject;
import org.kilnside.firing.Kiln;
import org.kilnside.outlook.Estimate;
import org.kilnside.outlook.Outlook;
import org.kilnside.week.LoadAhead;
import org.kilnside.week.PlannedFiring;
import org.kilnside.week.Week;
import org.kilnside.week.WeekPlan;
import org.kilnside.wording.WarningWords;

/** A week for a program: moments with their offset, lengths in seconds, each range nine in ten. */
final class WeekJson {
    private WeekJson() {}

    static JsonObject of(Week week, WeekPlan plan, Kiln kiln, WarningWords words) {
        ZoneId zone = week.zone();
        JsonObject object = new JsonObject()
                .with("week", week.name())
                .with("kiln", kiln.name())
                .with("in_time", plan.isInTime())
                .with("out", plan.out(), out -> moment(out, zone))
                .with("spare_s", plan.spare(), Duration::toSeconds)
                .with("if_cool_at_probable", plan.ifCoolAtProbable(), instead -> instead(instead, zone))
                .with("if_top_alone", plan.ifTopAlone(), instead -> instead(instead, zone))
                .with(
                        "energy_kwh",
                        plan.energy(),
                        energy -> PlanOutlookCommand.estimate(energy, each -> each.kilowattHours(), 2))
                .with("cost", plan.cost(), WeekJson::cost);
        object.with(
                "firings",
                plan.firings().stream()
                        .map(firing -> firing(week, plan, firing, words))
                        .toList());
        return object.with("no_room", names(week, plan.noRoom())).with("cannot_know", names(week, plan.cannotKnow()));
    }

    private static List<String> names(Week week, List<Integer> places) {
        return places.stream().map(place -> week.loads().get(place).name()).toList();
    }

    private static JsonObject firing(Week week, WeekPlan plan, PlannedFiring firing, WarningWords words) {
        LoadAhead ahead = plan.loads().get(firing.load());
        ZoneId zone = week.zone();
        Outlook outlook = ahead.outlook();
        return new JsonObject()
                .with("load", ahead.load().name())
                .with("plan", ahead.load().planName())
                .with("light", moment(firing.light(), zone))
                .with("light_by", firing.lightBy(), by -> moment(by, zone))
                .with("waits_for", firing.waitsFor().name().toLowerCase(Locale.ROOT))
                .with("top", span(firing.top(), zone))
                .with("top_over", span(firing.topOver(), zone))
                .with("at_top", firing.atTop().name().toLowerCase(Locale.ROOT))
                .with("reaches", outlook.reaches().known(), known -> known)
                .with("crack", firing.crack(), time -> span(time, zone))
                .with("unload", span(firing.unload(), zone))
                .with("out", moment(firing.out(), zone))
                .with("due", WeekPlan.due(week, firing), due -> moment(due, zone))
                .with(
                        "cone",
                        PlanOutlookCommand.position(outlook.cone().cone())
                                .with(
                                        "from",
                                        PlanOutlookCommand.position(
                                                outlook.cone().between().from()))
                                .with(
                                        "to",
                                        PlanOutlookCommand.position(
                                                outlook.cone().between().to())))
                .with(
                        "warnings",
                        outlook.warnings().stream()
                                .map(each -> WarningJson.of(each, words))
                                .toList());
    }

    private static JsonObject instead(WeekPlan.Instead instead, ZoneId zone) {
        return new JsonObject().with("out", moment(instead.out(), zone)).with("in_time", instead.inTime());
    }

    private static JsonObject cost(Outlook.Cost cost) {
        return PlanOutlookCommand.estimate(cost.price(), price -> price, 2).with("currency", cost.currency());
    }

    private static JsonObject span(Estimate<Instant> time, ZoneId zone) {
        return new JsonObject()
                .with("at", moment(time.probable(), zone))
                .with("from", moment(time.from(), zone))
                .with("to", moment(time.to(), zone));
    }

    private static String moment(Instant instant, ZoneId zone) {
        return DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(
                instant.truncatedTo(ChronoUnit.SECONDS).atZone(zone));
    }
}

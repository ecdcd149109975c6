package org.kilnside.wording;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import org.kilnside.firing.Kiln;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.outlook.Estimate;
import org.kilnside.outlook.Outlook;
import org.kilnside.outlook.PlanWarning;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast;
import org.kilnside.week.Load;
import org.kilnside.week.LoadAhead;
import org.kilnside.week.PlannedFiring;
import org.kilnside.week.Week;
import org.kilnside.week.WeekPlan;

/** Says when which load is fired, by the clock of the week; whether all are in time first, never without its caution. */
public final class WeekWords {
    private static final long TEN_MINUTES_S = 600;

    private static final Duration LONG_HOLD = Duration.ofHours(1);

    private final Words words;
    private final Kiln kiln;
    private final OutlookWords outlooks;
    private final WarningWords warnings;

    public WeekWords(Words words, ConeTable table, Kiln kiln) {
        this.words = words;
        this.kiln = kiln;
        this.outlooks = new OutlookWords(words, table, kiln);
        this.warnings = new WarningWords(words, table);
    }

    /**
     * A firing in words, each a sentence.
     *
     * @param name of the load
     * @param plan what it is called, and the cone it comes to
     * @param light when to light it, and until when
     * @param why it cannot be lit sooner; empty where it can be lit as soon as it is packed
     * @param top when it is at its top, and who is there
     * @param crack when the lid may be thought of; empty where that cannot be known, or it never is above
     * @param unload when it is cool enough, and when it is unloaded
     * @param warnings what in its plan is rash
     */
    public record Firing(
            String name,
            String plan,
            String light,
            Optional<String> why,
            String top,
            Optional<String> crack,
            String unload,
            List<String> warnings) {
        /** All of it but name and plan, in the order of the clock. */
        public List<String> lines() {
            List<String> lines = new ArrayList<>();
            lines.add(light);
            why.ifPresent(lines::add);
            lines.add(top);
            crack.ifPresent(lines::add);
            lines.add(unload);
            return lines;
        }
    }

    /** Whether all are in time, and what is not: most important first. */
    public List<String> head(Week week, WeekPlan plan) {
        List<String> lines = new ArrayList<>();
        for (PlannedFiring firing : plan.firings()) {
            WeekPlan.due(week, firing)
                    .filter(due -> firing.out().isAfter(due))
                    .ifPresent(due -> lines.add(words.text(
                            "week.late",
                            name(week, firing.load()),
                            moment(firing.out()),
                            length(Duration.between(due, firing.out())),
                            moment(due))));
        }
        for (int i = 0; i < plan.noRoom().size(); i++) {
            lines.add(noRoom(week, plan.noRoom().get(i), plan.ifLit().get(i)));
        }
        plan.cannotKnow().forEach(place -> {
            LoadAhead ahead = plan.loads().get(place);
            String unknown = words.text("week.cannot_know", name(week, place));
            lines.add(outlooks.topsOut(ahead.load().plan(), ahead.outlook())
                    .map(why -> unknown + " " + why)
                    .orElse(unknown));
        });
        boolean inTime = plan.isInTime();
        plan.out().ifPresent(out -> {
            boolean dated = plan.spare().isPresent();
            lines.add(
                    inTime ? 0 : lines.size(),
                    words.text(inTime ? dated ? "week.in_time" : "week.all_out" : "week.last_out", moment(out)));
        });
        if (inTime && plan.firings().size() > 1) {
            tightest(week, plan).ifPresent(lines::add);
        } else if (inTime) {
            plan.firings()
                    .forEach(firing -> WeekPlan.due(week, firing)
                            .ifPresent(due -> lines.add(words.text(
                                    "week.spare", length(Duration.between(firing.out(), due)), moment(due)))));
        }
        plan.ifCoolAtProbable()
                .ifPresent(instead -> lines.add(words.text(
                        instead.inTime() ? "week.if_probable_in_time" : "week.if_probable", moment(instead.out()))));
        plan.ifTopAlone()
                .ifPresent(instead -> lines.add(words.text(
                        instead.inTime() ? "week.top_alone_in_time" : "week.top_alone", moment(instead.out()))));
        List<String> doubtful = plan.firings().stream()
                .filter(firing -> plan.loads().get(firing.load()).outlook().reaches() != Forecast.Reaches.YES)
                .map(firing -> name(week, firing.load()))
                .toList();
        if (!doubtful.isEmpty()) {
            lines.add(words.text("week.doubtful", String.join("; ", doubtful)));
        }
        List<String> warned = plan.firings().stream()
                .filter(firing ->
                        !plan.loads().get(firing.load()).outlook().warnings().isEmpty())
                .map(firing -> name(week, firing.load()))
                .toList();
        if (!warned.isEmpty()) {
            lines.add(words.text("week.warned", String.join("; ", warned)));
        }
        return lines;
    }

    /** Why there is no time for a load. */
    public String noRoom(Week week, int place, Optional<WeekPlan.Lit> ifLit) {
        String name = name(week, place);
        Optional<Load.After> after = week.loads().get(place).after();
        if (after.isPresent()) {
            return words.text("week.no_room_after", name, after.get().load());
        }
        return ifLit.map(lit -> words.text(
                        "week.no_room_lit",
                        name,
                        moment(lit.light()),
                        moment(toTenMinutes(lit.top(), TEN_MINUTES_S / 2)),
                        moment(toTenMinutes(lit.topOver(), TEN_MINUTES_S / 2))))
                .orElseGet(() -> words.text("week.no_room", name));
    }

    private Optional<String> tightest(Week week, WeekPlan plan) {
        return plan.firings().stream()
                .filter(firing -> WeekPlan.due(week, firing).isPresent())
                .min(Comparator.comparing(firing -> spare(week, firing)))
                .map(firing -> words.text(
                        "week.tightest",
                        name(week, firing.load()),
                        length(spare(week, firing)),
                        moment(WeekPlan.due(week, firing).orElseThrow())));
    }

    private static Duration spare(Week week, PlannedFiring firing) {
        return Duration.between(firing.out(), WeekPlan.due(week, firing).orElseThrow());
    }

    /** A firing, all of it. */
    public Firing firing(WeekPlan plan, PlannedFiring firing) {
        LoadAhead ahead = plan.loads().get(firing.load());
        Load load = ahead.load();
        return new Firing(
                load.name(),
                words.text("week.plan", load.plan().name(), outlooks.comesTo(ahead.outlook())),
                light(firing),
                why(firing),
                top(firing, ahead),
                firing.crack()
                        .map(crack -> words.text(
                                kiln.opening() == Kiln.Opening.LID ? "week.crack_lid" : "week.crack_door",
                                words.temperature(kiln.thresholds().crack()),
                                about(crack))),
                words.text(
                        "week.unload",
                        words.temperature(kiln.thresholds().unload()),
                        about(firing.unload()),
                        moment(firing.out())),
                warnings(ahead.outlook()));
    }

    private String light(PlannedFiring firing) {
        String at = moment(firing.light());
        return firing.lightBy()
                .map(by -> words.text(
                        by.isAfter(firing.light()) ? "week.light_by" : "week.light_no_later", at, moment(by)))
                .orElseGet(() -> words.text("week.light", at));
    }

    private Optional<String> why(PlannedFiring firing) {
        return firing.waitsFor() == PlannedFiring.WaitsFor.NOTHING
                ? Optional.empty()
                : Optional.of(words.named("week.waits", firing.waitsFor()));
    }

    private String top(PlannedFiring firing, LoadAhead ahead) {
        Temperature top = ahead.load().plan().top();
        boolean sure = ahead.outlook().reaches() == Forecast.Reaches.YES;
        String reached = words.text(sure ? "week.top" : "week.top_if", words.temperature(top), about(firing.top()));
        Duration held =
                firing.times().topOver().probable().minus(firing.times().top().probable());
        // Whoever has to be there at the end of a long hold is told when that is.
        String over = held.compareTo(LONG_HOLD) < 0 ? "" : "; " + words.text("week.hold_over", about(firing.topOver()));
        return reached + over + "; " + words.named("week.at_top", firing.atTop()) + ".";
    }

    private List<String> warnings(Outlook outlook) {
        List<String> lines = new ArrayList<>();
        for (PlanWarning each : outlook.warnings()) {
            lines.add(warnings.line(each));
        }
        return lines;
    }

    /** What all of it takes; what would sharpen it; the caution last. */
    public List<String> foot(WeekPlan plan) {
        List<String> lines = new ArrayList<>();
        plan.energy().ifPresent(energy -> lines.add(words.sentence(outlooks.energy(energy)) + "."));
        plan.cost().ifPresent(cost -> lines.add(words.sentence(outlooks.cost(cost)) + "."));
        EnumSet<Outlook.Unknown> unknowns = EnumSet.noneOf(Outlook.Unknown.class);
        plan.loads().forEach(load -> unknowns.addAll(load.outlook().unknowns()));
        outlooks.notKnown(unknowns).ifPresent(text -> lines.add(words.sentence(text) + "."));
        lines.addAll(cautions());
        return lines;
    }

    /** What to mind beside all of it. */
    public List<String> cautions() {
        return List.of(words.text("week.caution_times"), words.text("week.caution_dry"), outlooks.caution());
    }

    private static String name(Week week, int place) {
        return week.loads().get(place).name();
    }

    /** {@code Sat 28 Nov 18:00}: a week may be the next one. */
    public String moment(Instant instant) {
        return inOnePiece(words.day(instant) + " " + words.time(instant));
    }

    /** {@code about Sun 29 Nov 05:10 (04:40–05:50, nine in ten)}. */
    private String about(Estimate<Instant> time) {
        Instant at = toTenMinutes(time.probable(), TEN_MINUTES_S / 2);
        Instant from = toTenMinutes(time.from(), 0);
        Instant to = toTenMinutes(time.to(), TEN_MINUTES_S - 1);
        boolean oneDay = day(from).equals(day(to));
        boolean itsDay = oneDay && day(from).equals(day(at));
        String begin = itsDay ? words.time(from) : words.dayAndTime(from);
        String end = oneDay ? words.time(to) : words.dayAndTime(to);
        return words.text("week.about", moment(at), inOnePiece(begin) + "–" + inOnePiece(end));
    }

    /** Nobody knows to the minute days ahead; rounded so that a range never gets narrower. */
    private static Instant toTenMinutes(Instant instant, long roundingUpFromS) {
        return Instant.ofEpochSecond(
                Math.floorDiv(instant.getEpochSecond() + roundingUpFromS, TEN_MINUTES_S) * TEN_MINUTES_S);
    }

    private static String inOnePiece(String text) {
        return text.replace(' ', '\u00a0');
    }

    private LocalDate day(Instant instant) {
        return LocalDate.ofInstant(instant, words.preferences().zone());
    }

    /** A length of time as one says it days ahead: to five minutes, beyond two days in days and hours. */
    private String length(Duration duration) {
        long hours = Math.round(duration.toMinutes() / 60.0);
        return hours < 48 ? outlooks.time(duration) : words.text("week.days_hours", hours / 24, hours % 24);
    }
}

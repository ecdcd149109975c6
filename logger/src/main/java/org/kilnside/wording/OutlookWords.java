package org.kilnside.wording;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.kilnside.firing.Kiln;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.outlook.Estimate;
import org.kilnside.outlook.ForecastAtLighting;
import org.kilnside.outlook.Outlook;
import org.kilnside.outlook.WantedCone;
import org.kilnside.quantity.Energy;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.thermal.Forecast;

/** Says what a plan will come to in a kiln, never leading with the earliest time and never without its caution. */
public final class OutlookWords {
    /** Nobody needs a duration of hours to the minute, min. */
    private static final long ROUND_TO_MIN = 5;

    private final Words words;
    private final ConeWords cones;
    private final Kiln kiln;

    public OutlookWords(Words words, ConeTable table, Kiln kiln) {
        this.words = words;
        this.cones = new ConeWords(words, table);
        this.kiln = kiln;
    }

    /** Everything worth saying, most important first; the caution last. Warnings are {@link WarningWords}'s. */
    public List<String> lines(Schedule plan, Outlook outlook) {
        List<String> lines = new ArrayList<>();
        lines.add(sentence(comesTo(outlook)));
        cones.rangeAhead(outlook.cone().between().between()).ifPresent(text -> lines.add(sentence(text)));
        outlook.cone().coolingAdded().ifPresent(added -> {
            if (added >= 0.05) {
                lines.add(sentence(words.text("cone.cooling", words.number(added, 1))));
            }
        });
        lines.add(sentence(arrival(plan, outlook)));
        topsOut(plan, outlook).ifPresent(lines::add);
        outlook.planOver().ifPresent(time -> lines.add(sentence(after(words.text("outlook.plan_over"), time))));
        lines.add(sentence(below(crack(), kiln.thresholds().crack(), outlook.crack(), outlook)));
        lines.add(sentence(below(unload(), kiln.thresholds().unload(), outlook.unload(), outlook)));
        energy(outlook).ifPresent(text -> lines.add(sentence(text)));
        cost(outlook).ifPresent(text -> lines.add(sentence(text)));
        outlook.wanted().ifPresent(wanted -> wanted(plan, wanted).forEach(text -> lines.add(sentence(text))));
        onController(outlook).ifPresent(text -> lines.add(sentence(text)));
        notKnown(outlook.unknowns()).ifPresent(text -> lines.add(sentence(text)));
        lines.add(caution());
        return lines;
    }

    /** What to mind beside all of it, and in whose opinion the temperatures for lid and unloading are right. */
    public String caution() {
        return words.text("outlook.caution") + " " + Openings.whose(kiln.thresholds(), words);
    }

    /** The cone it comes to. */
    public String comesTo(Outlook outlook) {
        return outlook.cone().cone().past().isEmpty()
                ? cones.planned(outlook.cone().cone())
                : words.text("outlook.comes_to", cones.planned(outlook.cone().cone()));
    }

    /** What sensor, chart and kiln may make of the cone, nine in ten, for where there is little room; empty where none is down. */
    public Optional<String> coneRange(Outlook outlook) {
        return cones.briefRangeAhead(outlook.cone().between().between());
    }

    /** How hot it gets where it probably falls short of its top. */
    Optional<String> topsOut(Schedule plan, Outlook outlook) {
        return outlook.topsOut(plan)
                .map(highest -> words.text(
                        "ahead.tops_out",
                        words.temperature(highest.probable()),
                        words.temperature(highest.from()),
                        words.temperature(highest.to()),
                        words.temperature(plan.top())));
    }

    /** When it is at its top, and whether: never a time alone where that is in doubt. */
    private String arrival(Schedule plan, Outlook outlook) {
        String top = words.temperature(plan.top());
        if (outlook.reaches() == Forecast.Reaches.NO) {
            return words.text("forecast.too_weak", top);
        }
        boolean sure = outlook.reaches() == Forecast.Reaches.YES;
        return outlook.arrival()
                .map(time -> sure
                        ? after(words.text("outlook.top", top), time)
                        : words.text("outlook.top_if", top, time(time.probable()), time(time.from()), time(time.to())))
                .orElseGet(() -> words.text("forecast.cannot_say", top));
    }

    private String crack() {
        return words.text(
                kiln.opening() == Kiln.Opening.LID ? "outlook.crack_lid" : "outlook.crack_door",
                words.temperature(kiln.thresholds().crack()));
    }

    private String unload() {
        return words.text("outlook.unload", words.temperature(kiln.thresholds().unload()));
    }

    private String below(String what, Temperature threshold, Optional<Estimate<Duration>> time, Outlook outlook) {
        String never = outlook.isNeverAbove(threshold) ? "forecast.never_above" : "outlook.never_below";
        return time.map(known -> after(what, known)).orElseGet(() -> words.text(never, words.temperature(threshold)));
    }

    private String after(String what, Estimate<Duration> time) {
        String at = time(time.probable());
        String from = time(time.from());
        String to = time(time.to());
        return from.equals(to)
                ? words.text("outlook.after_exactly", what, at)
                : words.text("outlook.after", what, at, from, to);
    }

    /** A duration as one says it ahead of time: hours to five minutes. */
    public String time(Duration duration) {
        long minutes = Math.round(duration.toSeconds() / 60.0);
        return words.duration(Duration.ofMinutes(
                minutes < 60 ? minutes : Math.round(minutes / (double) ROUND_TO_MIN) * ROUND_TO_MIN));
    }

    /** The energy; empty where it cannot be known. */
    public Optional<String> energy(Outlook outlook) {
        return outlook.energy().map(this::energy);
    }

    String energy(Estimate<Energy> energy) {
        return words.text(
                "outlook.energy",
                kilowattHours(energy.probable().kilowattHours()),
                kilowattHours(energy.from().kilowattHours()),
                kilowattHours(energy.to().kilowattHours()));
    }

    /** What else is to be said of a forecast of the same plan: the energy with its range, and what would sharpen it. */
    public List<String> beside(ForecastAtLighting answer) {
        List<String> lines = new ArrayList<>();
        answer.energy().map(this::energy).ifPresent(lines::add);
        notKnown(answer.unknowns()).ifPresent(lines::add);
        return lines;
    }

    private String kilowattHours(double value) {
        return words.number(value, value < 10 ? 1 : 0);
    }

    /** What it costs; empty where that cannot be known. */
    public Optional<String> cost(Outlook outlook) {
        return outlook.cost().map(this::cost);
    }

    String cost(Outlook.Cost cost) {
        return words.text(
                "outlook.cost",
                words.number(cost.price().probable(), 2),
                words.number(cost.price().from(), 2),
                words.number(cost.price().to(), 2),
                cost.currency());
    }

    /** Which top or hold comes to the wanted cone. */
    public List<String> wanted(Schedule plan, WantedCone wanted) {
        List<String> lines = new ArrayList<>();
        String cone = cones.cone(wanted.cone());
        wanted.top()
                .ifPresent(top -> lines.add(words.text(
                        "outlook.wanted_top",
                        cone,
                        words.temperature(top.probable()),
                        words.temperature(top.from()),
                        words.temperature(top.to()))));
        wanted.onController().ifPresent(shown -> lines.add(onController(shown)));
        wanted.noTop().ifPresent(why -> lines.add(words.text("outlook.no_top." + why.name(), cone)));
        String written = words.temperature(plan.top());
        if (wanted.hold().isPresent()) {
            lines.add(words.text(
                    "outlook.wanted_hold", written, words.duration(wanted.hold().get())));
        } else if (wanted.top().isPresent() && wanted.top().get().probable().isAbove(plan.top())) {
            lines.add(words.text("outlook.wanted_no_hold", written));
        }
        return lines;
    }

    /** {@code on the controller that is 1201 °C}. */
    public String onController(Temperature shown) {
        return words.text("outlook.on_controller", words.temperature(shown));
    }

    /** What to key in where the controller shows other numbers, and what comes of not doing so; else empty. */
    public Optional<String> onController(Outlook outlook) {
        return outlook.onController().map(its -> {
            String top = words.temperature(its.top());
            String cone = its.asWritten().past().isEmpty() ? words.text("cone.none") : cones.position(its.asWritten());
            return its.shown()
                    .map(shown -> words.text("outlook.controller_shows", top, words.temperature(shown), cone))
                    .orElseGet(() -> words.text("outlook.controller_ends_below", top));
        });
    }

    /** What would sharpen the answer; empty when everything is known. */
    public Optional<String> notKnown(Set<Outlook.Unknown> unknowns) {
        if (unknowns.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(words.text(
                "outlook.not_known",
                unknowns.stream()
                        .sorted()
                        .map(each -> words.named("outlook.unknown", each))
                        .collect(Collectors.joining("; "))));
    }

    private String sentence(String text) {
        return words.sentence(text) + ".";
    }
}

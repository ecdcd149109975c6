package org.kilnside.desktop.plan;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.firing.Kiln;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.outlook.Estimate;
import org.kilnside.outlook.Outlook;
import org.kilnside.outlook.WantedCone;
import org.kilnside.quantity.Temperature;
import org.kilnside.wording.ConeWords;
import org.kilnside.wording.OutlookWords;
import org.kilnside.wording.Words;

/**
 * What a plan will come to, as the screen says it: the sentence, then the figures.
 *
 * @param sentence the cone it comes to
 * @param coneRange what the cone may be, nine in ten; empty where none is down
 * @param figures the times, the energy, the cost
 * @param wanted what the wanted cone needs; empty where none is wanted
 * @param takeTop the words of the button that takes the top; empty where there is none
 * @param takeHold the words of the button that takes the hold; empty where there is none
 * @param foot what would sharpen the answer, and the caution
 */
record AnswerLines(
        String sentence,
        Optional<String> coneRange,
        List<Figure> figures,
        Optional<String> wanted,
        Optional<String> takeTop,
        Optional<String> takeHold,
        List<String> foot) {
    /** One figure: what it is, its value, and the range that holds nine in ten. */
    record Figure(String label, String value, String range) {}

    static AnswerLines of(LiveOutlook.Answer answer, Words words) {
        Kiln kiln = answer.question().kiln();
        Outlook outlook = answer.outlook();
        ConeTable table = ConeTable.of(answer.question().series());
        OutlookWords say = new OutlookWords(words, table, kiln);
        ConeWords cones = new ConeWords(words, table);
        List<Figure> figures = new ArrayList<>();
        Temperature top = answer.question().plan().top();
        figures.add(arrival(words.temperature(top), outlook, say, words));
        outlook.topsOut(answer.question().plan())
                .map(highest -> new Figure(
                        words.text("plans.answer.tops_out"),
                        words.temperature(highest.probable()),
                        range(words, words.temperature(highest.from()), words.temperature(highest.to()))))
                .ifPresent(figures::add);
        figures.add(time(words.text("plans.answer.plan"), outlook.planOver(), say, words));
        String lid = kiln.opening() == Kiln.Opening.LID ? "plans.answer.crack_lid" : "plans.answer.crack_door";
        Temperature crack = kiln.thresholds().crack();
        figures.add(below(words.text(lid, words.temperature(crack)), outlook, crack, outlook.crack(), say, words));
        Temperature unload = kiln.thresholds().unload();
        String unloading = words.text("plans.answer.unload", words.temperature(unload));
        figures.add(below(unloading, outlook, unload, outlook.unload(), say, words));
        figures.add(outlook.energy()
                .map(energy -> new Figure(
                        words.text("plans.answer.energy"),
                        words.number(energy.probable().kilowattHours(), 0) + " kWh",
                        range(
                                words,
                                words.number(energy.from().kilowattHours(), 0),
                                words.number(energy.to().kilowattHours(), 0))))
                .orElseGet(() -> unknown(words, words.text("plans.answer.energy"))));
        figures.add(outlook.cost()
                .map(cost -> new Figure(
                        words.text("plans.answer.cost"),
                        words.number(cost.price().probable(), 2) + " " + cost.currency(),
                        range(
                                words,
                                words.number(cost.price().from(), 2),
                                words.number(cost.price().to(), 2))))
                .orElseGet(() -> unknown(words, words.text("plans.answer.cost"))));
        List<String> foot = new ArrayList<>();
        say.onController(outlook).ifPresent(text -> foot.add(words.sentence(text) + "."));
        // Where the window is low, the first lines are those in sight.
        foot.add(words.text("plans.answer.nine") + " " + say.caution());
        say.notKnown(outlook.unknowns()).ifPresent(text -> foot.add(words.sentence(text) + "."));
        Optional<WantedCone> wanted = outlook.wanted();
        return new AnswerLines(
                words.sentence(say.comesTo(outlook)) + ".",
                say.coneRange(outlook).map(words::sentence),
                figures,
                wanted.map(its -> words.text("plans.for_wanted", cones.cone(its.cone()))
                        + its.noTop()
                                .map(why -> " " + words.text("outlook.no_top." + why.name(), cones.cone(its.cone())))
                                .orElse("")
                        + its.onController()
                                .map(shown -> " " + say.onController(shown))
                                .orElse("")),
                wanted.flatMap(WantedCone::top)
                        .map(Estimate::probable)
                        .map(found -> words.text("plans.take_top", words.temperature(found))),
                wanted.flatMap(WantedCone::hold)
                        .map(found -> words.text("plans.take_hold", words.duration(minutes(found)))),
                foot);
    }

    /** A hold is keyed in as whole minutes. */
    static Duration minutes(Duration hold) {
        return Duration.ofMinutes(Math.round(hold.toSeconds() / 60.0));
    }

    private static Figure arrival(String top, Outlook outlook, OutlookWords say, Words words) {
        return switch (outlook.reaches()) {
            case YES -> time(words.text("plans.answer.top", top), outlook.arrival(), say, words);
            case NO -> new Figure(words.text("plans.answer.top", top), words.text("plans.answer.not_reached"), "");
            case CANNOT_SAY_YET, TOP_UNSEEN ->
                outlook.arrival().isPresent()
                        ? time(words.text("plans.answer.top_if", top), outlook.arrival(), say, words)
                        : unknown(words, words.text("plans.answer.top", top));
        };
    }

    private static Figure below(
            String label,
            Outlook outlook,
            Temperature threshold,
            Optional<Estimate<Duration>> time,
            OutlookWords say,
            Words words) {
        return time.isEmpty() && outlook.isNeverAbove(threshold)
                ? new Figure(label, words.text("plans.answer.never_above"), "")
                : time(label, time, say, words);
    }

    private static Figure time(String label, Optional<Estimate<Duration>> time, OutlookWords say, Words words) {
        return time.map(its -> new Figure(
                        label, say.time(its.probable()), range(words, say.time(its.from()), say.time(its.to()))))
                .orElseGet(() -> new Figure(label, words.text("plans.answer.not_in_days"), ""));
    }

    private static String range(Words words, String from, String to) {
        return from.equals(to) ? "" : words.text("plans.answer.range", from, to);
    }

    private static Figure unknown(Words words, String label) {
        return new Figure(label, words.text("plans.answer.unknown"), "");
    }
}

package org.kilnside.wording;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.firing.Kiln;
import org.kilnside.quantity.Temperature;
import org.kilnside.session.LiveForecast;
import org.kilnside.session.Snapshot;
import org.kilnside.thermal.Forecast;
import org.kilnside.thermal.Forecast.When;
import org.kilnside.wording.Ahead.Choices;
import org.kilnside.wording.Ahead.Line;

/** When the lid may be thought of and the ware unloaded, and what opening the kiln would change of that. */
final class Openings {
    private static final double WAVERS_K = 2;

    /** What was so in a curve's first minute was so when it began, ms. */
    private static final double FIRST_MINUTE_MS = 60_000;

    private final Snapshot snapshot;
    private final Words words;
    private final LiveForecast live;
    private final Forecast answer;
    private final double nowS;
    private final TimesAhead times;

    /** @param nowS the newest reading, which may be later than the answer */
    Openings(Snapshot snapshot, Words words, LiveForecast live, Forecast answer, double nowS) {
        this.snapshot = snapshot;
        this.words = words;
        this.live = live;
        this.answer = answer;
        this.nowS = nowS;
        this.times = new TimesAhead(snapshot, words);
    }

    void write(List<String> sentences, List<Line> lines, List<String> cautions) {
        Kiln.Thresholds thresholds = live.thresholds();
        Opening opening = words.preferences().opening();
        boolean told = false;
        boolean anyLine = false;
        for (Temperature threshold : List.of(thresholds.crack(), thresholds.unload())) {
            Optional<Forecast.Below> below = live.below(threshold);
            if (below.isEmpty()) {
                continue;
            }
            String temperature = words.temperature(threshold);
            String label = threshold.equals(thresholds.crack())
                    ? words.text(opening == Opening.LID ? "ahead.lid" : "ahead.door", temperature)
                    : words.text("ahead.unload", temperature);
            boolean ahead = below.get().when().filter(when -> isAhead(when)).isPresent();
            boolean cooling = answer.stage() == Forecast.Stage.COOLING;
            if (cooling || ahead) {
                lines.add(new Line(label, value(below.get())));
                anyLine = true;
            }
            if (ahead && !told && isWorthASentence(below.get().when().get())) {
                sentences.add(words.text(
                        "ahead.below",
                        temperature,
                        times.span(below.get().when().get())));
                told = true;
            }
        }
        if (anyLine) {
            cautions.add(whose(thresholds, words));
        }
    }

    /** In whose opinion the temperatures for lid and unloading are right. */
    static String whose(Kiln.Thresholds thresholds, Words words) {
        return words.text(
                switch (thresholds.source()) {
                    case COMMON_PRACTICE -> "ahead.source_common";
                    case POTTER -> "ahead.source_potter";
                    case MAKER -> "ahead.source_maker";
                },
                words.temperature(thresholds.crack()),
                words.temperature(thresholds.unload()));
    }

    /** What else could be done, and what it would give for unloading; the way it is now is said already. */
    Optional<Choices> choices() {
        if (answer.stage() != Forecast.Stage.COOLING) {
            return Optional.empty();
        }
        Temperature unload = live.thresholds().unload();
        List<String> others = new ArrayList<>();
        boolean isOpen = false;
        for (Forecast.Choice choice : answer.choices()) {
            if (choice.below().equals(answer.below())) {
                isOpen |= choice.way() != Forecast.Choice.Way.SHUT;
            } else {
                ahead(choice.below(), unload).ifPresent(when -> others.add(choice(choice, when)));
            }
        }
        if (others.isEmpty()) {
            return Optional.empty();
        }
        // What opening it would gain is seen beside leaving it alone only.
        String asItIs = isOpen ? words.text("ahead.as_it_is") : words.named("ahead.choice", Forecast.Choice.Way.SHUT);
        List<String> lines = new ArrayList<>();
        ahead(answer.below(), unload)
                .ifPresent(when -> lines.add(words.text("ahead.choice_is", asItIs, times.span(when))));
        lines.addAll(others);
        return Optional.of(new Choices(
                words.text(isOpen ? "ahead.choices_open" : "ahead.choices_shut"),
                words.text("ahead.unload", words.temperature(unload)),
                lines,
                words.text("ahead.choices_caution")));
    }

    private Optional<When> ahead(List<Forecast.Below> answers, Temperature threshold) {
        return answers.stream()
                .filter(below -> below.temperature().equals(threshold))
                .findFirst()
                .flatMap(Forecast.Below::when)
                .filter(this::isAhead);
    }

    private String choice(Forecast.Choice choice, When when) {
        String way = words.named("ahead.choice", choice.way());
        return choice.from()
                .filter(from -> !choice.atOnce() && isAhead(from))
                .map(from -> words.text("ahead.choice_from", way, words.temperature(from), times.span(when)))
                .orElseGet(() -> words.text("ahead.choice_now", way, times.span(when)));
    }

    /** An interval as long as half the wait tells nobody when to get up: it stands in its line, and in the drawing. */
    private boolean isWorthASentence(When when) {
        return when.toS() - when.fromS() <= (when.toS() - answer.askedS()) / 2;
    }

    private String value(Forecast.Below below) {
        if (below.neverAbove()) {
            return words.text("ahead.never_above");
        }
        if (below.when().isPresent()) {
            When when = below.when().get();
            Tense tense = tense(when);
            if (tense == Tense.AHEAD) {
                return likely(when);
            }
            if (Tense.isUnseen(answer)) {
                return words.text("ahead.by_now");
            }
            if (when.atS() * 1000 < snapshot.curve().elapsedMs(0) + FIRST_MINUTE_MS) {
                return words.text("ahead.all_along");
            }
            return tense == Tense.ABOUT_NOW
                    ? words.text("ahead.just_now")
                    : words.text("ahead.since", times.about(when));
        }
        return below.notBeforeS()
                .map(at -> words.text("ahead.not_before", times.moment(Math.round(at * 1000))))
                .orElse(words.text("ahead.unknown"));
    }

    /** Whether the kiln has yet to cool to a temperature, by more than a number that wavers. */
    private boolean isAhead(Temperature temperature) {
        return snapshot.latest()
                .flatMap(Snapshot.Latest::temperature)
                .filter(now -> now.minus(temperature).kelvin() <= WAVERS_K)
                .isEmpty();
    }

    /** Its interval; of a time that may have gone by unseen only the late end: every other moment of it says nothing. */
    private String likely(When when) {
        return Tense.mayBeOver(when, answer, nowS)
                ? words.text("ahead.probably_by", times.lateEnd(when))
                : times.shortSpan(when);
    }

    private boolean isAhead(When when) {
        return tense(when) == Tense.AHEAD;
    }

    private Tense tense(When when) {
        return Tense.of(when, answer, nowS);
    }
}

package org.kilnside.wording;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.kilnside.firing.Trace;
import org.kilnside.session.ConeDown;
import org.kilnside.thermal.Forecast;

/** Says what a kiln will do, never leading with the earliest time and never without its caution. */
public final class ForecastWords {
    /** A top-out known less well than this says nothing, K. */
    private static final double TOP_WORTH_SAYING_K = 100;

    /** Times are told in minutes, and what was so in a log's first one was so when it began, s. */
    private static final double A_MINUTE_S = 60;

    private final Words words;
    private final Optional<Instant> startedAt;
    private final double firstS;
    private final double lastS;

    /**
     * Words for a log's forecast.
     *
     * @param startedAt the clock at elapsed time 0; without it times are said as elapsed since the first reading
     * @param log its readings, up to now
     */
    public ForecastWords(Words words, Optional<Instant> startedAt, Trace log) {
        this(words, startedAt, log.elapsedMs(0) / 1000.0, log.elapsedMs(log.size() - 1) / 1000.0);
    }

    private ForecastWords(Words words, Optional<Instant> startedAt, double firstS, double lastS) {
        this.words = words;
        this.startedAt = startedAt;
        this.firstS = firstS;
        this.lastS = lastS;
    }

    /** Words for a kiln not yet lit: times are said as elapsed since the lighting. */
    public static ForecastWords beforeLighting(Words words) {
        return new ForecastWords(words, Optional.empty(), 0, Double.NEGATIVE_INFINITY);
    }

    /** Everything worth saying, most important first; the caution last. */
    public List<String> lines(Forecast forecast) {
        return lines(forecast, List.of());
    }

    /** @param notes what else is to be known of it; said before the caution */
    public List<String> lines(Forecast forecast, List<String> notes) {
        List<String> lines = new ArrayList<>();
        lines.add(stage(forecast) + "." + countedFrom(forecast));
        forecast.arrival().ifPresent(arrival -> lines.addAll(arrival(arrival, forecast.askedS())));
        lines.addAll(coolings(forecast));
        choices(forecast).forEach(choice -> lines.add(sentence(choice)));
        // Who is told that it gets there did not ask how much further it could.
        boolean arrives = forecast.arrival()
                .filter(its -> its.reaches() == Forecast.Reaches.YES)
                .isPresent();
        // What it will take has a range, which the notes say.
        forecast.energy()
                .filter(energy -> forecast.stage() != Forecast.Stage.WAITING)
                .ifPresent(energy ->
                        lines.add(sentence(words.text("forecast.energy", words.number(energy.kilowattHours(), 1)))));
        remarks(forecast).stream()
                .filter(remark -> !remark.equals(atItsLimit()) && !(arrives && remark.equals(beyondElements())))
                .forEach(remark -> lines.add(sentence(remark)));
        notes.forEach(note -> lines.add(sentence(note)));
        lines.add(words.text("forecast.caution"));
        return lines;
    }

    /** When it will be cool, a line each; those of which nothing can be known together, with why. */
    private List<String> coolings(Forecast forecast) {
        List<String> lines = new ArrayList<>();
        for (Forecast.Below below : forecast.below()) {
            if (isKnown(below)) {
                lines.add(sentence(below(below, forecast)));
            }
        }
        unknown(forecast).forEach(why -> lines.add(sentence(why)));
        return lines;
    }

    private static boolean isKnown(Forecast.Below below) {
        return below.when().isPresent()
                || below.neverAbove()
                || below.notBeforeS().isPresent();
    }

    /** Why a time is not given, or holds only if, for whoever reads nothing but the times. */
    public List<String> whyNot(Forecast forecast) {
        List<String> whys = new ArrayList<>(neverAbove(forecast));
        whys.addAll(unknown(forecast));
        boolean timed = forecast.below().stream().anyMatch(below -> below.when().isPresent());
        forecast.arrival()
                .filter(arrival -> timed && forecast.stage() != Forecast.Stage.COOLING)
                .filter(arrival -> arrival.reaches() == Forecast.Reaches.CANNOT_SAY_YET)
                .ifPresent(arrival -> whys.add(words.text("forecast.below_if", words.temperature(arrival.target()))));
        return whys;
    }

    /** The temperatures of which nothing can be known, those with the same reason together. */
    private List<String> unknown(Forecast forecast) {
        Map<String, List<String>> byReason = new LinkedHashMap<>();
        forecast.below().stream()
                .filter(below -> !isKnown(below))
                .forEach(
                        below -> byReason.computeIfAbsent(UnknownCooling.key(below, forecast), any -> new ArrayList<>())
                                .add(words.temperature(below.temperature())));
        return byReason.entrySet().stream()
                .map(each -> words.text(each.getKey(), String.join(", ", each.getValue())))
                .toList();
    }

    /** Where it stands: of a kiln that has no more to give not just that it heats. */
    private String stage(Forecast forecast) {
        return forecast.remarks().stream().anyMatch(remark -> remark.kind() == Forecast.Remark.Kind.AT_ITS_LIMIT)
                ? words.sentence(atItsLimit())
                : words.named("forecast.stage", forecast.stage());
    }

    private String atItsLimit() {
        return words.named("forecast.remark", Forecast.Remark.Kind.AT_ITS_LIMIT);
    }

    private String beyondElements() {
        return words.named("forecast.remark", Forecast.Remark.Kind.TOPS_OUT_BEYOND_ELEMENTS);
    }

    /** From when times without a clock count, said once for all of them. */
    private String countedFrom(Forecast forecast) {
        boolean told = forecast.arrival().flatMap(Forecast.Arrival::when).isPresent()
                || forecast.below().stream()
                        .anyMatch(below ->
                                below.when().isPresent() || below.notBeforeS().isPresent())
                || forecast.remarks().stream().anyMatch(remark -> remark.atS().isPresent());
        if (startedAt.isPresent() || !told) {
            return "";
        }
        return " "
                + (forecast.stage() == Forecast.Stage.WAITING
                        ? words.text("forecast.counted_from_lighting")
                        : words.text("forecast.counted_from_first_reading", time(lastS)));
    }

    /** That the log holds a firing before this one. */
    public String lastOfSeveral(double litS) {
        return words.text(
                "forecast.last_of_several",
                startedAt.isPresent() ? time(litS) : words.text("forecast.after_first_reading", time(litS)));
    }

    /** What a forecast rests on and cannot know, each thing once. */
    public List<String> remarks(Forecast forecast) {
        return forecast.remarks().stream()
                .map(remark -> {
                    String text = said(remark.kind(), forecast.stage());
                    return remark.atS()
                            .map(at -> words.text("forecast.at", text, when(at)))
                            .orElse(text);
                })
                .distinct()
                .toList();
    }

    /** Power that the number does not explain looks alike on the way down whether the elements get none or the sensor is off. */
    private String said(Forecast.Remark.Kind kind, Forecast.Stage stage) {
        return kind == Forecast.Remark.Kind.DO_NOT_TRUST_SENSOR && stage == Forecast.Stage.COOLING
                ? words.text("forecast.no_power_or_sensor")
                : words.named("forecast.remark", kind);
    }

    /** The temperatures it never is above: times that are not given say nothing of that. */
    private List<String> neverAbove(Forecast forecast) {
        return forecast.below().stream()
                .filter(Forecast.Below::neverAbove)
                .map(below -> below(below, forecast))
                .toList();
    }

    /** When it will be below one temperature. */
    private String below(Forecast.Below below, Forecast forecast) {
        String temperature = words.temperature(below.temperature());
        if (below.when().isPresent()) {
            Forecast.When when = below.when().get();
            Tense tense = Tense.of(when, forecast, lastS);
            if (tense != Tense.AHEAD && Tense.isUnseen(forecast)) {
                return words.text("forecast.below_by_now", temperature);
            }
            if (Tense.mayBeOver(when, forecast, lastS)) {
                return words.text(
                        startedAt.isPresent() ? "forecast.below_probably_by" : "forecast.below_probably_after",
                        temperature,
                        time(when.toS()));
            }
            return switch (tense) {
                case PAST ->
                    when.atS() < firstS + A_MINUTE_S
                            ? words.text("forecast.below_all_along", temperature)
                            : asSureAsItIs(
                                    when,
                                    words.text(
                                            startedAt.isPresent() ? "forecast.below_done" : "forecast.below_done_after",
                                            temperature,
                                            time(when.atS())));
                case ABOUT_NOW -> words.text("forecast.below_now", temperature);
                case AHEAD -> words.text("forecast.below", temperature, when(when.atS()), span(when));
            };
        }
        if (below.neverAbove()) {
            return words.text("forecast.never_above", temperature);
        }
        return below.notBeforeS()
                .map(at -> words.text(
                        startedAt.isPresent() ? "forecast.below_not_before" : "forecast.below_earliest",
                        temperature,
                        time(at)))
                .orElseGet(() -> words.text(UnknownCooling.key(below, forecast), temperature));
    }

    /** What has gone by, with what the noise of the readings leaves open of when, where that is more than a minute either way. */
    private String asSureAsItIs(Forecast.When when, String text) {
        return when.toS() - when.fromS() <= 2 * A_MINUTE_S
                ? text
                : words.text("forecast.nine_in_ten", text, span(when));
    }

    /** What opening the kiln would change; the way it is now is not repeated. */
    public List<String> choices(Forecast forecast) {
        return forecast.choices().stream()
                .filter(choice -> !choice.below().equals(forecast.below()))
                .map(choice -> choice(choice, forecast))
                .filter(text -> !text.isEmpty())
                .toList();
    }

    /** What one way of cooling on would change of every temperature still ahead; empty when nothing. */
    private String choice(Forecast.Choice choice, Forecast forecast) {
        String times = choice.below().stream()
                .filter(below -> !forecast.below().contains(below))
                .filter(below -> below.when()
                        .filter(when -> Tense.of(when, forecast, lastS) == Tense.AHEAD)
                        .isPresent())
                .map(below -> below(below, forecast))
                .collect(Collectors.joining(", "));
        if (times.isEmpty()) {
            return "";
        }
        String way = words.named("forecast.choice", choice.way());
        return choice.from()
                .filter(from -> !choice.atOnce())
                .map(from -> words.text("forecast.choice_from", way, words.temperature(from), times))
                .orElseGet(() -> words.text("forecast.choice_now", way, times));
    }

    private List<String> arrival(Forecast.Arrival arrival, double askedS) {
        List<String> lines = new ArrayList<>();
        String target = words.temperature(arrival.target());
        Optional<Forecast.When> ahead = arrival.when().filter(when -> when.atS() > askedS);
        Optional<Forecast.When> past = arrival.when().filter(when -> when.atS() <= askedS);
        past.ifPresent(when -> lines.add(sentence(words.text("forecast.reached", target, when(when.atS())))));
        boolean open = arrival.topsOut().isPresent();
        boolean worthSaying = arrival.reaches() == Forecast.Reaches.NO
                || arrival.topsOut().filter(ForecastWords::isWorthSaying).isPresent();
        switch (arrival.reaches()) {
            case YES ->
                ahead.ifPresent(when ->
                        lines.add(sentence(words.text("forecast.arrives", target, when(when.atS()), span(when)))));
            case NO -> lines.add(sentence(words.text(open ? "forecast.too_weak" : "forecast.not_reached", target)));
            case TOP_UNSEEN -> lines.add(sentence(words.text("forecast.top_unseen", target)));
            case CANNOT_SAY_YET ->
                // A time beside a doubt is the time it takes if it gets there: in one breath, or it is read as a
                // promise.
                lines.add(sentence(
                        ahead.map(when -> words.text("forecast.arrives_if", target, when(when.atS()), span(when)))
                                .orElseGet(() -> words.text("forecast.cannot_say", target))));
        }
        if (arrival.reaches() != Forecast.Reaches.YES && worthSaying) {
            arrival.topsOut()
                    .ifPresent(top -> lines.add(sentence(words.text(
                            "forecast.tops_out",
                            words.temperature(top.at()),
                            words.temperature(top.from()),
                            words.temperature(top.to())))));
        }
        return lines;
    }

    /**
     * When the cone aimed for is down, or why that is not told.
     *
     * @param cone named
     */
    public String cone(String cone, ConeDown down) {
        return down.when()
                .map(its -> {
                    double fromS = its.fromMs() / 1000.0;
                    String at = when(its.atMs() / 1000.0);
                    if (its.toMs().isEmpty()) {
                        return words.text("forecast.cone_open", cone, at, when(fromS));
                    }
                    double toS = its.toMs().getAsLong() / 1000.0;
                    String span = span(new Forecast.When(its.atMs() / 1000.0, fromS, toS));
                    return words.text("forecast.cone", cone, at, span);
                })
                .orElseGet(() -> switch (down.whyNot().orElseThrow()) {
                    case IS_DOWN -> words.text("cone.togo.down", cone);
                    case NOT_ON_ITS_WAY -> words.text("forecast.cone_not_on_its_way", cone);
                    case WAY_NOT_KNOWN -> words.text("forecast.cone_unknown", cone);
                });
    }

    /** Whether a top-out is known well enough for a potter to plan with. */
    static boolean isWorthSaying(Forecast.TopsOut top) {
        return top.to().minus(top.from()).kelvin() <= TOP_WORTH_SAYING_K;
    }

    private String sentence(String text) {
        return words.sentence(text) + ".";
    }

    /** An interval's ends; where they read alike, that they do. */
    private String span(Forecast.When when) {
        String from = time(when.fromS());
        String to = time(when.toS());
        return from.equals(to)
                ? words.text("forecast.within_a_minute")
                : words.text(startedAt.isPresent() ? "forecast.span" : "forecast.span_after", from, to);
    }

    /** A moment with the word before it that a time of day has, or one that has gone by since the first reading. */
    private String when(double elapsedS) {
        return startedAt.isPresent() ? words.atClock(time(elapsedS)) : words.after(millis(elapsedS - firstS));
    }

    private String time(double elapsedS) {
        return startedAt
                .map(start -> words.dayAndTime(start.plus(millis(elapsedS))))
                .orElseGet(() -> words.duration(millis(elapsedS - firstS)));
    }

    private static Duration millis(double seconds) {
        return Duration.ofMillis(Math.round(seconds * 1000));
    }
}

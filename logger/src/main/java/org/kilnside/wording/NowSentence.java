package org.kilnside.wording;

import java.time.Duration;
import java.util.Optional;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.session.Findings;
import org.kilnside.session.LiveForecast;
import org.kilnside.session.Post;
import org.kilnside.session.Snapshot;
import org.kilnside.thermal.Forecast;
import org.kilnside.tracking.PlanPosition;

/**
 * How it stands, as one plain sentence: the first thing a person reads.
 *
 * @param text the sentence
 * @param tone how it should be taken
 */
public record NowSentence(String text, Tone tone) {
    /** Less than this behind or ahead is on the plan: nobody would act on it (common practice). */
    private static final Duration ON_PLAN = Duration.ofMinutes(2);

    /** Slower than this is said to stand still, K/h. */
    private static final double STANDING_K_PER_H = 5;

    private static final double FULL_OUTPUT = 0.97;

    /** How a sentence should be taken. */
    public enum Tone {
        /** Things go their way. */
        CALM,
        /** Somebody should look. */
        LOOK,
        /** What is shown may not be what is. */
        BLIND
    }

    /**
     * The sentence for a snapshot.
     *
     * @param hostNowMs the host's monotonic clock now, from which the reading's age is worked out
     */
    public static NowSentence of(Snapshot snapshot, long hostNowMs, Words words) {
        if (snapshot.latest().isEmpty()) {
            return beforeTheFirst(snapshot, hostNowMs, words);
        }
        Snapshot.Latest latest = snapshot.latest().get();
        if (ReadingAge.isOver(snapshot)) {
            return calm(over(snapshot, latest, words));
        }
        Optional<Duration> age = ReadingAge.of(snapshot, hostNowMs);
        if (ReadingAge.isOld(snapshot, hostNowMs)) {
            return new NowSentence(noReading(snapshot, words.duration(age.orElseThrow()), words), Tone.BLIND);
        }
        if (latest.temperature().isEmpty()) {
            String what = latest.faults().isEmpty()
                    ? words.text("now.no_temperature")
                    : words.text(
                            "now.fault", words.named("fault", latest.faults().get(0)));
            return new NowSentence(what, Tone.BLIND);
        }
        return live(snapshot, latest.temperature().get(), words);
    }

    private static String noReading(Snapshot snapshot, String age, Words words) {
        return switch (snapshot.connection().state()) {
            // A copy that follows has lost the recorder; of the controller it knows nothing.
            case LOST -> words.text(follows(snapshot) ? "now.no_reading_recorder" : "now.no_reading_lost", age);
            case GIVEN_UP -> words.text("now.no_reading_given_up", age);
            case SILENT -> words.text("now.no_reading_silent", age);
            case CONNECTING, RECEIVING, FINISHED, CLOSED -> words.text("now.no_reading", age);
        };
    }

    private static boolean follows(Snapshot snapshot) {
        return snapshot.posts().stream().anyMatch(post -> post.role() == Post.Role.COPY);
    }

    private static NowSentence beforeTheFirst(Snapshot snapshot, long hostNowMs, Words words) {
        Duration waited =
                Duration.ofMillis(Math.max(0, hostNowMs - snapshot.connection().sinceHostMs()));
        return switch (snapshot.connection().state()) {
            case CONNECTING -> calm(words.text("now.connecting"));
            case RECEIVING ->
                waited.compareTo(ReadingAge.OLD) > 0
                        ? new NowSentence(words.text("now.no_reading_yet", words.duration(waited)), Tone.LOOK)
                        : calm(words.text("now.connecting"));
            case SILENT -> new NowSentence(words.text("now.silent", words.duration(waited)), Tone.LOOK);
            case LOST -> new NowSentence(snapshot.connection().detail().orElse(words.text("now.unplugged")), Tone.LOOK);
            case GIVEN_UP -> new NowSentence(words.text("now.given_up"), Tone.LOOK);
            case FINISHED, CLOSED -> calm(words.text("now.nothing_came"));
        };
    }

    private static String over(Snapshot snapshot, Snapshot.Latest latest, Words words) {
        String ended =
                snapshot.stage() == Snapshot.Stage.ENDED ? words.text("now.ended") : words.text("now.no_more_readings");
        return latest.temperature()
                .map(temperature -> ended + " " + words.text("now.last_was", words.temperature(temperature)))
                .orElse(ended);
    }

    private static NowSentence live(Snapshot snapshot, Temperature temperature, Words words) {
        if (snapshot.isNumberDistrusted()) {
            return new NowSentence(words.text("now.distrust", doubt(snapshot, words)), Tone.BLIND);
        }
        String now = words.temperature(temperature);
        return switch (snapshot.stage()) {
            case NO_READING_YET -> calm(words.text("now.connecting"));
            case WAITING_TO_START -> calm(words.text("now.waiting_to_start", now));
            case ENDED -> calm(words.text("now.ended"));
            case HEATING, HOLDING, COOLING ->
                snapshot.position()
                        .filter(position -> follows(position, snapshot.stage()))
                        .map(position -> byPlan(snapshot, position, now, words))
                        .orElseGet(() -> withoutPlan(snapshot, now, words));
        };
    }

    /** Why the number is not to be trusted: what the sensor shows, or else what the kiln's model finds. */
    private static String doubt(Snapshot snapshot, Words words) {
        return snapshot.findings().doubts().stream()
                .filter(Findings.Doubt::withdraws)
                .findFirst()
                .map(doubt -> words.named("doubt", doubt.what()))
                .or(() -> snapshot.distrusting().map(alarm -> words.clause(words.named("alarm", alarm.kind()))))
                .orElseGet(() -> words.text(modelSeesItCool(snapshot) ? "now.doubt_model_cooling" : "now.doubt_model"));
    }

    private static boolean modelSeesItCool(Snapshot snapshot) {
        return snapshot.findings()
                .forecast()
                .flatMap(LiveForecast::forecast)
                .filter(answer -> answer.stage() == Forecast.Stage.COOLING)
                .isPresent();
    }

    /** A plan that is through, or not begun, says nothing of what the kiln does now. */
    private static boolean follows(PlanPosition position, Snapshot.Stage stage) {
        return switch (position.leg()) {
            case WAITING, DONE -> false;
            case FREE_COOLING -> stage == Snapshot.Stage.COOLING;
            case RAMP, HOLD, CONTROLLED_COOLING -> true;
        };
    }

    private static NowSentence byPlan(Snapshot snapshot, PlanPosition position, String now, Words words) {
        String pace = position.behind().map(behind -> pace(behind, words)).orElse("");
        String target = target(snapshot.plan(), position.segment())
                .map(words::temperature)
                .orElse(now);
        String text = switch (position.leg()) {
            case RAMP -> words.text("now.ramp", target, pace);
            case CONTROLLED_COOLING -> words.text("now.controlled_cooling", target, pace);
            case HOLD ->
                words.text(
                        "now.hold",
                        target,
                        position.holdLeft()
                                .map(left -> words.text("now.hold_left", words.durationInWords(left)))
                                .orElse(""),
                        pace);
            case WAITING, FREE_COOLING, DONE -> cooling(snapshot, now, words);
        };
        return calm(text);
    }

    /** {@code , 6 minutes behind the plan}: with its comma, as where there is no plan there is no comma either. */
    private static String pace(Duration behind, Words words) {
        if (behind.abs().compareTo(ON_PLAN) < 0) {
            return words.text("now.on_plan");
        }
        return words.text(behind.isNegative() ? "now.ahead" : "now.behind", words.durationInWords(behind));
    }

    private static NowSentence withoutPlan(Snapshot snapshot, String now, Words words) {
        return calm(
                switch (snapshot.stage()) {
                    case HEATING ->
                        words.text(
                                snapshot.isJustJoined() ? "now.just_joined" : "now.heating",
                                now,
                                direction(snapshot, words));
                    case HOLDING -> words.text("now.holding", now);
                    case COOLING -> cooling(snapshot, now, words);
                    case NO_READING_YET, WAITING_TO_START, ENDED -> now;
                });
    }

    private static String cooling(Snapshot snapshot, String now, Words words) {
        return words.text("now.cooling", now, direction(snapshot, words));
    }

    private static String direction(Snapshot snapshot, Words words) {
        return snapshot.rates()
                .tenMinutes()
                .map(rate -> {
                    if (Math.abs(rate.kelvinPerHour()) < STANDING_K_PER_H) {
                        return words.text(isAtFullOutput(snapshot) ? "now.standing_full" : "now.standing");
                    }
                    return words.text(rate.kelvinPerHour() > 0 ? "now.rising" : "now.falling", words.speed(rate));
                })
                .orElse("");
    }

    private static boolean isAtFullOutput(Snapshot snapshot) {
        return snapshot.latest()
                .flatMap(latest -> latest.controller().output())
                .filter(output -> output.fraction() >= FULL_OUTPUT)
                .isPresent();
    }

    private static Optional<Temperature> target(Optional<Schedule> plan, int segment) {
        return plan.filter(
                        written -> segment >= 1 && segment <= written.segments().size())
                .map(written -> written.segments().get(segment - 1))
                .flatMap(part -> part instanceof Segment.Ramp ramp ? Optional.of(ramp.to()) : Optional.empty());
    }

    private static NowSentence calm(String text) {
        return new NowSentence(text, Tone.CALM);
    }
}

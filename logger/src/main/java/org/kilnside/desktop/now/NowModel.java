package org.kilnside.desktop.now;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.kilnside.chart.ChartContent;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.session.Connection;
import org.kilnside.session.Post;
import org.kilnside.session.Snapshot;
import org.kilnside.tracking.PlanPosition;
import org.kilnside.wording.Ahead;
import org.kilnside.wording.FiringSummary;
import org.kilnside.wording.Moments;
import org.kilnside.wording.NowSentence;
import org.kilnside.wording.PostWords;
import org.kilnside.wording.ReadingAge;
import org.kilnside.wording.StateWords;
import org.kilnside.wording.Words;

/**
 * All the Now screen says, worked out from a snapshot and the host's time. Plain values: the views only draw them.
 *
 * @param title kiln, firing, plan
 * @param alarms what is wrong, or good news; empty when nothing is
 * @param sentence how it stands; read first
 * @param ahead what the ware has had and what is to come; empty when there is nothing to say of it
 * @param number the temperature, or what stands in its place
 * @param figures what goes with it, the most asked for first
 * @param events what happened, newest first
 * @param connection how the cable stands
 * @param book how far the firing is written down
 * @param notReal said large where this is no real kiln now
 * @param chart what the chart draws
 * @param summary the firing's summary, once it is over
 * @param hand what a person may say by hand now: that it begins, that it is over
 */
public record NowModel(
        String title,
        Optional<AlarmStripModel> alarms,
        NowSentence sentence,
        Optional<Coming> ahead,
        BigNumber number,
        List<Figure> figures,
        List<EventLine> events,
        Status connection,
        Status book,
        Optional<String> notReal,
        ChartContent chart,
        Optional<FiringSummary> summary,
        Hand hand) {
    public NowModel {
        figures = List.copyOf(figures);
        events = List.copyOf(events);
    }

    /**
     * The large number.
     *
     * @param live whether it is the kiln's temperature now; where it is not, {@code text} says why, without digits
     *     that could be read as a temperature
     * @param text the degrees, or the words that stand in their place
     * @param unit the degrees' unit; empty beside words
     * @param under the reading's age, or what the last reading was
     */
    public record BigNumber(boolean live, String text, String unit, String under) {}

    /** One figure with its label and, smaller, the lines that go with it. */
    public record Figure(String label, String value, List<String> more) {
        public Figure {
            more = List.copyOf(more);
        }
    }

    /**
     * What is to come.
     *
     * @param head says so, and of when it is where that is not now
     * @param told what to say of it
     * @param live whether it rests on a reading of now: only then is it said beside the sentence
     */
    public record Coming(String head, Ahead told, boolean live) {
        /** What stands under the sentence. */
        public String sentence() {
            return live ? told.sentence() : "";
        }
    }

    /** One event; trouble is marked by a sign, not by colour alone. */
    public record EventLine(String when, String what, boolean trouble) {}

    /** A state in words. */
    public record Status(String text, boolean trouble) {}

    /** What a person may say by hand. */
    public enum Hand {
        NOTHING,
        IT_BEGINS,
        IT_IS_OVER
    }

    /** The model of a snapshot at a moment of the host's monotonic clock. */
    public static NowModel of(Snapshot snapshot, long hostNowMs, Words words, boolean quartz) {
        return new Writer(snapshot, hostNowMs, words).write(quartz);
    }

    /** All of it in one string, for a screen reader. */
    public String spoken() {
        String figure = number.live() ? number.text() + " " + number.unit() + ", " + number.under() : number.text();
        String coming = ahead.map(Coming::sentence).map(text -> " " + text).orElse("");
        String wrong =
                alarms.map(AlarmStripModel::spoken).map(text -> text + " ").orElse("");
        return notReal.map(text -> text + " ").orElse("") + wrong + sentence.text() + coming + " " + figure;
    }

    private static final class Writer {
        private final Snapshot snapshot;
        private final long hostNowMs;
        private final Words words;
        private final StateWords state;
        private final boolean over;
        private final boolean old;

        Writer(Snapshot snapshot, long hostNowMs, Words words) {
            this.snapshot = snapshot;
            this.hostNowMs = hostNowMs;
            this.words = words;
            this.state = new StateWords(words);
            this.over = ReadingAge.isOver(snapshot);
            this.old = !over && ReadingAge.isOld(snapshot, hostNowMs);
        }

        NowModel write(boolean quartz) {
            Optional<String> notReal = state.notReal(snapshot);
            return new NowModel(
                    title(),
                    AlarmStripModel.of(snapshot, words),
                    NowSentence.of(snapshot, hostNowMs, words),
                    ahead(),
                    number(),
                    figures(),
                    events(),
                    connection(),
                    new Status(
                            state.book(
                                    snapshot.disk(),
                                    snapshot.disk().onDiskUpToMs().isPresent()
                                            ? snapshot.zeroFor(snapshot.disk()
                                                    .onDiskUpToMs()
                                                    .getAsLong())
                                            : snapshot.startedAt(),
                                    snapshot.speed()),
                            snapshot.disk().trouble().isPresent()),
                    notReal,
                    ChartContent.of(
                            snapshot,
                            now(),
                            snapshot.speed() == 1,
                            quartz,
                            notReal.map(text -> words.text("chart.not_real"))),
                    over ? FiringSummary.of(snapshot, words) : Optional.empty(),
                    hand());
        }

        private String title() {
            List<String> parts = new ArrayList<>();
            snapshot.kiln().ifPresent(parts::add);
            if (snapshot.firing().isPresent()) {
                parts.add(words.text(
                        "window.firing", String.valueOf(snapshot.firing().getAsLong())));
            }
            snapshot.plan().ifPresent(plan -> parts.add(plan.name()));
            return parts.isEmpty() ? words.text("window.no_kiln") : String.join("  ·  ", parts);
        }

        private Optional<Coming> ahead() {
            Ahead told = Ahead.of(snapshot, words);
            if (over || told.isEmpty()) {
                return Optional.empty();
            }
            boolean live = !old && snapshot.latest().orElseThrow().temperature().isPresent();
            String head = live
                    ? words.text("ahead.head")
                    : words.text(
                            "ahead.as_of",
                            moment(snapshot.curve().elapsedMs(snapshot.curve().size() - 1)));
            return Optional.of(new Coming(head, told, live));
        }

        /** This moment on the recording's clock; it goes on while readings stop, so that the hole is seen to grow. */
        private OptionalLong now() {
            if (over || snapshot.latest().isEmpty()) {
                return OptionalLong.empty();
            }
            Snapshot.Latest latest = snapshot.latest().get();
            double sinceMs = Math.max(0, hostNowMs - latest.hostMs()) * snapshot.speed();
            return OptionalLong.of(latest.elapsedMs() + Math.round(sinceMs));
        }

        private BigNumber number() {
            if (snapshot.latest().isEmpty()) {
                return new BigNumber(false, words.text("number.none_yet"), "", "");
            }
            Snapshot.Latest latest = snapshot.latest().get();
            Duration age = ReadingAge.of(snapshot, hostNowMs).orElseThrow();
            if (over) {
                return new BigNumber(false, words.text("number.over"), "", last(latest));
            }
            if (old) {
                return new BigNumber(false, words.text("number.old", words.duration(age)), "", last(latest));
            }
            if (latest.temperature().isEmpty()) {
                return new BigNumber(false, words.text("number.no_temperature"), "", last(latest));
            }
            if (snapshot.isNumberDistrusted()) {
                return new BigNumber(
                        true,
                        words.degrees(latest.temperature().get()),
                        words.unit(),
                        words.text("number.distrusted", words.ago(age)));
            }
            String under = latest.outlier() ? words.text("number.doubtful", words.ago(age)) : words.ago(age);
            return new BigNumber(true, words.degrees(latest.temperature().get()), words.unit(), under);
        }

        private String last(Snapshot.Latest latest) {
            if (latest.temperature().isPresent()) {
                return words.text(
                        "number.last", words.temperature(latest.temperature().get()), moment(latest.elapsedMs()));
            }
            Trace curve = snapshot.curve();
            int newest = curve.size() - 1;
            return newest < 0
                    ? ""
                    : words.text(
                            "number.last",
                            words.temperature(Temperature.ofCelsius(curve.temperatureC(newest))),
                            moment(curve.elapsedMs(newest)));
        }

        private List<Figure> figures() {
            List<Figure> figures = new ArrayList<>();
            boolean silent = over || old || snapshot.latest().isEmpty();
            boolean blind =
                    silent || snapshot.latest().orElseThrow().temperature().isEmpty();
            if (!blind) {
                rate().ifPresent(figures::add);
            }
            snapshot.position().filter(position -> !over).ifPresent(position -> plan(figures, position, blind));
            if (!silent) {
                controller().ifPresent(figures::add);
            }
            boolean past = snapshot.stage() == Snapshot.Stage.COOLING || snapshot.stage() == Snapshot.Stage.ENDED;
            Optional<Ahead.Choices> choices = blind ? Optional.empty() : Ahead.choices(snapshot, words);
            // The chart names the peak; beside choices there is no room for it twice.
            snapshot.peak()
                    .filter(peak -> past && choices.isEmpty())
                    .ifPresent(peak -> figures.add(new Figure(
                            words.text("figure.peak"),
                            words.temperature(peak.temperature()),
                            List.of(moment(peak.elapsedMs())))));
            choices.ifPresent(its -> {
                List<String> more = new ArrayList<>(its.lines());
                more.add(its.caution());
                figures.add(new Figure(its.head(), its.what(), more));
            });
            return figures;
        }

        private Optional<Figure> rate() {
            Snapshot.Rates rates = snapshot.rates();
            Optional<HeatingRate> shown = rates.tenMinutes().or(rates::oneMinute);
            return shown.map(rate -> {
                List<String> more = new ArrayList<>();
                rates.oneMinute().ifPresent(one -> more.add(words.text("figure.rate_1", words.rate(one))));
                rates.sixtyMinutes().ifPresent(sixty -> more.add(words.text("figure.rate_60", words.rate(sixty))));
                return new Figure(
                        words.text(rates.tenMinutes().isPresent() ? "figure.rate" : "figure.rate_now"),
                        words.rate(rate),
                        more);
            });
        }

        private void plan(List<Figure> figures, PlanPosition position, boolean blind) {
            boolean under = position.leg() != PlanPosition.Leg.WAITING && position.leg() != PlanPosition.Leg.DONE;
            List<String> aim = state.segmentAim(snapshot.plan(), position);
            figures.add(
                    under
                            ? new Figure(words.text("figure.plan"), state.segment(position), aim)
                            : new Figure(
                                    words.text("figure.plan"),
                                    words.sentence(aim.get(0)),
                                    List.of(words.text("figure.plan_top", words.temperature(position.top())))));
            if (blind) {
                return;
            }
            position.holdLeft()
                    .ifPresent(left ->
                            figures.add(new Figure(words.text("figure.hold_left"), words.duration(left), List.of())));
            position.deviation()
                    .ifPresent(deviation -> figures.add(new Figure(
                            words.text("figure.against_plan"),
                            words.difference(deviation),
                            position.behind().map(this::pace).map(List::of).orElse(List.of()))));
        }

        private String pace(Duration behind) {
            if (behind.abs().toMinutes() < 1) {
                return words.text("figure.on_time");
            }
            return words.text(behind.isNegative() ? "figure.ahead" : "figure.behind", words.duration(behind));
        }

        private Optional<Figure> controller() {
            return snapshot.latest().map(Snapshot.Latest::controller).flatMap(report -> {
                List<String> aim = new ArrayList<>();
                report.setpoint().ifPresent(it -> aim.add(words.text("figure.setpoint", words.temperature(it))));
                snapshot.latest().flatMap(state::shown).ifPresent(aim::add);
                return report.output()
                        .map(output -> new Figure(words.text("figure.output"), words.percent(output), aim))
                        .or(() -> report.setpoint()
                                .map(it -> new Figure(
                                        words.text("figure.setpoint_only"),
                                        words.temperature(it),
                                        snapshot.latest().flatMap(state::shown).stream()
                                                .toList())))
                        .or(() -> snapshot.latest()
                                .flatMap(state::shown)
                                .map(it -> new Figure(words.text("figure.controller"), it, List.of())));
            });
        }

        private List<EventLine> events() {
            List<EventLine> lines = new ArrayList<>();
            // Of the recorder it is written in the record; this computer's own stands nowhere else.
            PostWords posts = new PostWords(words);
            snapshot.posts().stream()
                    .filter(post -> post.role() == Post.Role.COPY)
                    .flatMap(post -> posts.troubles(post).stream())
                    .forEach(said -> lines.add(new EventLine(words.text("chart.now"), said, true)));
            for (int i = snapshot.events().size() - 1; i >= 0; i--) {
                FiringEvent event = snapshot.events().get(i);
                lines.add(new EventLine(
                        moment(event.elapsedMs()),
                        state.event(event, Moments.of(snapshot, words)),
                        state.isTrouble(event)));
            }
            return lines;
        }

        private Status connection() {
            boolean trouble = switch (snapshot.connection().state()) {
                case SILENT, LOST, GIVEN_UP -> true;
                case CONNECTING, RECEIVING, FINISHED, CLOSED -> false;
            };
            Connection connection = snapshot.connection();
            boolean receiving = connection.state() == Connection.State.RECEIVING;
            String text = old && receiving
                    ? NowSentence.of(snapshot, hostNowMs, words).text()
                    : state.connection(snapshot, hostNowMs);
            return new Status(text, trouble || old && receiving);
        }

        private Hand hand() {
            return switch (snapshot.stage()) {
                case NO_READING_YET, ENDED -> Hand.NOTHING;
                case WAITING_TO_START -> over ? Hand.NOTHING : Hand.IT_BEGINS;
                case HEATING, HOLDING, COOLING -> over ? Hand.NOTHING : Hand.IT_IS_OVER;
            };
        }

        /** With its day where that is not today's. */
        private String moment(long elapsedMs) {
            Optional<Instant> zero = snapshot.zeroFor(elapsedMs);
            boolean today = zero.isEmpty()
                    || snapshot.latest().isEmpty()
                    || day(zero.get(), elapsedMs)
                            .equals(day(zero.get(), snapshot.latest().get().elapsedMs()));
            return today
                    ? state.moment(elapsedMs, zero, snapshot.speed())
                    : state.momentWithDay(elapsedMs, zero, snapshot.speed());
        }

        private LocalDate day(Instant zero, long elapsedMs) {
            return LocalDate.ofInstant(
                    zero.plusMillis(elapsedMs), words.preferences().zone());
        }
    }
}

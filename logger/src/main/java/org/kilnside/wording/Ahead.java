package org.kilnside.wording;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConePosition;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.schedule.Schedule;
import org.kilnside.session.ConeDown;
import org.kilnside.session.LiveForecast;
import org.kilnside.session.Snapshot;
import org.kilnside.thermal.Forecast;
import org.kilnside.thermal.Forecast.Reaches;
import org.kilnside.thermal.Forecast.Remark;
import org.kilnside.thermal.Forecast.When;

/**
 * What the ware has had and what is to come, in a potter's words: never leading with the earliest time, and never
 * without its caution.
 *
 * @param sentence what to say after the first sentence; empty when there is nothing yet
 * @param lines cone, top, lid and unloading, each with its label
 * @param cautions what to mind beside them; empty where no time is told
 */
public record Ahead(String sentence, List<Line> lines, List<String> cautions) {
    public Ahead {
        lines = List.copyOf(lines);
        cautions = List.copyOf(cautions);
    }

    /** One thing, with its label. */
    public record Line(String label, String value) {}

    /** Whether there is nothing to show. */
    public boolean isEmpty() {
        return lines.isEmpty() && sentence.isEmpty();
    }

    /**
     * What each way of going on would give, while it cools.
     *
     * @param head says that these are choices
     * @param what for what they give times: unloading, and below which temperature
     * @param lines one way each, first the way it is now
     * @param caution what to mind beside them
     */
    public record Choices(String head, String what, List<String> lines, String caution) {
        public Choices {
            lines = List.copyOf(lines);
        }
    }

    /** The choices a snapshot leaves; empty while it heats, and where nothing can be said of them. */
    public static Optional<Choices> choices(Snapshot snapshot, Words words) {
        Writer writer = new Writer(snapshot, words);
        return writer.forecast
                .filter(answer -> !writer.isRising())
                .flatMap(answer -> writer.openings(answer).choices());
    }

    /** What a snapshot holds of it. A number that is not to be trusted has no cone and no future. */
    public static Ahead of(Snapshot snapshot, Words words) {
        return new Writer(snapshot, words).write();
    }

    private static final class Writer {
        /** What an answer rests on that a potter has to know beside it. */
        private static final List<Remark.Kind> TO_MIND = List.of(
                Remark.Kind.HOTTER_THAN_PLANNED,
                Remark.Kind.DRIVEN_COOLING,
                Remark.Kind.DRIVEN_PAST_PLAN,
                Remark.Kind.COOLS_TOO_SLOWLY,
                Remark.Kind.COOLS_SLOWLY_PAST_PLAN,
                Remark.Kind.OPENED,
                Remark.Kind.FALLS_AS_IF_OPEN,
                Remark.Kind.CLIMB_BROKEN_OFF,
                Remark.Kind.HEATED_AGAIN,
                Remark.Kind.OUTPUT_CONTRADICTED,
                Remark.Kind.FULL_OUTPUT_CONTRADICTED,
                Remark.Kind.REVERSED_OUTPUT_CONTRADICTED,
                Remark.Kind.FULL_OUTPUT_WHILE_COOLING,
                Remark.Kind.FULL_OUTPUT_GUESSED,
                Remark.Kind.SETPOINT_RUNS_AHEAD,
                Remark.Kind.MAY_END_BY_THE_CLOCK);

        private final Snapshot snapshot;
        private final Words words;
        private final TimesAhead times;
        private final Optional<LiveForecast> live;
        private final Optional<Forecast> forecast;
        /** Where the newest line is further on than the forecast, times that have gone by are not expected any more. */
        private final double nowS;

        Writer(Snapshot snapshot, Words words) {
            this.snapshot = snapshot;
            this.words = words;
            this.times = new TimesAhead(snapshot, words);
            this.live = snapshot.findings().isDistrusted()
                    ? Optional.empty()
                    : snapshot.findings().forecast();
            this.forecast = live.flatMap(LiveForecast::forecast);
            this.nowS =
                    snapshot.latest().map(latest -> latest.elapsedMs() / 1000.0).orElse(0.0);
        }

        Ahead write() {
            List<String> sentences = new ArrayList<>();
            List<Line> lines = new ArrayList<>();
            List<String> cautions = new ArrayList<>();
            cone(lines);
            forecast.ifPresent(answer -> {
                // Its future is drawn even where no time is told: never without what to mind.
                cautions.add(words.text("forecast.caution"));
                remark(answer, Remark.Kind.SENSOR_READS_AIR).ifPresent(sentences::add);
                if (snapshot.isJustJoined()) {
                    return;
                }
                if (isRising()) {
                    top(answer, sentences, lines);
                }
                if (!isRising()
                        || answer.arrival().flatMap(Forecast.Arrival::when).isPresent()) {
                    openings(answer).write(sentences, lines, cautions);
                }
                TO_MIND.forEach(kind -> remark(answer, kind).ifPresent(cautions::add));
            });
            live.flatMap(LiveForecast::failure)
                    .ifPresent(
                            why -> lines.add(new Line(words.text("ahead.forecast"), words.text("ahead.failed", why))));
            return new Ahead(String.join(" ", sentences), lines, cautions);
        }

        private Optional<String> remark(Forecast answer, Remark.Kind kind) {
            return answer.remarks().stream()
                    .filter(remark -> remark.kind() == kind)
                    .findFirst()
                    .map(remark -> words.sentence(words.named("forecast.remark", kind)) + ".");
        }

        private boolean isRising() {
            return snapshot.stage() == Snapshot.Stage.HEATING || snapshot.stage() == Snapshot.Stage.HOLDING;
        }

        private Optional<Cone> aim() {
            return snapshot.plan().flatMap(Schedule::aimsFor).flatMap(Cone::find);
        }

        private ConeWords cones(ConeReached reached) {
            return new ConeWords(words, ConeTable.of(reached.series()));
        }

        private void cone(List<Line> lines) {
            if (snapshot.findings().isDistrusted() || snapshot.findings().cone().isEmpty()) {
                return;
            }
            ConeReached reached = snapshot.findings().cone().get();
            ConeWords cones = cones(reached);
            boolean rising = isRising();
            if (reached.isBelowScale() && !rising) {
                return;
            }
            if (!rising) {
                lines.add(new Line("", words.sentence(cones.nearest(reached))));
                return;
            }
            // While it heats the nearest cone is enough: the next reading moves it.
            String so = reached.cone()
                    .nearest()
                    .filter(cone -> !reached.isBelowScale())
                    .map(cone -> cones.nearest(reached))
                    .orElseGet(() -> words.text("ahead.no_cone"));
            String aimed = aim().map(cone -> words.text("ahead.aiming", so, cones.cone(cone)))
                    .orElse(so);
            lines.add(new Line("", words.sentence(aimed)));
            live.flatMap(LiveForecast::cone)
                    // Along its plan; one that falls short of it goes another way, for as long as nobody ends it.
                    .filter(expected -> !fallsShort())
                    .ifPresent(expected -> lines.add(new Line(
                            "",
                            words.text("ahead.cone_to_come", cones.nearest(expected.position(), expected.between())))));
        }

        private boolean fallsShort() {
            return forecast.flatMap(Forecast::arrival)
                    .filter(arrival -> arrival.reaches() == Reaches.NO)
                    .isPresent();
        }

        /** That the cone aimed for is down while it heats on: then the top is not what is waited for any more. */
        private Optional<String> aimHad() {
            return snapshot.findings()
                    .cone()
                    .flatMap(reached -> aim().filter(Cone::isWhole)
                            .filter(cone -> ConePosition.at(cone).compareTo(reached.cone()) <= 0)
                            .map(cone ->
                                    words.text("ahead.aim_had", cones(reached).cone(cone))));
        }

        private void top(Forecast answer, List<String> sentences, List<Line> lines) {
            aimHad().ifPresent(sentences::add);
            if (answer.arrival().isEmpty()) {
                return;
            }
            Forecast.Arrival arrival = answer.arrival().get();
            String target = words.temperature(arrival.target());
            if (arrival.reaches() == Reaches.NO && arrival.topsOut().isPresent()) {
                Forecast.TopsOut top = arrival.topsOut().get();
                sentences.add(words.text(
                        "ahead.tops_out",
                        words.temperature(top.at()),
                        words.degrees(top.from()),
                        words.degrees(top.to()),
                        target));
                // Who waits for a number that does not come waits for the cone.
                if (!coneExpected(sentences)) {
                    coneNotComing().ifPresent(sentences::add);
                }
                return;
            }
            arrival.when()
                    .filter(when -> isAhead(when))
                    .ifPresent(when -> lines.add(new Line(words.text("ahead.top", target), times.shortSpan(when))));
            if (arrival.reaches() == Reaches.CANNOT_SAY_YET) {
                boolean likely = arrival.topsOut()
                        .map(top -> !top.at().isBelow(arrival.target()))
                        .orElse(true);
                Optional<When> when = arrival.when().filter(its -> likely);
                sentences.add(when.map(its -> words.text("ahead.expected_if", target, times.about(its)))
                        .orElseGet(() -> cannotSay(arrival, target)));
                coneExpected(sentences);
            } else if (!coneExpected(sentences)) {
                arrival.when()
                        .filter(when -> isAhead(when))
                        .ifPresent(when -> sentences.add(words.text("ahead.expected", target, times.about(when))));
            }
        }

        /** With how far it comes, where that is known well enough to think about. */
        private String cannotSay(Forecast.Arrival arrival, String target) {
            return arrival.topsOut()
                    .filter(ForecastWords::isWorthSaying)
                    .map(top -> words.text(
                            "ahead.cannot_say_top",
                            target,
                            words.temperature(top.at()),
                            words.degrees(top.from()),
                            words.degrees(top.to())))
                    .orElseGet(() -> words.text("ahead.cannot_say", target));
        }

        /** When the cone aimed for is down, where that is still ahead. */
        private boolean coneExpected(List<String> sentences) {
            Optional<ConeDown.When> when =
                    live.flatMap(LiveForecast::aimed).flatMap(ConeDown::when).filter(its -> its.atMs() > nowS * 1000);
            if (when.isEmpty() || snapshot.findings().cone().isEmpty()) {
                return false;
            }
            ConeDown.When its = when.get();
            String at = times.moment(its.atMs());
            // Where it may end short of the cone there is no latest.
            sentences.add(
                    its.toMs().isPresent()
                            ? words.text(
                                    "ahead.cone_expected",
                                    aimNamed(),
                                    at,
                                    times.shortSpan(its.fromMs(), its.toMs().getAsLong()))
                            : words.text("ahead.cone_expected_open", aimNamed(), at, times.moment(its.fromMs())));
            return true;
        }

        private Optional<String> coneNotComing() {
            return live.flatMap(LiveForecast::aimed)
                    .flatMap(ConeDown::whyNot)
                    .filter(why -> snapshot.findings().cone().isPresent())
                    .flatMap(why -> switch (why) {
                        case IS_DOWN -> Optional.empty();
                        case NOT_ON_ITS_WAY -> Optional.of(words.text("ahead.cone_not_at_that", aimNamed()));
                        case WAY_NOT_KNOWN -> Optional.of(words.text("ahead.cone_unknown", aimed()));
                    });
        }

        private String aimNamed() {
            return words.sentence(aimed());
        }

        private String aimed() {
            return cones(snapshot.findings().cone().get()).cone(aim().get());
        }

        private Openings openings(Forecast answer) {
            return new Openings(snapshot, words, live.orElseThrow(), answer, nowS);
        }

        private boolean isAhead(When when) {
            return Tense.of(when, forecast.orElseThrow().askedS(), nowS) == Tense.AHEAD;
        }
    }
}

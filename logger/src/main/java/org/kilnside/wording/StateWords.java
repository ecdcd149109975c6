package org.kilnside.wording;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.kilnside.alarm.AlarmEntry;
import org.kilnside.alarm.Grade;
import org.kilnside.firing.FiringEvent;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.session.Connection;
import org.kilnside.session.FiringBook;
import org.kilnside.session.Snapshot;
import org.kilnside.tracking.PlanPosition;

/** The parts of a snapshot in a potter's words: connection, book, events, segments. */
public final class StateWords {
    private final Words words;

    public StateWords(Words words) {
        this.words = words;
    }

    /** The same of a firing; where nobody has ever recorded there is nothing to be found again. */
    public String connection(Snapshot snapshot, long hostNowMs) {
        Connection connection = snapshot.connection();
        boolean neverHeard = snapshot.link().isEmpty() && connection.state() == Connection.State.LOST;
        return connection.detail().filter(detail -> neverHeard).orElseGet(() -> connection(connection, hostNowMs));
    }

    /** How the cable stands, and since when where that matters; what to do comes with it. */
    public String connection(Connection connection, long hostNowMs) {
        Duration since = Duration.ofMillis(Math.max(0, hostNowMs - connection.sinceHostMs()));
        String state = switch (connection.state()) {
            case SILENT -> words.text("connection.SILENT", words.duration(since));
            case LOST -> words.text("connection.LOST", words.duration(since));
            case CONNECTING, RECEIVING, GIVEN_UP, FINISHED, CLOSED -> words.named("connection", connection.state());
        };
        return connection.detail().map(detail -> state + " " + detail).orElse(state) + spoilt(connection.counts());
    }

    /** How many lines came that were not good; nothing where none did. */
    private String spoilt(Connection.Counts counts) {
        long spoilt = counts.badChecksum() + counts.malformed();
        return spoilt == 0
                ? ""
                : " "
                        + words.text(
                                "connection.spoilt",
                                spoilt,
                                counts.lines() + counts.badChecksum() + counts.malformed());
    }

    /** How far the firing is written down. */
    public String book(FiringBook.DiskState disk, Optional<Instant> startedAt, double speed) {
        if (disk.trouble().isPresent()) {
            return words.text("book.trouble", disk.trouble().get());
        }
        if (disk.onDiskUpToMs().isEmpty()) {
            return words.text("book.nothing_yet");
        }
        return words.text(
                "book.up_to", moment(disk.onDiskUpToMs().getAsLong(), startedAt, speed, words::timeWithSeconds));
    }

    /** A time of the recording: on the wall clock for a real kiln, else since the begin. */
    public String moment(long elapsedMs, Optional<Instant> startedAt, double speed) {
        return moment(elapsedMs, startedAt, speed, words::time);
    }

    /** A time of the recording with its day where it is on the wall clock. */
    public String momentWithDay(long elapsedMs, Optional<Instant> startedAt, double speed) {
        return moment(elapsedMs, startedAt, speed, words::dayAndTime);
    }

    /** The same in a sentence: {@code at Thu 14:05}, or {@code after 9 h 5 min}. */
    public String when(long elapsedMs, Optional<Instant> startedAt, double speed) {
        return isOnClock(startedAt, speed)
                ? words.atClock(momentWithDay(elapsedMs, startedAt, speed))
                : words.after(Duration.ofMillis(elapsedMs));
    }

    /** A time of the recording since its begin: {@code 9:05 h}. */
    public String elapsed(long elapsedMs) {
        long minutes = Math.floorDiv(elapsedMs, 60_000L);
        return String.format(
                words.language().locale(),
                "%d:%02d %s",
                Math.floorDiv(minutes, 60L),
                Math.floorMod(minutes, 60L),
                words.text("unit.hour"));
    }

    /**
     * What happened, without when; good news says what it is, and does not call itself an alarm.
     *
     * @param moments of the recording in which it happened
     */
    public String event(FiringEvent event, Moments moments) {
        Optional<AlarmEntry> news = news(event);
        if (news.isPresent()) {
            return new AlarmWords(words, moments).news(news.get());
        }
        String kind = words.named("event", event.kind());
        Optional<String> alarm = event.text().flatMap(AlarmEntry::parse).map(new AlarmWords(words, moments)::line);
        Optional<String> list = event.kind() == FiringEvent.Kind.LIGHTING
                ? event.text().map(new LightingWords(words)::summary)
                : Optional.empty();
        return alarm.or(() -> list)
                .or(event::text)
                .map(text -> words.text("event.with_text", kind, text))
                .orElse(kind);
    }

    /** Whether somebody should look: not where good news was told. */
    public boolean isTrouble(FiringEvent event) {
        return event.kind().isTrouble() && news(event).isEmpty();
    }

    private static Optional<AlarmEntry> news(FiringEvent event) {
        return event.text()
                .filter(text -> event.kind() == FiringEvent.Kind.ALARM_RAISED)
                .flatMap(AlarmEntry::parse)
                .filter(entry -> entry.grade() == Grade.GOOD_TO_KNOW);
    }

    /** The number on the controller itself, where it is another by a degree at least: what is keyed in goes by it. */
    public Optional<String> shown(Snapshot.Latest latest) {
        return latest.shown()
                .filter(number -> latest.temperature()
                        .filter(truth -> Math.abs(truth.celsius() - number.celsius()) >= 1)
                        .isPresent())
                .map(number -> words.text("figure.shown", words.temperature(number)));
    }

    /** {@code Segment 2 of 4}; where the heat ended before the plan has it end, the one it ended in. */
    public String segment(PlanPosition position) {
        return words.text("plan.segment", position.heatEndedIn().orElse(position.segment()), position.segments());
    }

    /** What the segment asks, in one or two short lines: {@code 100 °C/h to 600 °C}, {@code hold 15 min}. */
    public List<String> segmentAim(Optional<Schedule> plan, PlanPosition position) {
        if (position.heatEndedIn().isPresent()) {
            return List.of(words.text("plan.heat_ended"), words.named("leg", position.leg()));
        }
        boolean under = position.leg() != PlanPosition.Leg.WAITING && position.leg() != PlanPosition.Leg.DONE;
        if (!under
                || plan.isEmpty()
                || position.segment() < 1
                || position.segment() > plan.get().segments().size()) {
            return List.of(words.named("leg", position.leg()));
        }
        Segment segment = plan.get().segments().get(position.segment() - 1);
        if (segment instanceof Segment.Ramp ramp) {
            String to = words.text("plan.ramp", words.speed(ramp.rate()), words.temperature(ramp.to()));
            return ramp.hold().isZero()
                    ? List.of(to)
                    : List.of(to, words.text("plan.hold", words.duration(ramp.hold())));
        }
        return List.of(words.text("plan.free_cooling"));
    }

    /** A segment as the plan has it. */
    public String segment(Segment segment) {
        if (segment instanceof Segment.Ramp ramp) {
            String to = words.text("plan.ramp", words.speed(ramp.rate()), words.temperature(ramp.to()));
            return ramp.hold().isZero() ? to : to + ", " + words.text("plan.hold", words.duration(ramp.hold()));
        }
        return words.text("plan.free_cooling");
    }

    /** What kind of kiln speaks, where it is not a real one running in its own time; empty for a real kiln. */
    public Optional<String> notReal(Snapshot snapshot) {
        String kind = snapshot.link().replaceAll(":.*", "");
        String speed = words.number(snapshot.speed(), snapshot.speed() == Math.rint(snapshot.speed()) ? 0 : 1);
        boolean faster = Math.abs(snapshot.speed() - 1) > 1e-9;
        return switch (kind) {
            case "virtual" ->
                Optional.of(faster ? words.text("virtual.faster", speed) : words.text("virtual.own_time"));
            case "replay" -> Optional.of(faster ? words.text("replay.faster", speed) : words.text("replay.own_time"));
            default -> faster ? Optional.of(words.text("virtual.faster", speed)) : Optional.empty();
        };
    }

    private String moment(long elapsedMs, Optional<Instant> startedAt, double speed, Function<Instant, String> clock) {
        return isOnClock(startedAt, speed) ? clock.apply(startedAt.get().plusMillis(elapsedMs)) : elapsed(elapsedMs);
    }

    static boolean isOnClock(Optional<Instant> startedAt, double speed) {
        return startedAt.isPresent() && Math.abs(speed - 1) < 1e-9;
    }
}

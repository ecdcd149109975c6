package org.kilnside.session;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.FiringEvent.Kind;
import org.kilnside.firing.Reading;
import org.kilnside.firing.WallClockLine;
import org.kilnside.sensor.Probe;

/**
 * What is written down of the firing going on: its number in the book, what happened, the clocks, and what stands behind
 * the channels. Everything goes to the book at once, and nothing is worked out here. Confined to the session's thread.
 */
final class FiringRecord {
    private final FiringBook book;
    private final HostClock clock;
    private final Supplier<FiringSettings> settings;
    private final String link;
    private final double speed;
    private final Consumer<FiringEvent> told;

    private final SaidBefore before = new SaidBefore();
    private final ClockTies ties = new ClockTies();
    private final List<FiringEvent> events = new ArrayList<>();
    private Optional<List<FiringEvent>> eventsSeen = Optional.empty();
    private OptionalLong number = OptionalLong.empty();
    private List<Probe> probesWritten = List.of();

    /**
     * @param settings as they are when a firing begins
     * @param told hears of each event that is written down
     */
    FiringRecord(
            FiringBook book,
            HostClock clock,
            Supplier<FiringSettings> settings,
            String link,
            double speed,
            Consumer<FiringEvent> told) {
        this.book = book;
        this.clock = clock;
        this.settings = settings;
        this.link = link;
        this.speed = speed;
        this.told = told;
    }

    /** The firing's number in the book; empty before its first reading. */
    OptionalLong number() {
        return number;
    }

    boolean isOpen() {
        return number.isPresent();
    }

    /** Opens a firing in the book, at this moment, with what was said and happened before. */
    void begin() {
        Instant now = clock.wallClock();
        ties.begin(now);
        events.clear();
        eventsSeen = Optional.empty();
        probesWritten = List.of();
        FiringSettings its = settings.get();
        number = OptionalLong.of(book.begin(
                new FiringBook.FiringStart(its.kiln(), link, now, its.plan(), its.planText(), its.series())));
        note(Kind.RECORDING_BEGAN, Optional.empty(), 0);
        before.take().forEach(this::record);
    }

    /** Goes on with a firing that is in the book. */
    void goOn(FiringBook.OpenFiring open) {
        number = OptionalLong.of(open.number());
        ties.goOn(open.start().startedAt(), open.clockTies());
        probesWritten = open.probes();
        events.addAll(open.events());
        eventsSeen = Optional.empty();
    }

    void append(Reading reading) {
        book.append(number.orElseThrow(), reading);
    }

    void note(Kind kind, Optional<String> text, long elapsedMs) {
        record(new FiringEvent(elapsedMs, kind, text));
    }

    /** Writes down what happened; before the record has begun it waits for it. */
    void record(FiringEvent event) {
        if (!isOpen()) {
            before.keep(event);
            return;
        }
        events.add(event);
        eventsSeen = Optional.empty();
        told.accept(event);
        book.append(number.orElseThrow(), event);
    }

    /** Writes down what a repeated look at the readings finds, but for what stands there already. */
    void recordNews(FiringEvent found) {
        if (events.stream()
                .noneMatch(event -> event.kind() == found.kind() && event.text().equals(found.text()))) {
            record(found);
        }
    }

    void end(long elapsedMs) {
        book.end(number.orElseThrow(), elapsedMs);
    }

    /** What happened, oldest first. */
    List<FiringEvent> events() {
        if (eventsSeen.isEmpty()) {
            eventsSeen = Optional.of(List.copyOf(events));
        }
        return eventsSeen.get();
    }

    /** Ties the recording's clock to the wall's now and then. */
    void tieWhenDue(long elapsedMs, OptionalLong uptimeMs) {
        if (ties.isDue(elapsedMs)) {
            Instant wall = speed == 1
                    ? clock.wallClock()
                    : ties.startedAt().orElseThrow().plusMillis(elapsedMs);
            FiringBook.ClockTie tie = new FiringBook.ClockTie(elapsedMs, uptimeMs, wall);
            book.clockTie(number.orElseThrow(), tie);
            ties.add(tie);
        }
    }

    /** What stands behind the channels from a time on, where that is news. */
    void probes(List<Probe> probes, long elapsedMs) {
        if (number.isPresent() && !probes.isEmpty() && !probes.equals(probesWritten)) {
            book.sensors(number.getAsLong(), elapsedMs, probes);
            probesWritten = probes;
        }
    }

    /** All its readings so far; empty when the disk is slow or full and they are still waiting. */
    Optional<List<Reading>> readings() {
        return book.readings(number.orElseThrow());
    }

    Optional<Instant> startedAt() {
        return ties.startedAt();
    }

    /** The line by which its moments get their time of day. */
    Optional<WallClockLine> wallClock() {
        return ties.line();
    }
}

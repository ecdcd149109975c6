package org.kilnside.session;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.kilnside.alarm.Alarm;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.FiringEvent.Kind;
import org.kilnside.firing.Lighting;
import org.kilnside.firing.Origin;
import org.kilnside.firing.Reading;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.SensorFault;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.session.Snapshot.Latest;
import org.kilnside.session.Snapshot.Stage;

/**
 * The live firing without its thread: takes what arrives, hands each reading to the book first, and then follows it.
 * Confined to one thread; the snapshots it makes may go to any.
 */
final class FiringWatch {
    /** Three line intervals, but never less than this, make a gap (the wire's rule for silence). */
    private static final long SHORTEST_GAP_MS = 10_000;

    /** What was asked for has come in when nothing more comes for this long. */
    private static final long FILL_SETTLES_MS = 1_000;

    /** A number older than this, or than three line intervals, is no longer the kiln's temperature now. */
    private static final long SHORTEST_STALE_MS = 10_000;

    private static final long UNKNOWN_INTERVAL_MS = 1_000;

    private final FiringBook book;
    private final HostClock clock;
    private final FiringSettings settings;
    private final String link;
    private final double speed;

    private final Timeline timeline;
    private final Following following;
    private final List<FiringEvent> events = new ArrayList<>();
    private List<FiringEvent> eventsSeen = List.of();
    private final GapFill gapFill = new GapFill();
    private final Forecasts forecasts;
    private final AlarmDuty alarms;

    private OptionalLong firing = OptionalLong.empty();
    private final ClockTies clockTies = new ClockTies();
    private final FaultWatch faults = new FaultWatch();
    private long zeroMs;
    private List<Probe> probes = List.of();
    private List<Probe> probesWritten = List.of();
    private final LineInterval interval = new LineInterval();
    private Optional<Lighting> lightingWaits = Optional.empty();
    private Connection connection;
    private Optional<Latest> latest = Optional.empty();
    private boolean connectionWasLost;
    private OptionalLong missingSinceUptimeMs = OptionalLong.empty();
    private FiringBook.DiskState disk;

    private boolean sensorChanged;

    private long sequence;
    private boolean changed = true;
    private Snapshot snapshot;

    FiringWatch(FiringBook book, HostClock clock, FiringSettings settings, String link, double speed, Host host) {
        this.book = book;
        this.clock = clock;
        this.settings = settings;
        this.link = link;
        this.speed = speed;
        this.timeline = new Timeline(speed);
        this.alarms = new AlarmDuty(settings.alarmLimits(), settings.plan(), host, change -> {
            changed = true;
            AlarmDuty.event(change).ifPresent(this::record);
        });
        this.following = new Following(settings.plan(), settings.sensor(), alarms);
        this.forecasts = new Forecasts(settings);
        this.connection = new Connection(
                Connection.State.CONNECTING, clock.monotonicMs(), Optional.empty(), Connection.Counts.NONE);
        this.disk = book.state();
    }

    /** Goes on with the firing of the program's last run, when it is the same kiln's and not long ago. */
    void resume() {
        Optional<FiringBook.OpenFiring> found = book.unfinished();
        if (found.isEmpty()) {
            return;
        }
        FiringBook.OpenFiring open = found.get();
        if (open.readings().isEmpty()) {
            book.end(open.number(), 0);
            return;
        }
        Reading last = open.readings().get(open.readings().size() - 1);
        Instant lastWall =
                FiringBook.wallClock(open.start().startedAt(), open.clockTies()).at(last.elapsedMs());
        Duration away = Duration.between(lastWall, clock.wallClock());
        boolean sameKiln = open.start().kiln().equals(settings.kiln())
                && open.start().link().equals(link);
        // A sped-up link begins its kiln anew each time: there is nothing to go on with.
        if (!sameKiln || speed != 1 || away.compareTo(settings.resumeWithin()) > 0) {
            book.end(open.number(), last.elapsedMs());
            return;
        }
        firing = OptionalLong.of(open.number());
        clockTies.goOn(open.start().startedAt(), open.clockTies());
        probes = open.probes();
        probesWritten = open.probes();
        followProbe();
        events.addAll(open.events());
        long beforeMs = 0;
        alarms.remember();
        for (Reading reading : open.readings()) {
            alarms.line(reading);
            following.take(reading);
            if (reading.origin() == Origin.LIVE) {
                interval.seen(reading.elapsedMs() - beforeMs);
                beforeMs = reading.elapsedMs();
            }
        }
        // What happened is in the record already.
        following.takeHappened();
        alarms.remembered(open.events(), last.elapsedMs());
        timeline.resume(
                last.elapsedMs(),
                new Timeline.Stamp(
                        uptimeAt(open, last.elapsedMs()),
                        OptionalInt.empty(),
                        clock.monotonicMs() - Math.max(0, away.toMillis()),
                        lastWall));
        note(Kind.RECORDING_RESUMED, Optional.empty(), last.elapsedMs());
    }

    /** The controller's uptime at a time after the last tie, had it run on; empty when it gives none. */
    private static OptionalLong uptimeAt(FiringBook.OpenFiring open, long elapsedMs) {
        if (open.clockTies().isEmpty()) {
            return OptionalLong.empty();
        }
        FiringBook.ClockTie tie = open.clockTies().get(open.clockTies().size() - 1);
        return tie.uptimeMs().isEmpty()
                ? OptionalLong.empty()
                : OptionalLong.of(
                        Math.floorMod(tie.uptimeMs().getAsLong() + elapsedMs - tie.elapsedMs(), Timeline.WRAP_MS));
    }

    void hello(ReadingSource.ControllerHello hello) {
        probes = hello.probes();
        hello.lineIntervalMs().ifPresent(interval::said);
        followProbe();
        writeProbes();
    }

    private void followProbe() {
        if (!probes.isEmpty()) {
            following.probe(probes.get(0));
        }
    }

    void reading(ReadingSource.Arrival arrival) {
        if (arrival.origin() == Origin.FILLED_IN) {
            fillIn(arrival);
            return;
        }
        long before = timeline.elapsedMs();
        OptionalLong uptimeBefore = timeline.uptimeMs();
        Timeline.Step step = timeline.next(
                new Timeline.Stamp(arrival.uptimeMs(), arrival.sequence(), arrival.hostMs(), clock.wallClock()));
        long elapsedMs = timeline.elapsedMs() - zeroMs;
        if (firing.isEmpty()) {
            beginRecord();
            elapsedMs = 0;
        }
        Reading reading = arrival.at(elapsedMs);
        book.append(firing.getAsLong(), reading);
        changed = true;
        if (step == Timeline.Step.RESTARTED) {
            note(Kind.CONTROLLER_RESTARTED, Optional.empty(), elapsedMs);
        }
        if (step != Timeline.Step.FIRST && timeline.elapsedMs() - before > gapMs()) {
            note(Kind.GAP, Optional.of(seconds(timeline.elapsedMs() - before)), elapsedMs);
            missingSinceUptimeMs = missingSince(step, uptimeBefore, timeline.elapsedMs() - before);
        }
        if (step == Timeline.Step.ON && reading.first().number() == 1) {
            interval.seen(timeline.elapsedMs() - before);
        }
        if (clockTies.isDue(elapsedMs)) {
            tie(elapsedMs);
        }
        alarms.line(reading);
        if (reading.first().number() != 1) {
            return;
        }
        follow(reading, arrival.hostMs());
    }

    /**
     * The uptime from which on readings are missing. A controller that keeps readings through a reset counts them
     * backwards from its start, as if the reset had taken no time: below zero is before it.
     */
    private OptionalLong missingSince(Timeline.Step step, OptionalLong uptimeBefore, long gapMs) {
        if (step == Timeline.Step.ON) {
            return uptimeBefore;
        }
        return timeline.uptimeMs().isPresent()
                ? OptionalLong.of(timeline.uptimeMs().getAsLong() - gapMs)
                : OptionalLong.empty();
    }

    private long staleAfterMs() {
        if (speed == 1) {
            return interval.ms().isPresent() ? interval.three(SHORTEST_STALE_MS) : SHORTEST_STALE_MS;
        }
        // A kiln that runs faster than the host's clock sends more often than that by it.
        return SHORTEST_STALE_MS;
    }

    private void follow(Reading reading, long hostMs) {
        boolean outlier = following.take(reading);
        latest = Optional.of(latest(reading, hostMs, outlier));
        faults.take(reading).ifPresent(this::record);
        for (FiringEvent happened : following.takeHappened()) {
            record(happened);
            if (happened.kind() == Kind.FIRING_ENDED) {
                book.end(firing.getAsLong(), happened.elapsedMs());
            }
        }
        if (following.litAgain()) {
            beginAnew(reading);
        }
    }

    private Latest latest(Reading reading, long hostMs, boolean outlier) {
        return new Latest(
                reading.elapsedMs(),
                hostMs,
                following.guide().truth(reading),
                following.guide().shown(reading),
                reading.first().coldJunction(),
                List.copyOf(SensorFault.ofBits(reading.first().raw().faultBits())),
                reading.controller(),
                outlier,
                staleAfterMs());
    }

    private void beginRecord() {
        zeroMs = timeline.elapsedMs();
        Instant now = clock.wallClock();
        clockTies.begin(now);
        firing = OptionalLong.of(book.begin(
                new FiringBook.FiringStart(settings.kiln(), link, now, settings.plan(), settings.planText())));
        probesWritten = List.of();
        writeProbes();
        note(Kind.RECORDING_BEGAN, Optional.empty(), 0);
        lightingWaits.ifPresent(list -> note(Kind.LIGHTING, Optional.of(list.text()), 0));
        lightingWaits = Optional.empty();
    }

    /** The kiln was lit again after a firing had ended: from here on it is a new firing. */
    private void beginAnew(Reading reading) {
        events.clear();
        following.reset();
        forecasts.courseChanged();
        alarms.begin();
        long hostMs = latest.orElseThrow().hostMs();
        beginRecord();
        // Wall time of the new zero follows the kiln's own time, which may run faster than the host's.
        Reading first = Reading.of(0, reading.channels(), reading.controller(), reading.origin());
        book.append(firing.getAsLong(), first);
        latest = Optional.of(latest(first, hostMs, following.take(first)));
    }

    private void fillIn(ReadingSource.Arrival arrival) {
        if (firing.isEmpty() || arrival.uptimeMs().isEmpty()) {
            return;
        }
        OptionalLong at = timeline.elapsedAt(arrival.uptimeMs().getAsLong());
        if (at.isEmpty() || at.getAsLong() < zeroMs) {
            return;
        }
        Reading reading = arrival.at(at.getAsLong() - zeroMs);
        if (following.hasReadingNear(reading.elapsedMs(), 2 * interval.ms().orElse(UNKNOWN_INTERVAL_MS))) {
            return;
        }
        book.append(firing.getAsLong(), reading);
        gapFill.came(clock.monotonicMs());
    }

    void connection(Connection now) {
        boolean lost = now.state() == Connection.State.LOST || now.state() == Connection.State.GIVEN_UP;
        if (firing.isPresent()) {
            if (lost && !connectionWasLost) {
                note(Kind.CONNECTION_LOST, now.detail(), elapsedNow());
            } else if (connectionWasLost && now.state() == Connection.State.RECEIVING) {
                note(Kind.CONNECTION_BACK, Optional.empty(), elapsedNow());
            }
        }
        connectionWasLost = lost || (connectionWasLost && now.state() != Connection.State.RECEIVING);
        connection = now;
        changed = true;
    }

    /** A person knows of an alarm. */
    void acknowledge(String alarmId) {
        if (firing.isPresent()) {
            alarms.acknowledge(alarmId, elapsedNow());
            changed = true;
        }
    }

    /** The list before lighting. Gone through before the first reading it waits for the record to begin. */
    void lighting(Lighting list) {
        if (firing.isPresent()) {
            note(Kind.LIGHTING, Optional.of(list.text()), elapsedNow());
        } else {
            lightingWaits = Optional.of(list);
        }
    }

    /** Something stands in the way of making an alarm heard. */
    void alarmUnheard(String why) {
        if (firing.isPresent()) {
            note(Kind.ALARM_UNHEARD, Optional.of(why), elapsedNow());
        }
    }

    void note(String text) {
        if (firing.isPresent()) {
            note(Kind.NOTE, Optional.of(text), elapsedNow());
        }
    }

    void firingBegins() {
        following.beginsByHand();
        changed = true;
    }

    void firingEnds() {
        if (firing.isPresent() && following.stage() != Stage.ENDED) {
            following.endsByHand();
            note(Kind.FIRING_ENDED, Optional.of("by hand"), elapsedNow());
            book.end(firing.getAsLong(), elapsedNow());
        }
    }

    /** Called when nothing has arrived for a moment: the book's state may have changed, a filled gap may be complete. */
    void lookRound() {
        FiringBook.DiskState now = book.state();
        if (!now.equals(disk)) {
            if (now.trouble().isPresent() && disk.trouble().isEmpty() && firing.isPresent()) {
                note(Kind.BOOK_TROUBLE, now.trouble(), elapsedNow());
            }
            changed = true;
        }
        if (firing.isPresent() && !Double.isInfinite(speed)) {
            List<Alarm> before = alarms.current();
            alarms.tick(elapsedNow(), interval.ms().orElse(UNKNOWN_INTERVAL_MS), clock.monotonicMs());
            changed |= before != alarms.current();
        }
        if (gapFill.settled(clock.monotonicMs(), FILL_SETTLES_MS)) {
            fillGap();
        }
        if (sensorChanged) {
            followWithSensor();
        }
    }

    /** A gap has been filled: what was worked out from its begin on was worked out without it. */
    private void fillGap() {
        if (followAnew()) {
            note(Kind.GAP_FILLED, Optional.of(Integer.toString(gapFill.take())), elapsedNow());
        }
    }

    /** False when the disk is slow or full: the readings are waiting, and this is to be tried again. */
    private boolean followAnew() {
        Optional<List<Reading>> readings = book.readings(firing.orElseThrow());
        if (readings.isEmpty()) {
            return false;
        }
        following.reset();
        forecasts.courseChanged();
        readings.get().stream().filter(reading -> reading.first().number() == 1).forEach(following::take);
        for (FiringEvent found : following.takeHappened()) {
            if (events.stream().noneMatch(event -> isSame(event, found))) {
                record(found);
            }
        }
        changed = true;
        return true;
    }

    /** More is known of the sensor: what was worked out of its readings so far is worked out anew. */
    void sensor(SensorInPlace known) {
        sensorChanged |= following.sensor(Optional.of(known)) && firing.isPresent();
    }

    private void followWithSensor() {
        alarms.remember();
        boolean followed = followAnew();
        alarms.remembered(events, elapsedNow());
        sensorChanged = !followed;
    }

    private static boolean isSame(FiringEvent one, FiringEvent other) {
        return one.kind() == other.kind() && one.text().equals(other.text());
    }

    /** The uptime from which readings are missing and should be asked for; given once. */
    OptionalLong takeMissingSince() {
        OptionalLong since = missingSinceUptimeMs;
        missingSinceUptimeMs = OptionalLong.empty();
        return since;
    }

    /** What the forecast's thread is to work out now; given once. */
    Optional<ForecastRequest> takeForecastRequest() {
        return firing.isEmpty()
                ? Optional.empty()
                : forecasts.due(firing.getAsLong(), following, events, clock.monotonicMs());
    }

    /** The forecast's thread has an answer. */
    void forecast(ForecastRequest request, LiveForecast answer) {
        if (forecasts.take(request, answer)) {
            alarms.forecast(answer);
            changed = true;
        }
    }

    Snapshot snapshot() {
        if (!changed && snapshot != null) {
            return snapshot;
        }
        changed = false;
        disk = book.state();
        if (eventsSeen.size() != events.size()) {
            eventsSeen = List.copyOf(events);
        }
        snapshot = new Snapshot(
                ++sequence,
                firing,
                settings.kiln(),
                link,
                speed,
                stage(),
                clockTies.startedAt(),
                clockTies.line(),
                connection,
                latest,
                following.rates(),
                settings.plan(),
                following.position(),
                following.peak(),
                eventsSeen,
                following.curve(),
                findings(),
                alarms.current(),
                settings.isolator(),
                List.of(),
                disk);
        return snapshot;
    }

    private Findings findings() {
        Findings found = following.ware().findings();
        return alarms.isNumberWithdrawn() ? found.withdrawn() : forecasts.with(found, stage());
    }

    private Stage stage() {
        if (latest.isEmpty()) {
            return Stage.NO_READING_YET;
        }
        return following.stage();
    }

    private void writeProbes() {
        if (firing.isPresent() && !probes.isEmpty() && !probes.equals(probesWritten)) {
            book.sensors(firing.getAsLong(), timeline.elapsedMs() - zeroMs, probes);
            probesWritten = probes;
        }
    }

    private void tie(long elapsedMs) {
        Instant wall = speed == 1
                ? clock.wallClock()
                : clockTies.startedAt().orElseThrow().plusMillis(elapsedMs);
        FiringBook.ClockTie tie = new FiringBook.ClockTie(elapsedMs, timeline.uptimeMs(), wall);
        book.clockTie(firing.getAsLong(), tie);
        clockTies.add(tie);
    }

    private long elapsedNow() {
        long since = latest.isEmpty()
                ? 0
                : Math.round((clock.monotonicMs() - latest.get().hostMs()) * speed);
        return timeline.elapsedMs() - zeroMs + Math.max(0, since);
    }

    private long gapMs() {
        return interval.three(SHORTEST_GAP_MS);
    }

    private void note(Kind kind, Optional<String> text, long elapsedMs) {
        record(new FiringEvent(elapsedMs, kind, text));
    }

    private void record(FiringEvent event) {
        events.add(event);
        alarms.happened(event);
        book.append(firing.orElseThrow(), event);
        changed = true;
    }

    private static String seconds(long ms) {
        return Long.toString(Math.round(ms / 1000.0));
    }
}

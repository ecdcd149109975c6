package org.kilnside.session;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.kilnside.alarm.Alarm;
import org.kilnside.alarm.DryingTake;
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
    private final FiringBook book;
    private final HostClock clock;
    private FiringSettings settings;
    private final String link;
    private final double speed;

    private final Timeline timeline;
    private final Following following;
    private final Forecasts forecasts;
    private final AlarmDuty alarms;

    private final FiringRecord record;
    private final Hindsight hindsight;
    private final FaultWatch faults = new FaultWatch();
    private long zeroMs;
    private List<Probe> probes = List.of();
    private final LineInterval interval = new LineInterval();
    private final ConnectionWatch connection;
    private Optional<Latest> latest = Optional.empty();
    private FiringBook.DiskState disk;

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
            AlarmDuty.event(change).ifPresent(this::write);
        });
        this.record = new FiringRecord(book, clock, this::settings, link, speed, this::happened);
        this.following = new Following(settings.plan(), settings.sensor(), settings.series(), alarms);
        this.forecasts = new Forecasts(this::settings);
        this.hindsight = new Hindsight(record, following, forecasts, alarms);
        this.connection = new ConnectionWatch(new Connection(
                Connection.State.CONNECTING, clock.monotonicMs(), Optional.empty(), Connection.Counts.NONE));
        this.disk = book.state();
    }

    private FiringSettings settings() {
        return settings;
    }

    /** The kiln's owner has set something: the firing that is going on goes by it, but for its plan, cones and sensor. */
    void kilnIs(FiringSettings now) {
        FiringSettings before = settings;
        settings = before.withKilnOf(now);
        alarms.limits(settings.alarmLimits());
        if (!settings.asksTheSameAs(before)) {
            forecasts.courseChanged();
        }
        changed = true;
    }

    /** Goes on with the firing of the program's last run, when it is the same kiln's and not long ago. */
    void resume() {
        Optional<Resumption> found = Resumption.find(book, clock, settings, link, speed);
        if (found.isEmpty()) {
            return;
        }
        FiringBook.OpenFiring open = found.get().open();
        record.goOn(open);
        following.reset(open.start().series());
        probes = open.probes();
        followProbe();
        long beforeMs = 0;
        alarms.remember();
        long lastHostMs = found.get().stamp().hostMs();
        for (Reading reading : open.readings()) {
            alarms.line(reading);
            boolean outlier = following.take(reading);
            if (reading.first().number() == 1) {
                // As old as it is: how long nothing has come is known, though nothing has come yet.
                latest = Optional.of(
                        latest(reading, lastHostMs - (found.get().lastMs() - reading.elapsedMs()), outlier));
            }
            if (reading.origin() == Origin.LIVE) {
                interval.seen(reading.elapsedMs() - beforeMs);
                beforeMs = reading.elapsedMs();
            }
        }
        // What happened is in the record already.
        following.takeHappened();
        alarms.remembered(open.events(), found.get().lastMs());
        timeline.resume(found.get().lastMs(), found.get().stamp());
        alarms.listensFrom(elapsedNow());
        note(Kind.RECORDING_RESUMED, Optional.empty(), found.get().lastMs());
    }

    void hello(ReadingSource.ControllerHello hello) {
        probes = hello.probes();
        hello.lineIntervalMs().ifPresent(interval::said);
        followProbe();
        record.probes(probes, timeline.elapsedMs() - zeroMs);
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
        long elapsedBefore = timeline.elapsedMs();
        OptionalLong uptimeBefore = timeline.uptimeMs();
        Timeline.Step step = timeline.next(
                new Timeline.Stamp(arrival.uptimeMs(), arrival.sequence(), arrival.hostMs(), clock.wallClock()));
        long elapsedMs = timeline.elapsedMs() - zeroMs;
        if (!record.isOpen()) {
            beginRecord();
            elapsedMs = 0;
        }
        Reading reading = arrival.at(elapsedMs);
        record.append(reading);
        changed = true;
        if (step == Timeline.Step.RESTARTED) {
            note(Kind.CONTROLLER_RESTARTED, Optional.empty(), elapsedMs);
        }
        long sinceMs = timeline.elapsedMs() - elapsedBefore;
        if (hindsight.gaps().seen(step, sinceMs, interval, uptimeBefore, timeline.uptimeMs())) {
            note(Kind.GAP, Optional.of(Long.toString(Math.round(sinceMs / 1000.0))), elapsedMs);
        }
        if (step == Timeline.Step.ON && reading.first().number() == 1) {
            interval.seen(sinceMs);
        }
        record.tieWhenDue(elapsedMs, timeline.uptimeMs());
        alarms.line(reading);
        if (reading.first().number() != 1) {
            return;
        }
        follow(reading, arrival.hostMs());
    }

    private void follow(Reading reading, long hostMs) {
        boolean outlier = following.take(reading);
        latest = Optional.of(latest(reading, hostMs, outlier));
        faults.take(reading).ifPresent(this::write);
        for (FiringEvent happened : following.takeHappened()) {
            write(happened);
            if (happened.kind() == Kind.FIRING_ENDED) {
                record.end(happened.elapsedMs());
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
                interval.staleAfterMs(speed));
    }

    private void beginRecord() {
        zeroMs = timeline.elapsedMs();
        record.begin();
        record.probes(probes, 0);
    }

    /** The kiln was lit again after a firing had ended: from here on it is a new firing. */
    private void beginAnew(Reading reading) {
        following.reset(settings.series());
        forecasts.courseChanged();
        alarms.begin();
        long hostMs = latest.orElseThrow().hostMs();
        beginRecord();
        // Wall time of the new zero follows the kiln's own time, which may run faster than the host's.
        Reading first = Reading.of(0, reading.channels(), reading.controller(), reading.origin());
        record.append(first);
        latest = Optional.of(latest(first, hostMs, following.take(first)));
    }

    private void fillIn(ReadingSource.Arrival arrival) {
        if (!record.isOpen() || arrival.uptimeMs().isEmpty()) {
            return;
        }
        OptionalLong at = timeline.elapsedAt(arrival.uptimeMs().getAsLong());
        if (at.isEmpty() || at.getAsLong() < zeroMs) {
            return;
        }
        hindsight.filledIn(arrival.at(at.getAsLong() - zeroMs), interval.ms(), clock.monotonicMs());
    }

    void connection(Connection now) {
        Optional<Kind> happened = connection.take(now);
        if (record.isOpen() && happened.isPresent()) {
            Optional<String> why = happened.get() == Kind.CONNECTION_LOST ? now.detail() : Optional.empty();
            note(happened.get(), why, elapsedNow());
        }
        changed = true;
    }

    /** A person knows of an alarm. */
    void acknowledge(String alarmId) {
        alarms.acknowledge(alarmId, record.isOpen() ? elapsedNow() : alarms.awaitedForMs(clock.monotonicMs()));
        changed = true;
    }

    /** A person has begun to record and counts on readings, so that it is an alarm when none ever comes. */
    void awaitFirstReading() {
        if (!record.isOpen()) {
            alarms.awaitTheFirst(clock.monotonicMs());
        }
    }

    /** The list before lighting. Gone through before the first reading it waits for the record to begin. */
    void lighting(Lighting list) {
        note(Kind.LIGHTING, Optional.of(list.text()), elapsedNow());
    }

    /** Something stands in the way of making an alarm heard. */
    void alarmUnheard(String why) {
        if (record.isOpen()) {
            note(Kind.ALARM_UNHEARD, Optional.of(why), elapsedNow());
        }
    }

    /** A person's note. One from before the first reading waits for the record to begin. */
    void note(String text, Duration ago) {
        long sinceMs = Double.isInfinite(speed) ? 0 : Math.round(ago.toMillis() * speed);
        note(Kind.NOTE, Optional.of(text), Math.max(0, elapsedNow() - sinceMs));
    }

    void firingBegins() {
        following.beginsByHand();
        changed = true;
    }

    void firingEnds() {
        if (record.isOpen() && following.stage() != Stage.ENDED) {
            following.endsByHand();
            note(Kind.FIRING_ENDED, Optional.of("by hand"), elapsedNow());
            record.end(elapsedNow());
        }
    }

    /** Called when nothing has arrived for a moment: the book's state may have changed, a filled gap may be complete. */
    void lookRound() {
        FiringBook.DiskState now = book.state();
        if (!now.equals(disk)) {
            if (now.trouble().isPresent() && disk.trouble().isEmpty() && record.isOpen()) {
                note(Kind.BOOK_TROUBLE, now.trouble(), elapsedNow());
            }
            changed = true;
        }
        if (!Double.isInfinite(speed) && !connection.isOver()) {
            List<Alarm> stood = alarms.current();
            if (record.isOpen()) {
                alarms.tick(elapsedNow(), interval.awaitedMs(), clock.monotonicMs());
            } else {
                alarms.tickBeforeTheFirst(clock.monotonicMs());
            }
            changed |= stood != alarms.current();
        }
        changed |= hindsight.look(elapsedNow(), clock.monotonicMs());
    }

    /** More is known of the sensor: what was worked out of its readings so far is worked out anew. */
    void sensor(SensorInPlace known) {
        hindsight.sensor(known);
    }

    /** The uptime from which readings are missing and should be asked for; given once. */
    OptionalLong takeMissingSince() {
        return hindsight.gaps().takeMissingSince();
    }

    /** What the forecast's thread is to work out now; given once. */
    Optional<ForecastRequest> takeForecastRequest() {
        return record.isOpen()
                ? forecasts.due(record.number().getAsLong(), following, record.events(), clock.monotonicMs())
                : Optional.empty();
    }

    /** What the kiln's earlier firings took at the boiling point has been read. */
    void earlier(List<DryingTake> takes) {
        alarms.earlier(takes);
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
        snapshot = new Snapshot(
                ++sequence,
                record.number(),
                settings.kiln(),
                link,
                speed,
                stage(),
                record.startedAt(),
                record.wallClock(),
                connection.now(),
                latest,
                following.rates(),
                settings.plan(),
                following.position(),
                following.peak(),
                record.events(),
                following.curve(),
                findings(),
                alarms.current(),
                settings.isolator(),
                settings.thresholds(),
                List.of(),
                disk);
        return snapshot;
    }

    private Findings findings() {
        Findings found = following.ware().findings();
        return alarms.isNumberWithdrawn() ? found.withdrawn() : forecasts.with(found, stage());
    }

    private Stage stage() {
        return latest.isEmpty() ? Stage.NO_READING_YET : following.stage();
    }

    private long elapsedNow() {
        return timeline.nowMs(clock.monotonicMs()) - zeroMs;
    }

    private void note(Kind kind, Optional<String> text, long elapsedMs) {
        record.note(kind, text, elapsedMs);
    }

    private void write(FiringEvent event) {
        record.record(event);
    }

    private void happened(FiringEvent event) {
        alarms.happened(event);
        changed = true;
    }
}

package org.kilnside.session;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.Consumer;
import org.kilnside.alarm.Alarm;
import org.kilnside.alarm.AlarmChange;
import org.kilnside.alarm.AlarmEntry;
import org.kilnside.alarm.AlarmLimits;
import org.kilnside.alarm.AlarmWatch;
import org.kilnside.alarm.DryingTake;
import org.kilnside.alarm.HostReport;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.FiringEvent.Kind;
import org.kilnside.firing.Reading;
import org.kilnside.schedule.Schedule;
import org.kilnside.tracking.FiringTracker;

/**
 * The alarms' place in the live firing: gives the watch what it has to see, each moment once, and writes down what
 * changed. Confined to the session's thread.
 */
final class AlarmDuty implements Following.Follower {
    /** The host is looked at this often, in its own time. */
    private static final long TICK_MS = 1_000;

    private AlarmLimits limits;
    private final Optional<Schedule> plan;
    private final Host host;
    private final Consumer<AlarmChange> record;
    private final ConeAimedFor cone;
    private AlarmWatch watch;
    private List<DryingTake> earlier = List.of();
    private OptionalLong awaitedFromHostMs = OptionalLong.empty();
    private long lastGoodMs = Long.MIN_VALUE;
    private long tickedHostMs = Long.MIN_VALUE;
    private boolean remembering;

    /** @param record takes what happens to alarms */
    AlarmDuty(AlarmLimits limits, Optional<Schedule> plan, Host host, Consumer<AlarmChange> record) {
        this.limits = limits;
        this.plan = plan;
        this.host = host;
        this.record = record;
        this.cone = new ConeAimedFor(plan);
        this.watch = new AlarmWatch(limits, plan);
    }

    /** A new firing has begun: what was wrong with the last one is its own. */
    void begin() {
        watch = new AlarmWatch(limits, plan);
        watch.earlier(earlier);
        lastGoodMs = Long.MIN_VALUE;
        cone.begin();
    }

    /** The kiln's owner has set other limits. */
    void limits(AlarmLimits others) {
        limits = others;
        watch.limits(others);
    }

    /** What the kiln's earlier firings took at the boiling point has been read. */
    void earlier(List<DryingTake> takes) {
        earlier = List.copyOf(takes);
        watch.earlier(earlier);
    }

    /** The firing of the program's last run is lived through once more: what happened is in the record already. */
    void remember() {
        remembering = true;
    }

    /** That is done; what was acknowledged then is so still. */
    void remembered(List<FiringEvent> events, long nowMs) {
        Set<String> acknowledged = new HashSet<>();
        for (FiringEvent event : events) {
            Optional<String> id = event.text().flatMap(AlarmEntry::parse).map(AlarmEntry::id);
            if (event.kind() == Kind.ALARM_ACKNOWLEDGED) {
                id.ifPresent(acknowledged::add);
            } else if (event.kind() == Kind.ALARM_RAISED || event.kind() == Kind.ALARM_RAISED_AGAIN) {
                id.ifPresent(acknowledged::remove);
            }
        }
        acknowledged.forEach(id -> watch.acknowledge(id, nowMs));
        watch.takeChanges();
        remembering = false;
    }

    /** Every line, as it came. */
    void line(Reading reading) {
        watch.line(reading);
        write();
    }

    @Override
    public void good(
            long elapsedMs, double celsius, ControllerReport controller, FiringTracker tracker, WareWatch ware) {
        if (elapsedMs <= lastGoodMs) {
            // A gap was filled and the firing is followed anew: this moment has been lived through.
            return;
        }
        lastGoodMs = elapsedMs;
        watch.good(elapsedMs, celsius, controller);
        if (watch.lookIsDue()) {
            watch.look(tracker, ware.suspicions());
            if (!watch.isNumberWithdrawn()) {
                if (cone.isNewlyDown(ware)) {
                    watch.coneReached(elapsedMs, celsius);
                }
                watch.beyondCone(elapsedMs, celsius, cone.beyond(celsius, ware));
            }
        }
        write();
    }

    /** Something was found in the curve, or happened to the recording. */
    void happened(FiringEvent event) {
        watch.happened(event);
        write();
    }

    /** Somebody counts on a first reading from now on, by the host's clock. */
    void awaitTheFirst(long hostMs) {
        awaitedFromHostMs = OptionalLong.of(hostMs);
        watch.listensFrom(0);
    }

    /** For how long one has been counted on, ms; 0 where nobody does. */
    long awaitedForMs(long hostMs) {
        return hostMs - awaitedFromHostMs.orElse(hostMs);
    }

    /** Time goes on while not a single reading has come. */
    void tickBeforeTheFirst(long hostMs) {
        if (awaitedFromHostMs.isPresent()) {
            tick(awaitedForMs(hostMs), OptionalLong.empty(), hostMs);
        }
    }

    /** Lines are awaited from now on: how long there were none before is nobody's fault here. */
    void listensFrom(long elapsedMs) {
        watch.listensFrom(elapsedMs);
    }

    /**
     * Time goes on, whether or not anything comes.
     *
     * @param lineIntervalMs how often lines are awaited; empty = not known yet
     */
    void tick(long elapsedMs, OptionalLong lineIntervalMs, long hostMs) {
        if (tickedHostMs != Long.MIN_VALUE && hostMs - tickedHostMs < TICK_MS) {
            return;
        }
        tickedHostMs = hostMs;
        ticked(elapsedMs, lineIntervalMs, host.report());
    }

    /** It is so late on the recording's clock, and the host says this of itself. */
    void ticked(long elapsedMs, OptionalLong lineIntervalMs, HostReport report) {
        watch.tick(elapsedMs, lineIntervalMs, report);
        write();
    }

    /** The forecast's thread has an answer. */
    void forecast(LiveForecast answer) {
        answer.forecast().ifPresent(watch::forecast);
        write();
    }

    /** Whether cone, arrival and top-out are withdrawn. */
    boolean isNumberWithdrawn() {
        return watch.isNumberWithdrawn();
    }

    void acknowledge(String id, long elapsedMs) {
        watch.acknowledge(id, elapsedMs);
        write();
    }

    List<Alarm> current() {
        return watch.current();
    }

    private void write() {
        for (AlarmChange change : watch.takeChanges()) {
            if (!remembering) {
                record.accept(change);
            }
        }
    }

    /** What happened to an alarm as an event for the book; empty for news that is in the record as what it is. */
    static Optional<FiringEvent> event(AlarmChange change) {
        return switch (change.alarm().kind()) {
            case HOLD_BEGAN, TOP_REACHED, FIRING_ENDED -> Optional.empty();
            default ->
                Optional.of(new FiringEvent(
                        change.elapsedMs(),
                        kind(change.what()),
                        Optional.of(AlarmEntry.of(change.alarm()).text())));
        };
    }

    private static Kind kind(AlarmChange.What what) {
        return switch (what) {
            case RAISED -> Kind.ALARM_RAISED;
            case RAISED_AGAIN -> Kind.ALARM_RAISED_AGAIN;
            case ACKNOWLEDGED -> Kind.ALARM_ACKNOWLEDGED;
            case CLEARED -> Kind.ALARM_CLEARED;
        };
    }
}

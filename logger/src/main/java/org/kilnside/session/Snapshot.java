package org.kilnside.session;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.kilnside.alarm.Alarm;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Kiln;
import org.kilnside.firing.Lighting;
import org.kilnside.firing.Trace;
import org.kilnside.firing.WallClockLine;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.SensorFault;
import org.kilnside.tracking.PlanPosition;

/**
 * Everything a face needs to show the live firing, at one instant. Immutable; published after each reading and
 * whenever the connection or the book's state changes.
 *
 * @param sequence rises by one with each snapshot
 * @param firing the firing's number in the book; empty before the first reading
 * @param kiln the kiln's name, where given
 * @param link the link in the notation a person types
 * @param speed kiln time over host time; 1 for a real kiln
 * @param stage where the firing stands
 * @param startedAt the wall clock at the recording's zero
 * @param wallClock the line by which moments of the recording get their time of day; empty before the first reading
 * @param connection how the link stands
 * @param latest the newest line from the controller; empty before the first
 * @param rates how fast the temperature changes
 * @param plan the plan, when there is one
 * @param position where in the plan; empty without a plan
 * @param peak the highest good temperature so far, outliers left out
 * @param events what happened, oldest first
 * @param curve all good temperatures, outliers left out
 * @param findings what is worked out of them: the cone so far, the forecast, and doubts about the sensor
 * @param alarms what is or was wrong and not yet acknowledged, and good news; the worst first
 * @param isolator where the switch is that takes the kiln off the mains, in the potter's words
 * @param thresholds when the kiln's lid may be cracked and its ware unloaded, and whose opinion that is
 * @param posts the computers that keep watch over it, the recorder first; empty until they have said how they stand
 * @param disk how far the book is on disk
 */
public record Snapshot(
        long sequence,
        OptionalLong firing,
        Optional<String> kiln,
        String link,
        double speed,
        Stage stage,
        Optional<Instant> startedAt,
        Optional<WallClockLine> wallClock,
        Connection connection,
        Optional<Latest> latest,
        Rates rates,
        Optional<Schedule> plan,
        Optional<PlanPosition> position,
        Optional<Peak> peak,
        List<FiringEvent> events,
        Trace curve,
        Findings findings,
        List<Alarm> alarms,
        Optional<String> isolator,
        Kiln.Thresholds thresholds,
        List<Post> posts,
        FiringBook.DiskState disk) {
    public Snapshot {
        events = List.copyOf(events);
        alarms = List.copyOf(alarms);
        posts = List.copyOf(posts);
    }

    /** What there is to show before anything has come. */
    public static Snapshot before(Optional<String> kiln, Connection connection) {
        return new Snapshot(
                0,
                OptionalLong.empty(),
                kiln,
                "",
                1,
                Stage.NO_READING_YET,
                Optional.empty(),
                Optional.empty(),
                connection,
                Optional.empty(),
                Rates.UNKNOWN,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                Trace.EMPTY,
                Findings.NONE,
                List.of(),
                Optional.empty(),
                Kiln.Thresholds.COMMON_PRACTICE,
                List.of(),
                new FiringBook.DiskState(OptionalLong.empty(), 0, Optional.empty()));
    }

    /** The same firing as another Kilnside sees it: its own connection and clock, and what it has put together. */
    public Snapshot with(Connection itsConnection, Optional<Latest> itsLatest, Trace itsCurve, Findings itsFindings) {
        return with(itsConnection, itsLatest, itsCurve, itsFindings, alarms, posts);
    }

    /** The same with another connection, newest line and curve. */
    public Snapshot with(Connection itsConnection, Optional<Latest> itsLatest, Trace itsCurve) {
        return with(itsConnection, itsLatest, itsCurve, findings);
    }

    /** The same with other alarms. */
    public Snapshot withAlarms(List<Alarm> others) {
        return with(connection, latest, curve, findings, others, posts);
    }

    /** The same with other computers that keep watch. */
    public Snapshot withPosts(List<Post> others) {
        return with(connection, latest, curve, findings, alarms, others);
    }

    private Snapshot with(
            Connection itsConnection,
            Optional<Latest> itsLatest,
            Trace itsCurve,
            Findings itsFindings,
            List<Alarm> itsAlarms,
            List<Post> itsPosts) {
        return new Snapshot(
                sequence,
                firing,
                kiln,
                link,
                speed,
                stage,
                startedAt,
                wallClock,
                itsConnection,
                itsLatest,
                rates,
                plan,
                position,
                peak,
                events,
                itsCurve,
                itsFindings,
                itsAlarms,
                isolator,
                thresholds,
                itsPosts,
                disk);
    }

    /** Whether a warm kiln was joined so lately that nobody can tell yet whether it heats or cools. */
    public boolean isJustJoined() {
        return stage == Stage.HEATING
                && events.stream().noneMatch(event -> event.kind() == FiringEvent.Kind.FIRING_BEGAN);
    }

    /** Whether the number is not to be trusted: by what the sensor shows, by the kiln's model, or by a standing alarm. */
    public boolean isNumberDistrusted() {
        return findings.isDistrusted() || distrusting().isPresent();
    }

    /** The standing alarm that takes the number's word from it; empty when there is none. */
    public Optional<Alarm> distrusting() {
        return alarms.stream()
                .filter(alarm -> alarm.kind().withdrawsNumber() && !alarm.isOver())
                .findFirst();
    }

    /** The list before lighting as it was last ticked or passed over; empty as long as it was neither. */
    public Optional<Lighting> lighting() {
        for (int i = events.size() - 1; i >= 0; i--) {
            if (events.get(i).kind() == FiringEvent.Kind.LIGHTING) {
                return events.get(i).text().flatMap(Lighting::parse);
            }
        }
        return Optional.empty();
    }

    /** The begin from which elapsed time leads to the right time of day at one moment of the recording. */
    public Optional<Instant> zeroFor(long elapsedMs) {
        return wallClock.map(line -> line.zeroFor(elapsedMs));
    }

    /** Where the firing stands. */
    public enum Stage {
        /** No reading has come yet. */
        NO_READING_YET,
        /** Readings come, the kiln is not heating: a delayed start, or nothing is going on. */
        WAITING_TO_START,
        HEATING,
        HOLDING,
        COOLING,
        ENDED
    }

    /**
     * The newest line.
     *
     * @param elapsedMs when, on the recording's clock
     * @param hostMs when it was received, on the host's monotonic clock: a face works out the age from this
     * @param temperature the guiding channel's temperature, corrected by all that is known of its sensor; empty when
     *     faulted or unknown
     * @param shown the number the controller shows and fires by, where that is not the temperature: its chip's as it is,
     *     or that of a sensor of which more is known here; empty where it is the same
     * @param coldJunction at the amplifier's terminals
     * @param faults what the sensor reports as wrong
     * @param controller output, set-point and segment where given
     * @param outlier whether tracking leaves this temperature out as a false one
     * @param staleAfterMs from this age on, in ms of the host's clock, it is no longer the temperature now: ten
     *     seconds, or three line intervals of a controller that prints less often
     */
    public record Latest(
            long elapsedMs,
            long hostMs,
            Optional<Temperature> temperature,
            Optional<Temperature> shown,
            Optional<Temperature> coldJunction,
            List<SensorFault> faults,
            ControllerReport controller,
            boolean outlier,
            long staleAfterMs) {
        public Latest {
            faults = List.copyOf(faults);
        }

        /** The same line, received so much earlier: the clock that measures stood still meanwhile. */
        public Latest earlier(long ms) {
            return new Latest(
                    elapsedMs,
                    hostMs - ms,
                    temperature,
                    shown,
                    coldJunction,
                    faults,
                    controller,
                    outlier,
                    staleAfterMs);
        }
    }

    /** The rate over the last 1, 10 and 60 minutes; each empty until there is that much curve. */
    public record Rates(
            Optional<HeatingRate> oneMinute, Optional<HeatingRate> tenMinutes, Optional<HeatingRate> sixtyMinutes) {
        public static final Rates UNKNOWN = new Rates(Optional.empty(), Optional.empty(), Optional.empty());
    }

    /** The highest temperature and when it was. */
    public record Peak(Temperature temperature, long elapsedMs) {}
}

package org.kilnside.session;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Reading;
import org.kilnside.firing.WallClockLine;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.Probe;

/**
 * The recorder's side of the firing book: the port through which the live firing is written. Every call returns at
 * once; the book commits on its own thread within 500 ms.
 */
public interface FiringBook {
    /** Opens a new firing and returns its number. */
    long begin(FiringStart start);

    /** Hands a reading over. It is on disk within 500 ms, or {@link #state()} says why not. */
    void append(long firing, Reading reading);

    /** Writes down something that happened. */
    void append(long firing, FiringEvent event);

    /** The sensors from an elapsed time on; a change ends every calibration. */
    void sensors(long firing, long fromElapsedMs, List<Probe> probes);

    /** Ties the recording's clock to the wall clock. */
    void clockTie(long firing, ClockTie tie);

    /** Ends a firing. */
    void end(long firing, long elapsedMs);

    /** How far the book is on disk. */
    DiskState state();

    /** The firing that was going on when the program last stopped, with what is needed to go on with it. */
    Optional<OpenFiring> unfinished();

    /**
     * All readings of a firing that were handed over so far, in order of time. Waits for the disk: asked after a gap
     * has been filled, to follow the firing anew.
     *
     * @return empty when the disk does not take what is waiting in time
     */
    Optional<List<Reading>> readings(long firing);

    /**
     * What a new firing starts with.
     *
     * @param series the cones it is judged by, whatever its kiln has later
     */
    record FiringStart(
            Optional<String> kiln,
            String link,
            Instant startedAt,
            Optional<Schedule> plan,
            Optional<String> planText,
            ConeSeries series) {}

    /**
     * One point at which both clocks were read.
     *
     * @param elapsedMs the recording's clock
     * @param uptimeMs the controller's uptime, wrap bridged; empty when it gives none
     * @param wall the wall clock
     */
    record ClockTie(long elapsedMs, OptionalLong uptimeMs, Instant wall) {}

    /**
     * How far the book is on disk.
     *
     * @param onDiskUpToMs elapsed ms of the newest reading that is committed; empty when none is
     * @param waiting readings handed over and not yet committed
     * @param trouble one plain sentence when the book cannot be written; empty when all is well
     */
    record DiskState(OptionalLong onDiskUpToMs, int waiting, Optional<String> trouble) {}

    /** A firing to go on with; its readings and clock ties in order of time. */
    record OpenFiring(
            long number,
            FiringStart start,
            List<Reading> readings,
            List<FiringEvent> events,
            List<Probe> probes,
            List<ClockTie> clockTies) {}

    /**
     * The line by which moments of a firing get their time of day.
     *
     * @param startedAt the wall clock at the recording's zero
     * @param ties in order of time; a log that was brought in has none
     */
    static WallClockLine wallClock(Instant startedAt, List<ClockTie> ties) {
        return ties.isEmpty()
                ? WallClockLine.from(startedAt)
                : WallClockLine.through(ties.stream()
                        .map(tie -> new WallClockLine.Tie(tie.elapsedMs(), tie.wall()))
                        .toList());
    }
}

package org.kilnside.alarm;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Reading;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.SignalWatch.Suspicion;
import org.kilnside.tracking.FiringTracker;

/**
 * Watches one firing for everything there is an alarm for. Told every line, every good temperature, what happened, and
 * the time when nothing comes; says what changed. A reading costs a few comparisons; the detectors look each ten seconds
 * of the kiln's time. Confined to the session's thread.
 */
public final class AlarmWatch {
    private static final long LOOK_EVERY_MS = 10_000;

    private final AlarmLimits limits;
    private final AlarmLedger ledger;
    private final MaximumWatch maxima;
    private long lastLineMs = Long.MIN_VALUE;
    private long lookAtMs = Long.MIN_VALUE;
    private long lastGoodMs = Long.MIN_VALUE;
    private long brokenSinceMs = Long.MIN_VALUE;
    private int brokenLines;
    private int goodLines;
    private long boxHotSinceMs = Long.MIN_VALUE;

    public AlarmWatch(AlarmLimits limits, Optional<Schedule> plan) {
        this.limits = limits;
        this.ledger = new AlarmLedger(limits.stillTrueAfter().toMillis());
        this.maxima = new MaximumWatch(limits, plan);
    }

    /** Takes every line of the controller as it comes, whichever channel leads it. */
    public void line(Reading reading) {
        long nowMs = reading.elapsedMs();
        if (nowMs < lastLineMs) {
            return;
        }
        lastLineMs = nowMs;
        ledger.clear(AlarmKind.NO_READINGS, nowMs);
        maxima.witnesses(reading, ledger);
        if (reading.first().number() == 1) {
            watchSensorGone(reading);
            watchBox(reading);
        }
    }

    /** A sensor that gives nothing for a minute is gone; ten good lines in a row, and it is back. */
    private void watchSensorGone(Reading reading) {
        long nowMs = reading.elapsedMs();
        if (reading instanceof Reading.Measured) {
            goodLines++;
            if (goodLines >= 10 || nowMs - lastGoodMs > 30_000 && goodLines >= 2) {
                brokenLines = 0;
                ledger.clear(AlarmKind.SENSOR_GONE, nowMs);
            }
            lastGoodMs = nowMs;
            return;
        }
        goodLines = 0;
        if (brokenLines++ == 0) {
            brokenSinceMs = nowMs;
        }
        if (nowMs - brokenSinceMs >= 60_000 && brokenLines >= 2) {
            ledger.raise(AlarmKind.SENSOR_GONE, Finding.since(brokenSinceMs), nowMs);
        }
    }

    private void watchBox(Reading reading) {
        Optional<Temperature> board = reading.first().coldJunction();
        long nowMs = reading.elapsedMs();
        if (board.isEmpty()) {
            return;
        }
        double over = board.get().celsius() - limits.boxMaximum().celsius();
        if (over <= 0) {
            boxHotSinceMs = Long.MIN_VALUE;
            if (over < -3) {
                ledger.clear(AlarmKind.BOX_TOO_HOT, nowMs);
            }
            return;
        }
        if (boxHotSinceMs == Long.MIN_VALUE) {
            boxHotSinceMs = nowMs;
        }
        if (nowMs - boxHotSinceMs >= 60_000) {
            ledger.raise(
                    AlarmKind.BOX_TOO_HOT,
                    Finding.since(
                                    boxHotSinceMs,
                                    new Measure.OfTemperature(board.get()),
                                    new Measure.OfTemperature(limits.boxMaximum()))
                            .withBadness(over / 10),
                    nowMs);
        }
    }

    /**
     * Takes a good temperature of the guiding channel, outliers left out. Readings before the last one taken are passed
     * over: a gap that was filled has been lived through.
     */
    public void good(long elapsedMs, double celsius, ControllerReport controller) {
        maxima.guide(elapsedMs, celsius, ledger);
    }

    /** Whether {@link #look} is due. */
    public boolean lookIsDue(long elapsedMs) {
        return elapsedMs >= lookAtMs;
    }

    /**
     * Looks at the whole.
     *
     * @param elapsedMs the newest good reading's time
     * @param tracker where the firing stands
     * @param suspicions what is suspected of the sensor, and since when
     */
    public void look(long elapsedMs, FiringTracker tracker, Map<Suspicion, Long> suspicions) {
        lookAtMs = elapsedMs + LOOK_EVERY_MS;
        suspicion(AlarmKind.SENSOR_FROZEN, suspicions.get(Suspicion.FROZEN), elapsedMs);
        suspicion(AlarmKind.SENSOR_SATURATED, suspicions.get(Suspicion.SATURATED), elapsedMs);
        suspicion(AlarmKind.SENSOR_REVERSED, suspicions.get(Suspicion.REVERSED_LEADS), elapsedMs);
        ledger.tidy(elapsedMs);
    }

    private void suspicion(AlarmKind kind, Long sinceMs, long nowMs) {
        ledger.assess(kind, Optional.ofNullable(sinceMs).map(Finding::since), nowMs);
    }

    /** Something happened that the tracker or the recording saw. */
    public void happened(FiringEvent event) {
        switch (event.kind()) {
            case HOLD_BEGAN -> tell(AlarmKind.HOLD_BEGAN, event);
            case TOP_REACHED -> tell(AlarmKind.TOP_REACHED, event);
            case FIRING_ENDED -> tell(AlarmKind.FIRING_ENDED, event);
            case CONTROLLER_RESTARTED ->
                ledger.raise(AlarmKind.CONTROLLER_RESTARTED, Finding.since(event.elapsedMs()), event.elapsedMs());
            default -> {}
        }
    }

    private void tell(AlarmKind kind, FiringEvent event) {
        ledger.tell(kind, Finding.since(event.elapsedMs()), event.elapsedMs());
    }

    /**
     * The time goes on, whether or not anything comes.
     *
     * @param nowMs now on the recording's clock, by the host's
     * @param lineIntervalMs what the controller takes from line to line
     * @param host what the computer says of itself
     */
    public void tick(long nowMs, long lineIntervalMs, HostReport host) {
        long silentAfterMs = Math.max(limits.silence().toMillis(), lineIntervalMs * 7 / 4);
        if (lastLineMs != Long.MIN_VALUE && nowMs - lastLineMs >= silentAfterMs) {
            ledger.raise(
                    AlarmKind.NO_READINGS,
                    Finding.since(lastLineMs, Measure.ofMillis(nowMs - lastLineMs), Measure.ofMillis(lineIntervalMs)),
                    nowMs);
        }
        assess(AlarmKind.ON_BATTERY, host.onBattery(), nowMs);
        assess(AlarmKind.ABOUT_TO_SLEEP, host.mayFallAsleep(), nowMs);
        boolean full = host.diskFreeBytes().isPresent() && host.diskFreeBytes().getAsLong() < limits.diskFreeBytes();
        ledger.assess(
                AlarmKind.DISK_FILLING,
                full
                        ? Optional.of(Finding.since(
                                nowMs,
                                new Measure.OfBytes(host.diskFreeBytes().getAsLong()),
                                new Measure.OfBytes(limits.diskFreeBytes())))
                        : Optional.empty(),
                nowMs);
        ledger.tidy(nowMs);
    }

    private void assess(AlarmKind kind, boolean so, long nowMs) {
        ledger.assess(kind, so ? Optional.of(Finding.since(nowMs)) : Optional.empty(), nowMs);
    }

    /** A person knows of an alarm. */
    public void acknowledge(String id, long nowMs) {
        ledger.acknowledge(id, nowMs);
    }

    /** All alarms to be shown, the worst first. */
    public List<Alarm> current() {
        return ledger.current();
    }

    /** What happened since last asked, in order. */
    public List<AlarmChange> takeChanges() {
        return ledger.takeChanges();
    }
}

package org.kilnside.alarm;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Reading;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.SignalWatch.Suspicion;
import org.kilnside.thermal.Forecast;
import org.kilnside.tracking.FiringTracker;

/**
 * Watches one firing for everything there is an alarm for. Told every line, every good temperature, what happened, what
 * is forecast, and the time when nothing comes; says what changed. A reading costs a few comparisons; the detectors look
 * each ten seconds of the kiln's time. Confined to the session's thread.
 */
public final class AlarmWatch {
    /** A common sensor is good to a third or half of a cone: nearer than this it may be what was meant. */
    private static final double HALF_A_CONE = 0.5;

    /** So much more runs glazes that were to stand. */
    private static final double A_CONE = 1;

    /** A thermostat's kiln swings below its highest, and is not left to cool. */
    private static final long SWINGS_FOR_MS = 600_000;

    private AlarmLimits limits;
    private final AlarmLedger ledger;
    private final MaximumWatch maxima;
    private final LineWatch lines;
    private final NewsWatch news;
    private final CurveWatch curve;
    private final ForecastWatch forecasts;

    public AlarmWatch(AlarmLimits limits, Optional<Schedule> plan) {
        this.limits = limits;
        this.ledger = new AlarmLedger(limits.stillTrueAfter().toMillis());
        this.maxima = new MaximumWatch(this::limits, plan);
        this.lines = new LineWatch(this::limits);
        this.news = new NewsWatch(this::limits);
        this.curve = new CurveWatch(this::limits, plan, news);
        this.forecasts = new ForecastWatch(this::limits);
    }

    private AlarmLimits limits() {
        return limits;
    }

    /** The kiln's owner has set other limits: from now on those count, also for what rings already. */
    public void limits(AlarmLimits others) {
        limits = others;
    }

    /** Takes every line of the controller as it comes, whichever channel leads it. */
    public void line(Reading reading) {
        lines.take(reading, ledger);
        maxima.witnesses(reading, ledger);
    }

    /** Takes a good temperature of the guiding channel, outliers left out, in order of time. */
    public void good(long elapsedMs, double celsius, ControllerReport controller) {
        lines.accepted(elapsedMs, celsius);
        maxima.guide(elapsedMs, celsius, ledger);
        curve.good(elapsedMs, celsius, controller);
    }

    /** What the kiln's earlier firings took at the boiling point; may become known in mid-firing. */
    public void earlier(List<DryingTake> takes) {
        curve.earlier(takes);
    }

    /** Whether {@link #look} is due: another ten seconds are full. */
    public boolean lookIsDue() {
        return curve.lookIsDue();
    }

    /**
     * Looks at the whole.
     *
     * @param tracker where the firing stands
     * @param suspicions what is suspected of the sensor, and since when
     */
    public void look(FiringTracker tracker, Map<Suspicion, Long> suspicions) {
        curve.look(tracker, suspicions, lines, ledger);
    }

    /** Takes an answer of the forecast; asked about once a minute of the kiln's time. */
    public void forecast(Forecast answer) {
        if (!isNumberWithdrawn()) {
            forecasts.take(
                    answer, curve.stall().mayGiveOffBoundWater(), curve.stall().isHopeless(), ledger);
            news.forecast(answer);
        }
    }

    /** The ware has had the cone the plan aims for. */
    public void coneReached(long elapsedMs, double celsius) {
        curve.coneIsDown();
        ledger.tell(
                AlarmKind.CONE_REACHED,
                new Finding(elapsedMs, 0, Optional.of(Measure.ofCelsius(celsius)), Optional.empty()),
                elapsedMs);
    }

    /**
     * What the ware has had beyond what it is meant to get.
     *
     * @param cones how many; empty where it is not beyond it, or does not heat any more
     */
    public void beyondCone(long elapsedMs, double celsius, OptionalDouble cones) {
        if (cones.orElse(0) < HALF_A_CONE) {
            ledger.assess(AlarmKind.BEYOND_CONE, Optional.empty(), elapsedMs, SWINGS_FOR_MS);
            return;
        }
        Grade grade = cones.getAsDouble() < A_CONE ? Grade.LOOK_SOON : Grade.COME_NOW;
        ledger.raise(
                AlarmKind.BEYOND_CONE,
                grade,
                new Finding(elapsedMs, cones.getAsDouble(), Optional.of(Measure.ofCelsius(celsius)), Optional.empty()),
                elapsedMs);
    }

    /** Something happened that the tracker or the recording saw. */
    public void happened(FiringEvent event) {
        switch (event.kind()) {
            case HOLD_BEGAN -> tell(AlarmKind.HOLD_BEGAN, event);
            case TOP_REACHED -> tell(AlarmKind.TOP_REACHED, event);
            case FIRING_ENDED -> {
                lines.firingEnded(event.elapsedMs(), ledger);
                // Under an open lid it is the air that has become cold.
                if (!ledger.isActive(AlarmKind.LID_MOVED)) {
                    tell(AlarmKind.FIRING_ENDED, event);
                }
            }
            case CONTROLLER_RESTARTED ->
                ledger.raise(AlarmKind.CONTROLLER_RESTARTED, Finding.since(event.elapsedMs()), event.elapsedMs());
            default -> {}
        }
    }

    private void tell(AlarmKind kind, FiringEvent event) {
        ledger.tell(kind, Finding.since(event.elapsedMs()), event.elapsedMs());
    }

    /** Lines are awaited from this moment on, ms on the recording's clock; before the first line of a recording nobody awaits any. */
    public void listensFrom(long elapsedMs) {
        lines.listensFrom(elapsedMs);
    }

    /**
     * The time goes on, whether or not anything comes.
     *
     * @param nowMs now on the recording's clock, by the host's
     * @param lineIntervalMs what the controller takes from line to line; empty = not known yet
     * @param host what the computer says of itself
     */
    public void tick(long nowMs, OptionalLong lineIntervalMs, HostReport host) {
        lines.silent(nowMs, lineIntervalMs, ledger);
        assess(AlarmKind.ON_BATTERY, host.onBattery(), nowMs);
        assess(AlarmKind.ABOUT_TO_SLEEP, host.mayFallAsleep(), nowMs);
        Optional<Finding> full =
                host.diskFreeBytes().isPresent() && host.diskFreeBytes().getAsLong() < limits.diskFreeBytes()
                        ? Optional.of(Finding.since(
                                nowMs,
                                new Measure.OfBytes(host.diskFreeBytes().getAsLong()),
                                new Measure.OfBytes(limits.diskFreeBytes())))
                        : Optional.empty();
        ledger.assess(AlarmKind.DISK_FILLING, full, nowMs);
        ledger.tidy(nowMs);
    }

    private void assess(AlarmKind kind, boolean so, long nowMs) {
        ledger.assess(kind, so ? Optional.of(Finding.since(nowMs)) : Optional.empty(), nowMs);
    }

    /** A person knows of an alarm. */
    public void acknowledge(String id, long nowMs) {
        ledger.acknowledge(id, nowMs);
    }

    /** Whether the number is not to be trusted: cone, arrival and top-out fall with it. */
    public boolean isNumberWithdrawn() {
        return ledger.current().stream().anyMatch(alarm -> alarm.kind().withdrawsNumber() && !alarm.isOver());
    }

    /** All alarms to be shown, the worst first. */
    public List<Alarm> current() {
        return ledger.current();
    }

    /** What happened since last asked, in order. */
    public List<AlarmChange> takeChanges() {
        return ledger.takeChanges();
    }

    /** The hottest any sensor says now; empty when none says anything. */
    public OptionalDouble hottestC() {
        return lines.hottestC();
    }
}

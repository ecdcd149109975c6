package org.kilnside.session;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import org.kilnside.alarm.AlarmChange;
import org.kilnside.alarm.DryingTake;
import org.kilnside.alarm.HostReport;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Reading;
import org.kilnside.firing.Trace;
import org.kilnside.sensor.Probe;

/**
 * The alarms a firing would have rung, from its readings alone: the code that watches live, fed one reading after the
 * other, with forecasts worked out in between. Where readings are missing, time goes on as it would have.
 */
public final class AlarmReplay {
    private static final long TICK_MS = 10_000;

    /** Nothing of the book is asked for, so no firing has this number. */
    private static final long NO_FIRING = 0;

    /** Nobody listens any more after so long a silence. */
    private static final long SILENCE_LOOKED_AT_MS = 600_000;

    private final Optional<FiringForecaster> forecaster;
    private final long forecastEveryMs;
    private final Following following;
    private final Forecasts forecasts;
    private final AlarmDuty duty;
    private final LineInterval interval = new LineInterval();
    private final List<AlarmChange> changes = new ArrayList<>();
    private long lastMs = Long.MIN_VALUE;
    private long forecastAtMs;
    private OptionalLong usualMs = OptionalLong.empty();

    /**
     * @param settings the plan, the limits and what is known of the kiln
     * @param probe what stands behind the guiding channel
     * @param forecaster asked in between; empty = nothing is forecast
     * @param forecastEveryMs how often, in the kiln's time
     */
    public AlarmReplay(
            FiringSettings settings, Probe probe, Optional<FiringForecaster> forecaster, long forecastEveryMs) {
        this.forecaster = forecaster;
        this.forecastEveryMs = forecastEveryMs;
        this.duty = new AlarmDuty(settings.alarmLimits(), settings.plan(), Host.UNKNOWN, changes::add);
        this.following = new Following(settings.plan(), settings.sensor(), settings.series(), duty);
        following.probe(probe);
        this.forecasts = new Forecasts(() -> settings);
    }

    /** It is known how often lines come: what is seen goes before it, once that is enough. */
    public void usualInterval(long ms) {
        usualMs = OptionalLong.of(Math.max(1, ms));
    }

    /** Earlier firings of the same kiln are known. */
    public void earlier(List<Trace> curves) {
        duty.earlier(
                curves.stream().map(DryingTake::of).flatMap(Optional::stream).toList());
    }

    /** The next reading, in order of time. */
    public void take(Reading reading) {
        if (lastMs != Long.MIN_VALUE) {
            long step = reading.elapsedMs() - lastMs;
            silence(Math.min(step, SILENCE_LOOKED_AT_MS));
            interval.seen(step);
        }
        lastMs = reading.elapsedMs();
        duty.line(reading);
        if (reading.first().number() == 1) {
            following.take(reading);
            following.takeHappened().forEach(duty::happened);
            forecast();
        }
    }

    /** It is so late, and nothing has come. */
    public void nothingUntil(long elapsedMs) {
        if (lastMs != Long.MIN_VALUE) {
            duty.ticked(elapsedMs, awaitedMs(), HostReport.UNKNOWN);
        }
    }

    private OptionalLong awaitedMs() {
        return usualMs.isPresent() && interval.ms().isEmpty() ? usualMs : interval.awaitedMs();
    }

    private void silence(long ms) {
        for (long at = TICK_MS; at < ms; at += TICK_MS) {
            duty.ticked(lastMs + at, awaitedMs(), HostReport.UNKNOWN);
        }
    }

    private void forecast() {
        if (forecaster.isEmpty() || lastMs < forecastAtMs || duty.isNumberWithdrawn()) {
            return;
        }
        forecastAtMs = lastMs + forecastEveryMs;
        forecasts.due(NO_FIRING, following, List.of(), lastMs).ifPresent(request -> {
            LiveForecast answer = forecaster.get().forecast(request);
            if (forecasts.take(request, answer)) {
                duty.forecast(answer);
            }
        });
    }

    /** Something that the readings do not tell, such as a restart of the controller. */
    public void happened(FiringEvent event) {
        duty.happened(event);
    }

    /** All that happened to alarms so far, in order. */
    public List<AlarmChange> changes() {
        return List.copyOf(changes);
    }

    /** The cone so far has been withdrawn, with all else that rests on the number. */
    public boolean isNumberWithdrawn() {
        return duty.isNumberWithdrawn();
    }

    /** The temperature the curve stands at; empty before the first good reading. */
    public OptionalDouble nowC() {
        return following.curve().isEmpty()
                ? OptionalDouble.empty()
                : OptionalDouble.of(
                        following.curve().temperatureC(following.curve().size() - 1));
    }
}

package org.kilnside.command;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kilnside.alarm.AlarmChange;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.files.Log;
import org.kilnside.firing.Reading;
import org.kilnside.firing.Trace;
import org.kilnside.sensor.Probe;
import org.kilnside.session.AlarmReplay;
import org.kilnside.session.FiringSettings;
import org.kilnside.wording.StateWords;
import org.kilnside.wording.Words;

/**
 * Why the numbers of a log are not to be believed: the alarms that would have withdrawn cone and forecast from a live
 * firing, so that no figure is worked out of a lying sensor without that being said. A stretch without any number is no
 * lie, but a gap, and told as one.
 */
final class SensorDoubts {
    /** A heat this far below the top bends no cone that the top bends (HeatWork's own limit). */
    private static final double FAR_BELOW_TOP_K = 150;

    /** A kiln held by a number in whole degrees, or drawn by hand, stands still too: for no longer than this. */
    private static final long LONG_STILL_MS = 1_800_000;

    private static final double JUMPS_K = 5;
    private static final double AWAY_FROM_SETPOINT_K = 10;
    private static final double LEAST_STEP_K = 1e-6;
    private static final double MORE_THAN_ROUNDING = 2.5;
    private static final int BEFORE = 60;
    private static final int LOOKED_LEAST = 10;

    private final Log log;
    private final Map<AlarmKind, Doubt> doubts = new LinkedHashMap<>();

    private SensorDoubts(Log log) {
        this.log = log;
    }

    /** @param sinceMs on the log's clock */
    private record Doubt(long sinceMs, boolean standing) {}

    /** What the alarms say of a log's sensor, by the temperature and what the controller told with it. */
    static SensorDoubts in(Log log) {
        SensorDoubts found = new SensorDoubts(log);
        Trace trace = log.trace();
        if (trace.isEmpty()) {
            return found;
        }
        AlarmReplay replay = new AlarmReplay(
                FiringSettings.of(Optional.empty(), Optional.empty(), Optional.empty()),
                Probe.UNKNOWN,
                Optional.empty(),
                Long.MAX_VALUE);
        for (Reading reading : LogReadings.asTheyCame(log)) {
            replay.take(reading);
        }
        for (AlarmChange change : replay.changes()) {
            found.take(change, trace.elapsedMs(0));
        }
        return found;
    }

    private void take(AlarmChange change, long zeroMs) {
        AlarmKind kind = change.alarm().kind();
        if (!kind.withdrawsNumber() || kind == AlarmKind.SENSOR_GONE) {
            return;
        }
        long sinceMs = change.alarm().sinceMs() + zeroMs;
        if (change.what() == AlarmChange.What.CLEARED) {
            doubts.computeIfPresent(kind, (any, doubt) -> new Doubt(doubt.sinceMs(), false));
        } else if (kind != AlarmKind.SENSOR_FROZEN || hasFrozen(sinceMs)) {
            doubts.merge(kind, new Doubt(sinceMs, true), (before, now) -> new Doubt(before.sinceMs(), true));
        }
    }

    /** What there is to say beside a cone. */
    List<String> besideCone(Words words) {
        Trace trace = log.trace();
        int peak = 0;
        for (int i = 1; i < trace.size(); i++) {
            peak = trace.temperatureC(i) > trace.temperatureC(peak) ? i : peak;
        }
        List<String> said = new ArrayList<>();
        for (Map.Entry<AlarmKind, Doubt> each : doubts.entrySet()) {
            long sinceMs = each.getValue().sinceMs();
            int at = Math.max(0, trace.indexAt(sinceMs));
            if (sinceMs <= trace.elapsedMs(peak)
                    || trace.temperatureC(at) > trace.temperatureC(peak) - FAR_BELOW_TOP_K) {
                said.add(say(each.getKey(), sinceMs, words));
            }
        }
        return said;
    }

    /** What there is to say beside a forecast from the log's end. */
    List<String> besideForecast(Words words) {
        return doubts.entrySet().stream()
                .filter(each -> each.getValue().standing())
                .map(each -> say(each.getKey(), each.getValue().sinceMs(), words))
                .toList();
    }

    private String say(AlarmKind kind, long sinceMs, Words words) {
        // Without a clock a person counts from the first reading, whatever the log's own zero.
        long zeroMs = log.startedAt().isPresent() ? 0 : log.trace().elapsedMs(0);
        return words.text(
                "log.doubt",
                words.named("alarm", kind),
                new StateWords(words).when(sinceMs - zeroMs, log.startedAt(), 1));
    }

    /**
     * Whether a number that stands still has frozen, and is not that of a steady hold: it stands very long, was rough
     * before, its set-point went on, or it jumps when it moves again.
     */
    private boolean hasFrozen(long sinceMs) {
        Trace trace = log.trace();
        int from = Math.max(0, trace.indexAt(sinceMs));
        double stillC = trace.temperatureC(from);
        int to = from;
        boolean leftBehind = false;
        while (to + 1 < trace.size() && trace.temperatureC(to + 1) == stillC) {
            to++;
            leftBehind |= trace.setpointC(to).isPresent()
                    && Math.abs(trace.setpointC(to).getAsDouble() - stillC) > AWAY_FROM_SETPOINT_K;
        }
        boolean jumps = to + 1 < trace.size() && Math.abs(trace.temperatureC(to + 1) - stillC) > JUMPS_K;
        boolean longStill = trace.elapsedMs(to) - trace.elapsedMs(from) >= LONG_STILL_MS;
        return jumps || longStill || leftBehind || wasRough(trace, from);
    }

    /**
     * Whether the readings before were off the straight line through their neighbours by more than rounding makes, which
     * is two of its steps: then they do not come to stand still by themselves.
     */
    private static boolean wasRough(Trace trace, int until) {
        int from = Math.max(1, until - BEFORE);
        double stepC = Double.POSITIVE_INFINITY;
        for (int i = from; i < until; i++) {
            double change = Math.abs(trace.temperatureC(i) - trace.temperatureC(i - 1));
            stepC = change > LEAST_STEP_K ? Math.min(stepC, change) : stepC;
        }
        int rough = 0;
        int looked = 0;
        for (int i = from; i + 1 < until; i++) {
            double bend = trace.temperatureC(i - 1) - 2 * trace.temperatureC(i) + trace.temperatureC(i + 1);
            rough += Math.abs(bend) > MORE_THAN_ROUNDING * stepC ? 1 : 0;
            looked++;
        }
        return looked >= LOOKED_LEAST && 2 * rough > looked;
    }
}

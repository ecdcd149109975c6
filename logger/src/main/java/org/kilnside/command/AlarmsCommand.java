package org.kilnside.command;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.kilnside.alarm.AlarmChange;
import org.kilnside.alarm.AlarmEntry;
import org.kilnside.alarm.Measure;
import org.kilnside.files.CsvLogs;
import org.kilnside.files.FileRefusedException;
import org.kilnside.files.JsonObject;
import org.kilnside.files.Log;
import org.kilnside.firing.Reading;
import org.kilnside.firing.Trace;
import org.kilnside.firing.WallClockLine;
import org.kilnside.sensor.Probe;
import org.kilnside.session.AlarmReplay;
import org.kilnside.session.FiringSettings;
import org.kilnside.session.ModelForecaster;
import org.kilnside.wording.AlarmWords;
import org.kilnside.wording.Moments;
import org.kilnside.wording.StateWords;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** The alarms that firings on file would have rung. */
@Command(
        name = "alarms",
        mixinStandardHelpOptions = true,
        description = "Says which alarms a firing would have rung, and when: a log is watched line by line as a live"
                + " firing is. docs/alarms.md has every code.")
public final class AlarmsCommand implements Callable<Integer> {
    private static final long FORECAST_EVERY_MS = 300_000;

    @Mixin
    private Surroundings around;

    @Mixin
    private AlarmOptions limits;

    @Parameters(paramLabel = "LOG", arity = "1..*", description = "Logs as CSV files.")
    private List<Path> logs = List.of();

    @Option(names = "--plan", paramLabel = "FILE", description = "The plan that was followed: a file, or its name.")
    private Optional<String> plan = Optional.empty();

    @Option(names = "--kiln", paramLabel = "NAME", description = "The kiln, where it has a file: its limits count.")
    private Optional<String> kiln = Optional.empty();

    @Option(
            names = "--earlier",
            paramLabel = "LOG",
            description =
                    "Log of an earlier firing of the same kiln, whose power at the boiling point says what dry ware"
                            + " takes; may be given again.")
    private List<Path> earlier = List.of();

    @Option(names = "--no-forecast", description = "Without what rests on forecasts: quicker.")
    private boolean withoutForecast;

    @Option(names = "--json", description = "One JSON object a log.")
    private boolean json;

    @Override
    public Integer call() {
        kiln.filter(name -> !around.library().knowsKiln(name))
                .ifPresent(name -> around.err()
                        .println("kilnside: no kiln \"" + name
                                + "\" is described here, so the usual limits count; described" + " are "
                                + String.join(", ", around.library().kilnNames())));
        FiringSettings settings = limits.applied(WhatIsFired.settings(around.library(), kiln, plan));
        List<Trace> before =
                earlier.stream().map(path -> CsvLogs.read(path).trace()).toList();
        int exit = Complaint.ExitCode.DONE.code();
        for (Path path : logs) {
            try {
                Log log = CsvLogs.read(path);
                show(path, log, rung(settings, log, before));
            } catch (FileRefusedException e) {
                if (logs.size() == 1) {
                    throw e;
                }
                around.out().flush();
                around.err().println("kilnside: " + e.getMessage());
                exit = Complaint.ExitCode.INPUT.code();
            }
        }
        return exit;
    }

    private List<AlarmChange> rung(FiringSettings settings, Log log, List<Trace> before) {
        if (log.trace().isEmpty()) {
            return List.of();
        }
        AlarmReplay replay = new AlarmReplay(
                settings,
                Probe.UNKNOWN,
                withoutForecast ? Optional.empty() : Optional.of(new ModelForecaster()),
                FORECAST_EVERY_MS);
        replay.usualInterval(LogReadings.usualIntervalMs(log.trace()));
        replay.earlier(before);
        for (Reading reading : LogReadings.asTheyCame(log)) {
            replay.take(reading);
        }
        return replay.changes();
    }

    private void show(Path path, Log log, List<AlarmChange> changes) {
        long zeroMs = log.trace().isEmpty() ? 0 : log.trace().elapsedMs(0);
        if (json) {
            around.out()
                    .println(new JsonObject()
                            .with("log", path.toString())
                            .with(
                                    "alarms",
                                    changes.stream()
                                            .map(change -> object(change, zeroMs))
                                            .toList()));
            return;
        }
        StateWords state = new StateWords(around.words());
        Optional<Instant> startedAt = log.startedAt();
        Optional<Instant> firstAt = startedAt.map(at -> at.plusMillis(zeroMs));
        AlarmWords words =
                new AlarmWords(around.words(), Moments.of(firstAt.map(WallClockLine::from), 1, around.words()));
        around.out().println(path.toString());
        if (changes.isEmpty()) {
            around.out().println("  " + around.words().text("alarms.none"));
        }
        List<String[]> rows = new ArrayList<>();
        // Without a clock a person counts from the first reading, whatever the log's own zero.
        for (AlarmChange change : changes) {
            rows.add(new String[] {
                state.momentWithDay(change.elapsedMs(), firstAt, 1),
                around.words().named("alarm.what", change.what()),
                change.alarm().kind().code(),
                words.line(AlarmEntry.of(change.alarm()))
            });
        }
        Table.print(around.out(), rows);
    }

    private static JsonObject object(AlarmChange change, long zeroMs) {
        AlarmEntry entry = AlarmEntry.of(change.alarm());
        return new JsonObject()
                .with("code", entry.kind().code())
                .with("grade", entry.grade().code())
                .with("what", change.what().name().toLowerCase(Locale.ROOT))
                .with("at_s", (change.elapsedMs() + zeroMs) / 1000.0, 1)
                .with("since_s", (change.alarm().sinceMs() + zeroMs) / 1000.0, 1)
                .with("seen", entry.seen(), measure -> text(measure, zeroMs))
                .with("expected", entry.expected(), measure -> text(measure, zeroMs));
    }

    /** Moments by the log's own clock, as the others of the object are. */
    private static String text(Measure measure, long zeroMs) {
        return AlarmEntry.text(measure instanceof Measure.OfPassing passing ? passing.later(zeroMs) : measure);
    }
}

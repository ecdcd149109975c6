package org.kilnside.command;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.kilnside.book.BookRecorder;
import org.kilnside.book.FinishedFiring;
import org.kilnside.book.SensorEpoch;
import org.kilnside.files.CsvLogs;
import org.kilnside.files.Log;
import org.kilnside.firing.Reading;
import org.kilnside.sensor.Probe;
import org.kilnside.session.FiringBook.FiringStart;
import org.kilnside.session.FiringSettings;
import org.kilnside.session.FollowedFiring;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** A CSV log as a firing of the book. */
@Command(
        name = "import",
        mixinStandardHelpOptions = true,
        description = "Puts a CSV log into the book as a firing that is over. Its temperatures are taken as they are.")
final class BookImport implements Callable<Integer> {
    @Mixin
    private Surroundings around;

    @Mixin
    private BookCommand.Which which;

    @Parameters(paramLabel = "FILE", description = "The log: a header with elapsed_s or time, and temp_c or temp_f.")
    private Path file;

    @Option(names = "--plan", paramLabel = "FILE", description = "The plan it followed: a file, or the name of one.")
    private Optional<String> plan = Optional.empty();

    @Option(names = "--kiln", paramLabel = "NAME", description = "The kiln's name.")
    private Optional<String> kiln = Optional.empty();

    @Override
    public Integer call() {
        Log log = CsvLogs.read(file);
        if (log.trace().isEmpty()) {
            throw new Complaint(
                    Complaint.ExitCode.INPUT, file + " holds no good reading: there is nothing to put into the book.");
        }
        FiringSettings settings = WhatIsFired.settings(around.library(), kiln, plan);
        List<Reading> readings = LogReadings.of(log);
        FollowedFiring followed = FollowedFiring.of(settings.plan(), readings);
        long number;
        try (BookRecorder book = BookRecorder.open(Recorder.inItsFolder(which.path()))) {
            Instant started = log.startedAt().orElseGet(() -> around.clock().wallClock());
            FiringStart start = new FiringStart(
                    settings.kiln(),
                    "log:" + file.getFileName(),
                    started,
                    settings.plan(),
                    settings.planText(),
                    settings.series());
            number = book.importFiring(new FinishedFiring(
                    start,
                    List.of(new SensorEpoch(0, List.of(Probe.UNKNOWN))),
                    readings,
                    followed.events(),
                    List.of(),
                    Optional.empty(),
                    Optional.empty(),
                    readings.get(readings.size() - 1).elapsedMs()));
        }
        log.report()
                .sentence()
                .ifPresent(left ->
                        around.err().println("kilnside: " + around.words().text("book.skipped", file, left)));
        around.out().println(around.words().text("book.imported", file, number, readings.size()));
        return Complaint.ExitCode.DONE.code();
    }
}

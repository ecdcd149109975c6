package org.kilnside.command;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.kilnside.book.Book;
import org.kilnside.book.RecordedFiring;
import org.kilnside.files.CsvLogWriter;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** A firing as a CSV log. */
@Command(
        name = "export",
        mixinStandardHelpOptions = true,
        description = "Writes a firing as a CSV log: elapsed_s, time, temp_c, and what else the controller gave.")
final class BookExport implements Callable<Integer> {
    @Mixin
    private Surroundings around;

    @Mixin
    private BookCommand.Which which;

    @Parameters(paramLabel = "FIRING", description = "The firing's number, as book list shows it.")
    private long number;

    @Option(
            names = "--to",
            paramLabel = "FILE",
            description = "The file to write; an existing one is not overwritten (printed here, unless given).")
    private Optional<Path> target = Optional.empty();

    @Override
    public Integer call() {
        try (Book book = which.open(around.err())) {
            RecordedFiring firing = book.firing(number);
            if (target.isEmpty()) {
                write(book, firing, around.out());
                around.out().flush();
                return Complaint.ExitCode.DONE.code();
            }
            try (Writer writer = Files.newBufferedWriter(
                    target.get(), StandardCharsets.UTF_8, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
                long written = write(book, firing, writer);
                around.out().println(around.words().text("book.exported", number, target.get(), written));
            }
        } catch (FileAlreadyExistsException e) {
            throw new Complaint(
                    Complaint.ExitCode.INPUT, target.orElseThrow() + " is there already: name a file that is not.");
        } catch (IOException e) {
            throw new Complaint(
                    Complaint.ExitCode.INPUT,
                    target.orElseThrow() + " cannot be written (" + e.getMessage() + "): choose another place.");
        }
        return Complaint.ExitCode.DONE.code();
    }

    private static long write(Book book, RecordedFiring firing, Writer writer) throws IOException {
        CsvLogWriter log = new CsvLogWriter(writer, Optional.of(firing.wallClock()));
        long[] count = new long[1];
        try {
            book.readings(firing.number(), reading -> {
                try {
                    log.write(reading);
                    count[0]++;
                } catch (IOException e) {
                    throw new UncheckedIOException(e);
                }
            });
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
        writer.flush();
        return count[0];
    }
}

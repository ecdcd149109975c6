package org.kilnside.command;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.kilnside.book.Book;
import org.kilnside.book.BookException;
import org.kilnside.book.KilnHistory;
import org.kilnside.firing.Kiln;
import org.kilnside.firing.Trace;
import org.kilnside.sensor.SensorInPlace;
import picocli.CommandLine.Option;

/** What the firing book knows of a kiln that is about to be lit (a mixin). */
final class FromBook {
    private static final String USUAL = "";

    @Option(
            names = "--book",
            paramLabel = "FILE",
            arity = "0..1",
            fallbackValue = USUAL,
            description =
                    "Takes the kiln's earlier firings and what is known of its sensor from the firing book, as the window does: the one named, or this system's usual one.")
    private Optional<String> book = Optional.empty();

    /**
     * A kiln's past.
     *
     * @param earlier its newest firings' true curves, oldest first
     * @param guide its guiding sensor as it is known now
     */
    record Past(List<Trace> earlier, Optional<SensorInPlace> guide) {
        boolean knowsAnything() {
            return !earlier.isEmpty() || guide.isPresent();
        }
    }

    /**
     * A kiln by its file, or one of which only the book knows.
     *
     * @throws org.kilnside.files.FileRefusedException when neither knows it
     */
    Kiln kiln(String name, Surroundings around) {
        boolean inBookOnly = !around.library().knowsKiln(name)
                && of(name, around).filter(Past::knowsAnything).isPresent();
        return inBookOnly ? Kiln.named(name) : around.library().kiln(name);
    }

    boolean isAsked() {
        return book.isPresent();
    }

    /** The kiln's past; empty where the book is not asked for. */
    Optional<Past> of(String kiln, Surroundings around) {
        if (book.isEmpty()) {
            return Optional.empty();
        }
        Path path = Surroundings.book(book.filter(name -> !name.equals(USUAL)).map(Path::of));
        if (!Files.exists(path)) {
            throw new Complaint(
                    Complaint.ExitCode.INPUT,
                    "there is no firing book " + path + ": name another, or leave --book out.");
        }
        if (kiln.isEmpty()) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE, "--book needs to know which kiln is meant: name it with --kiln");
        }
        try (Book its = Book.open(path)) {
            KilnHistory history = its.history(kiln);
            return Optional.of(new Past(
                    history.earlier(Long.MAX_VALUE, KilnHistory.REMEMBERED),
                    history.guideAsAnswered(around.clock().wallClock())));
        } catch (BookException e) {
            throw new Complaint(Complaint.ExitCode.INPUT, e.getMessage());
        }
    }
}

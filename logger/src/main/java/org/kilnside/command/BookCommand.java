package org.kilnside.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.kilnside.book.Book;
import org.kilnside.book.BookCheck;
import org.kilnside.book.FiringSummary;
import org.kilnside.book.RecordedFiring;
import org.kilnside.files.JsonLines;
import org.kilnside.files.JsonObject;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Kiln;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.sensor.Calibration;
import org.kilnside.wording.ConeWords;
import org.kilnside.wording.Moments;
import org.kilnside.wording.StateWords;
import org.kilnside.wording.Words;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** The firing book. */
@Command(
        name = "book",
        mixinStandardHelpOptions = true,
        subcommands = {
            BookCommand.ListFirings.class,
            BookCommand.Show.class,
            BookCommand.Backup.class,
            BookCommand.Check.class,
            BookWitness.class,
            BookExport.class,
            BookImport.class
        },
        description = "Looks into the firing book.")
public final class BookCommand implements Callable<Integer> {
    @Mixin
    private Surroundings around;

    @Override
    public Integer call() {
        around.usage();
        return Complaint.ExitCode.USAGE.code();
    }

    /** Which book. */
    static final class Which {
        @Option(
                names = "--book",
                paramLabel = "FILE",
                description = "The firing book (this system's usual place, unless given).")
        private Optional<Path> book = Optional.empty();

        Path path() {
            return Surroundings.book(book);
        }

        /** Opens the book to look into it, and says on the side where it can only be read. */
        Book open(PrintWriter err) {
            Book opened = Book.open(path());
            opened.caution().ifPresent(caution -> {
                err.println("kilnside: " + caution);
                err.flush();
            });
            return opened;
        }
    }

    /** All firings, a line each. */
    @Command(name = "list", mixinStandardHelpOptions = true, description = "Lists the firings, oldest first.")
    static final class ListFirings implements Callable<Integer> {
        @Mixin
        private Surroundings around;

        @Mixin
        private Which which;

        @Option(names = "--json", description = "One JSON object a firing.")
        private boolean json;

        @Override
        public Integer call() {
            try (Book book = which.open(around.err())) {
                if (json) {
                    JsonLines lines = new JsonLines(around.out());
                    for (FiringSummary firing : book.firings()) {
                        lines.write(new JsonObject()
                                .with("firing", firing.number())
                                .with("kiln", firing.kiln(), name -> name)
                                .with("plan", firing.planName(), name -> name)
                                .with("started", firing.startedAt().toString())
                                .with("duration_s", firing.duration().toSeconds())
                                .with("readings", firing.readingCount())
                                .with(
                                        "peak_c",
                                        firing.peak(),
                                        peak -> peak.temperature().celsius())
                                .with("ended", firing.ended()));
                    }
                } else {
                    print(book.firings());
                }
            }
            return Complaint.ExitCode.DONE.code();
        }

        private void print(List<FiringSummary> firings) {
            Words words = around.words();
            if (firings.isEmpty()) {
                around.out().println(words.text("book.empty"));
                return;
            }
            List<String[]> rows = new ArrayList<>();
            for (FiringSummary firing : firings) {
                rows.add(new String[] {
                    Long.toString(firing.number()),
                    words.dayAndTime(firing.startedAt()),
                    firing.kiln().orElse(""),
                    firing.planName().orElse(words.text("book.no_plan")),
                    words.duration(firing.duration()),
                    firing.peak()
                            .map(peak -> words.text("book.peak", words.temperature(peak.temperature())))
                            .orElse(""),
                    firing.ended() ? "" : words.text("book.going_on")
                });
            }
            Table.print(around.out(), rows);
        }
    }

    /** One firing. */
    @Command(
            name = "show",
            mixinStandardHelpOptions = true,
            description = "Shows one firing: figures and what happened.")
    static final class Show implements Callable<Integer> {
        @Mixin
        private Surroundings around;

        @Mixin
        private Which which;

        @Parameters(paramLabel = "FIRING", description = "The firing's number, as book list shows it.")
        private long number;

        @Option(names = "--json", description = "One JSON object.")
        private boolean json;

        @Override
        public Integer call() {
            try (Book book = which.open(around.err())) {
                FiringFacts facts = FiringFacts.of(book, number);
                if (json) {
                    facts.writeJson(new JsonLines(around.out()));
                } else {
                    print(facts.firing(), facts, elements(book, facts));
                }
            }
            return Complaint.ExitCode.DONE.code();
        }

        /** Only a firing whose output is told says anything of the elements. */
        private Optional<String> elements(Book book, FiringFacts facts) {
            Optional<String> kiln = facts.firing().start().kiln();
            return facts.tellsOutput()
                    ? KilnElements.until(
                                    number, book.history(kiln.orElse("")), KilnElements.wall(around.library(), kiln))
                            .line(number, around.words())
                    : Optional.empty();
        }

        private void print(RecordedFiring firing, FiringFacts facts, Optional<String> elements) {
            Words words = around.words();
            StateWords state = new StateWords(words);
            PrintWriter out = around.out();
            out.println(words.text(
                    "book.firing",
                    firing.number(),
                    firing.start().kiln().orElse(words.text("book.kiln_not_given")),
                    words.dayAndTime(firing.wallClock().at(0))));
            Kiln.Thresholds thresholds = firing.start()
                    .kiln()
                    .flatMap(around.library()::kilnCalled)
                    .map(Kiln::thresholds)
                    .orElse(Kiln.Thresholds.COMMON_PRACTICE);
            facts.summary(thresholds, words)
                    .ifPresentOrElse(
                            summary -> summary.asLines().forEach(out::println),
                            () -> out.println(words.text("book.no_curve")));
            facts.cone().ifPresent(cone -> {
                ConeWords cones = new ConeWords(words, ConeTable.of(cone.series()));
                out.println("  " + cones.reached(cone));
                cones.range(cone).ifPresent(range -> out.println("  " + range));
            });
            if (!facts.sensor().calibration().equals(Calibration.NONE)) {
                out.println("  " + words.text("book.corrected"));
            }
            elements.ifPresent(line -> out.println("  " + line));
            if (firing.start().plan().isPresent() && facts.curve().size() > 1) {
                out.println("  " + words.text("review.hint", firing.number()));
            }
            Moments moments = Moments.of(Optional.of(firing.wallClock()), facts.speed(), words);
            List<String[]> rows = new ArrayList<>();
            for (FiringEvent event : firing.events()) {
                rows.add(new String[] {
                    state.momentWithDay(
                            event.elapsedMs(),
                            Optional.of(firing.wallClock().zeroFor(event.elapsedMs())),
                            facts.speed()),
                    state.event(event, moments)
                });
            }
            Table.print(out, rows);
        }
    }

    /** A copy of the book. */
    @Command(
            name = "backup",
            mixinStandardHelpOptions = true,
            description = "Writes a copy of the whole book, also while a firing is being recorded.")
    static final class Backup implements Callable<Integer> {
        @Mixin
        private Surroundings around;

        @Mixin
        private Which which;

        @Parameters(paramLabel = "FILE", description = "Where to; an existing file is not overwritten.")
        private Path target;

        @Override
        public Integer call() {
            try (Book book = which.open(around.err())) {
                book.backup(target);
                around.out().println(around.words().text("book.backed_up", target));
            }
            return Complaint.ExitCode.DONE.code();
        }
    }

    /** Whether the book is sound. */
    @Command(
            name = "check",
            mixinStandardHelpOptions = true,
            description = "Checks the whole book: the file itself, and that what is in it fits together.")
    static final class Check implements Callable<Integer> {
        @Mixin
        private Surroundings around;

        @Mixin
        private Which which;

        @Option(names = "--json", description = "One JSON object.")
        private boolean json;

        @Override
        public Integer call() {
            BookCheck found = BookCheck.of(which.path());
            if (json) {
                new JsonLines(around.out())
                        .write(new JsonObject()
                                .with("book", which.path().toString())
                                .with("sound", found.isSound())
                                .with("firings", found.firings())
                                .with("readings", found.readings())
                                .with("findings", found.findings()));
                return found.isSound() ? Complaint.ExitCode.DONE.code() : Complaint.ExitCode.INPUT.code();
            }
            if (found.isSound()) {
                around.out()
                        .println(around.words().text("book.sound", which.path(), found.firings(), found.readings()));
                return Complaint.ExitCode.DONE.code();
            }
            found.findings().forEach(around.err()::println);
            return Complaint.ExitCode.INPUT.code();
        }
    }
}

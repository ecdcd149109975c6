package org.kilnside.command;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.kilnside.report.CardPage;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.ControllerNumbers;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.ProgramCard;
import org.kilnside.wording.TemperatureUnit;
import org.kilnside.wording.Words;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** The card of what to key into the controller. */
@Command(
        name = "card",
        mixinStandardHelpOptions = true,
        description = "Prints what to key into the controller for a plan, step by step: here, or as a page to print.")
final class PlanCard implements Callable<Integer> {
    @Mixin
    private Surroundings around;

    @Parameters(paramLabel = "FILE", description = "A plan's file, or the name of one, such as bisque.")
    private String plan;

    @Mixin
    private SensorOptions sensor;

    @Mixin
    private FromBook book;

    @Option(
            names = "--kiln",
            paramLabel = "NAME",
            description = "The kiln's name, for the head of the card; with --book also for what its controller shows.")
    private Optional<String> kiln = Optional.empty();

    @Option(
            names = "--unit",
            paramLabel = "C|F",
            description = "The unit the controller is set to (this computer's own, unless given).")
    private Optional<String> unit = Optional.empty();

    @Option(
            names = "--to",
            paramLabel = "FILE",
            description =
                    "Writes a page for any browser to print, such as card.html, instead of printing the card here.")
    private Optional<Path> to = Optional.empty();

    @Override
    public Integer call() {
        Schedule schedule = around.library().plan(plan).schedule();
        Words words = unit.isPresent() ? words(unit.get()) : around.words();
        ProgramCard card = ProgramCard.of(schedule, kiln.map(this::named), numbers(schedule), words);
        if (to.isPresent()) {
            write(to.get(), CardPage.html(card, words.language().locale().getLanguage()));
            around.out().println(words.text("card.written", to.get()));
        } else {
            print(card);
        }
        return Complaint.ExitCode.DONE.code();
    }

    /** The name inside the kiln's file, where a file is meant; else as typed, which the book has to know where it is asked. */
    private String named(String typed) {
        boolean inFile = around.library().knowsKiln(typed);
        // Where the book is to say what the controller shows, a name nobody knows would leave that out unseen.
        return inFile || book.isAsked() ? book.kiln(typed, around).name() : typed;
    }

    private ControllerNumbers numbers(Schedule schedule) {
        Optional<SensorInPlace> guide =
                book.of(kiln.map(this::named).orElse(""), around).flatMap(FromBook.Past::guide);
        return ControllerNumbers.of(sensor.firing(guide, schedule));
    }

    private Words words(String typed) {
        TemperatureUnit chosen = switch (typed.toUpperCase(Locale.ROOT).replace("°", "")) {
            case "C" -> TemperatureUnit.CELSIUS;
            case "F" -> TemperatureUnit.FAHRENHEIT;
            default -> throw new Complaint(Complaint.ExitCode.USAGE, "--unit takes C or F, found \"" + typed + "\".");
        };
        return Words.of(around.locale(), Preferences.of(around.locale()).withUnit(chosen));
    }

    private void print(ProgramCard card) {
        around.out()
                .println(card.title() + card.kiln().map(name -> " · " + name).orElse(""));
        around.out().println(card.unit());
        List<String[]> rows = new ArrayList<>();
        List<String> heads = new ArrayList<>(card.heads());
        heads.add("");
        rows.add(heads.toArray(String[]::new));
        for (ProgramCard.Step step : card.steps()) {
            rows.add(new String[] {
                Integer.toString(step.number()),
                (step.cools() ? "↓ " : "") + step.rate(),
                step.target(),
                step.hold(),
                "☐ ☐"
            });
        }
        Table.print(around.out(), rows);
        card.remarks().forEach(remark -> around.out().println("- " + remark));
    }

    private static void write(Path file, String page) {
        try {
            if (Files.exists(file)) {
                throw new Complaint(
                        Complaint.ExitCode.INPUT, "there is a file " + file + " already: choose another name.");
            }
            Files.writeString(file, page, StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new Complaint(
                    Complaint.ExitCode.INPUT, "the card cannot be written to " + file + " (" + e.getMessage() + ").");
        }
    }
}

package org.kilnside.command;

import java.io.Console;
import java.util.Optional;
import org.kilnside.files.UnitText;
import org.kilnside.firing.Lighting;
import org.kilnside.firing.Lighting.Item;
import org.kilnside.quantity.Temperature;
import org.kilnside.session.LiveFeed;
import org.kilnside.session.Snapshot;
import org.kilnside.wording.LightingWords;
import org.kilnside.wording.PostWords;
import org.kilnside.wording.Words;
import picocli.CommandLine.Option;

/** The list before lighting, on the command line (a mixin). Recording has begun by then: asking delays nothing. */
final class LightingOptions {
    /** How long a firing of the program's last run may take to come out of the book. */
    private static final long RESUMED_WITHIN_MS = 2_000;

    @Option(
            names = "--lighting",
            paramLabel = "ask|skip|later",
            description = "The list before lighting: ask goes through it here (as in a terminal, unless given), skip"
                    + " notes it as skipped, later leaves it to the window of another copy, and the kiln may be lit"
                    + " days later: nothing rings while no reading has ever come.")
    private Optional<String> how = Optional.empty();

    /** How the list is gone through here. */
    enum How {
        ASK,
        SKIP,
        LATER
    }

    /** @throws Complaint when the option holds another word */
    How how() {
        if (how.isEmpty()) {
            return System.console() == null ? How.LATER : How.ASK;
        }
        return switch (how.get()) {
            case "ask" -> How.ASK;
            case "skip" -> How.SKIP;
            case "later" -> How.LATER;
            default ->
                throw new Complaint(
                        Complaint.ExitCode.USAGE, "--lighting takes ask, skip or later, found \"" + how.get() + "\".");
        };
    }

    /** Whether somebody said that the kiln may be lit later, as a recorder does that always runs. */
    boolean isLeftForLater() {
        return how.equals(Optional.of("later"));
    }

    /** Shows the list and does as the person wants; a firing that is gone on with has had its own. */
    void goThrough(LiveFeed feed, Surroundings around) {
        How asked = how();
        if (isUnderWay(feed)) {
            return;
        }
        Words words = around.words();
        LightingWords says = new LightingWords(words);
        around.out().println(words.text("lighting.head"));
        for (Item item : Item.values()) {
            around.out().println("  " + (item.ordinal() + 1) + "  " + says.item(item));
            if (item == Item.ALARM) {
                new PostWords(words)
                        .lastHeard(feed.latest())
                        .forEach(heard -> around.out().println("     " + heard));
            }
        }
        around.out().flush();
        Console console = System.console();
        switch (asked) {
            case LATER -> around.out().println(words.text("lighting.later"));
            case SKIP -> note(Lighting.SKIPPED, feed, around, says);
            case ASK -> {
                if (console == null) {
                    throw new Complaint(
                            Complaint.ExitCode.USAGE, "--lighting=ask needs a terminal to ask in: use skip or later.");
                }
                note(ask(console, words, says), feed, around, says);
            }
        }
        around.out().flush();
    }

    private static boolean isUnderWay(LiveFeed feed) {
        long until = System.nanoTime() + RESUMED_WITHIN_MS * 1_000_000;
        while (feed.latest().firing().isEmpty() && System.nanoTime() < until) {
            try {
                Thread.sleep(50);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                return true;
            }
        }
        Snapshot.Stage stage = feed.latest().stage();
        return feed.latest().lighting().isPresent()
                || stage == Snapshot.Stage.HEATING
                || stage == Snapshot.Stage.HOLDING
                || stage == Snapshot.Stage.COOLING;
    }

    private static void note(Lighting lighting, LiveFeed feed, Surroundings around, LightingWords says) {
        feed.lighting(lighting);
        around.out().println(says.summary(lighting));
    }

    private static Lighting ask(Console console, Words words, LightingWords says) {
        Lighting lighting = Lighting.OPEN;
        console.printf("%s%n", words.text("lighting.how"));
        for (Item item : Item.values()) {
            String answer = console.readLine("%d  %s ", item.ordinal() + 1, says.item(item));
            if (answer == null || answer.strip().equalsIgnoreCase("s")) {
                return lighting.skip();
            }
            String said = answer.strip();
            if (said.matches("(?i)n|no|nee|nein")) {
                continue;
            }
            lighting = lighting.with(item, true);
            if (item == Item.CUT_OUT) {
                lighting = lighting.withCutOut(cutOut(console, words));
            } else if (item == Item.ATTENDANCE) {
                lighting = lighting.withAttends(
                        Optional.ofNullable(console.readLine("   %s ", words.text("lighting.ask_attends"))));
            }
        }
        return lighting;
    }

    private static Optional<Temperature> cutOut(Console console, Words words) {
        while (true) {
            String typed = console.readLine("   %s ", words.text("lighting.ask_cut_out"));
            if (typed == null || typed.isBlank()) {
                return Optional.empty();
            }
            String text = typed.strip();
            try {
                return Optional.of(UnitText.temperature(
                        text.matches("\\d+([.,]\\d+)?")
                                ? text + " " + words.preferences().unit().symbol()
                                : text));
            } catch (UnitText.NotAQuantityException e) {
                console.printf("   %s%n", e.getMessage());
            }
        }
    }
}

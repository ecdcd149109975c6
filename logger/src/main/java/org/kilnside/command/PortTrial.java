package org.kilnside.command;

import java.time.Duration;
import java.util.Locale;
import java.util.OptionalLong;
import org.kilnside.files.JsonLines;
import org.kilnside.files.JsonObject;
import org.kilnside.link.LinkNotation;
import org.kilnside.link.LinkSurroundings;
import org.kilnside.link.OpeningTrial;
import org.kilnside.link.OpeningTrial.Outcome;
import org.kilnside.quantity.Temperature;
import org.kilnside.wording.Words;

/** Tries whether opening a port restarts its controller, and says so in a sentence. */
final class PortTrial {
    private final Surroundings around;
    private final boolean json;

    PortTrial(Surroundings around, boolean json) {
        this.around = around;
        this.json = json;
    }

    /** Makes the trial and gives the command's exit code. */
    int of(String notation) {
        LinkNotation link = LinkNotation.parse(notation);
        if (!(link instanceof LinkNotation.Serial) && !(link instanceof LinkNotation.Tcp)) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE,
                    "--try-opening is for a serial port or tcp:HOST:PORT, found " + notation
                            + ": nothing else can restart a controller.");
        }
        String title = link instanceof LinkNotation.Serial serial ? serial.path() : notation;
        Words words = around.words();
        if (!json) {
            around.out().println(words.text("ports.trial.begins", title));
            around.out().flush();
        }
        try {
            OpeningTrial.Answer answer = OpeningTrial.of(
                            link,
                            LinkSurroundings.of(around.clock(), around.library())
                                    .saying(around.words()))
                    .run(OpeningTrial.PATIENCE);
            return say(answer, title, words);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return Complaint.ExitCode.NOTHING.code();
        }
    }

    private int say(OpeningTrial.Answer answer, String title, Words words) {
        if (json) {
            new JsonLines(around.out())
                    .write(new JsonObject()
                            .with("port", title)
                            .with("opening", answer.outcome().name().toLowerCase(Locale.ROOT))
                            .with("temp_c", answer.temperature(), Temperature::celsius)
                            .with("uptime_before_ms", answer.beforeMs())
                            .with("uptime_after_ms", answer.afterMs())
                            .with("detail", answer.trouble(), detail -> detail));
        }
        String sentence = answer.trouble()
                .orElseGet(() -> words.text(
                        key(answer.outcome()),
                        title,
                        uptime(answer.beforeMs(), words),
                        uptime(answer.afterMs(), words),
                        answer.temperature().map(words::temperature).orElse("?"),
                        words.temperature(OpeningTrial.COLD)));
        boolean known = answer.outcome() == Outcome.GOES_ON || answer.outcome() == Outcome.RESTARTS;
        if (!known) {
            throw new Complaint(Complaint.ExitCode.INPUT, sentence);
        }
        if (!json) {
            around.out().println(sentence);
        }
        around.out().flush();
        return Complaint.ExitCode.DONE.code();
    }

    private static String key(Outcome outcome) {
        return switch (outcome) {
            case GOES_ON -> "ports.trial.goes_on";
            case RESTARTS -> "ports.trial.restarts";
            case NOT_COLD -> "ports.trial.not_cold";
            case NO_TEMPERATURE -> "ports.trial.no_temperature";
            case NO_UPTIME -> "ports.trial.no_uptime";
            // A port that was not opened says why in a sentence of its own.
            case SILENT, NOT_OPENED -> "ports.trial.silent";
        };
    }

    private static String uptime(OptionalLong ms, Words words) {
        return ms.isPresent() ? words.duration(Duration.ofMillis(ms.getAsLong())) : "?";
    }
}

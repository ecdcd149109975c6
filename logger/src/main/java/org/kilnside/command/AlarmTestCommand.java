package org.kilnside.command;

import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.kilnside.files.NightSettings;
import org.kilnside.host.Places;
import org.kilnside.host.TestedAlarm;
import org.kilnside.link.LinkNotation;
import org.kilnside.link.RecorderAddress;
import org.kilnside.link.share.RecorderPlace;
import org.kilnside.wording.PostWords;
import org.kilnside.wording.Words;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Tests tonight's alarm on this computer, as part of lighting the kiln. */
@Command(
        name = "alarm-test",
        mixinStandardHelpOptions = true,
        description = "Does on this computer all that an alarm to come now would do: sounds, runs your alarm command,"
                + " shows a notice. Asks whether you heard it, and remembers when you last did.")
public final class AlarmTestCommand implements Callable<Integer> {
    @Mixin
    private Surroundings around;

    @Mixin
    private NightOptions night;

    @Option(
            names = "--heard",
            description = "Do not ask: take it for heard when everything worked as far as this computer can tell.")
    private boolean heard;

    @Option(
            names = "--everywhere",
            description =
                    "Lets the recorder ring its test, for two minutes: there and on every copy that follows. Where"
                            + " somebody says that it was heard is told here and kept by the recorder.")
    private boolean everywhere;

    @Mixin
    private Attaching attaching;

    @Option(
            names = "--book",
            paramLabel = "FILE",
            description =
                    "With --everywhere and without --attach: the book whose recording on this computer rings (this"
                            + " system's usual place, unless given).")
    private Optional<Path> book = Optional.empty();

    @Override
    public Integer call() {
        Optional<LinkNotation.Attach> recorder = attaching.recorder(Optional.empty());
        if (everywhere) {
            Path path = Surroundings.book(book);
            RecorderPlace place = recorder.isPresent()
                    ? attaching.place(recorder.get(), around, around.words(), WatchCommand::ask)
                    : RecorderPlace.here(() -> RecorderAddress.find(path), around.words());
            return new RingEverywhere(around).ring(place);
        }
        if (recorder.isPresent()) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE, "--attach goes with --everywhere: add it, or leave both out.");
        }
        Words words = around.words();
        NightSettings settings = night.settings();
        TestedAlarm tested = new TestedAlarm(Places.settings());
        around.out().println(new PostWords(words).tested(tested.last()));
        around.out().println(words.text("alarm_test.begins"));
        around.out().flush();
        try (Announcer announcer = new Announcer(settings, words)) {
            if (!announcer.canBeHeard()) {
                throw new Complaint(
                        Complaint.ExitCode.INPUT,
                        "nothing here would be heard: leave out --no-sound, or give an --alarm-command.");
            }
            Optional<String> trouble = announcer.test();
            if (trouble.isPresent()) {
                throw new Complaint(Complaint.ExitCode.INPUT, trouble.get());
            }
        }
        if (!heard
                && !WatchCommand.ask(words.text("alarm_test.heard"))
                        .map(AlarmTestCommand::isYes)
                        .orElse(false)) {
            around.out().println(words.text("alarm_test.not_heard"));
            return Complaint.ExitCode.NOTHING.code();
        }
        tested.heard(around.clock().wallClock());
        around.out().println(words.text("alarm_test.kept"));
        return Complaint.ExitCode.DONE.code();
    }

    /** Yes in any of the three languages. */
    private static boolean isYes(String answer) {
        return answer.strip().toLowerCase(java.util.Locale.ROOT).matches("y|yes|j|ja");
    }
}

package org.kilnside.command;

import java.time.LocalTime;
import java.util.Optional;
import org.kilnside.alarm.QuietHours;
import org.kilnside.files.NightFiles;
import org.kilnside.files.NightSettings;
import org.kilnside.host.Places;
import picocli.CommandLine.Option;

/** How alarms are made heard here (a mixin): what {@code night.toml} says, and what was typed instead. */
final class NightOptions {
    @Option(
            names = "--alarm-command",
            paramLabel = "COMMAND",
            description = "A command of your own, run by the system's shell when an alarm is raised: KILNSIDE_GRADE is"
                    + " come-now, look-soon or good-to-know, KILNSIDE_TEXT says it in words. docs/night.md has more.")
    private Optional<String> alarmCommand = Optional.empty();

    @Option(names = "--no-sound", description = "This computer does not sound alarms.")
    private boolean noSound;

    @Option(
            names = "--quiet-hours",
            paramLabel = "FROM-TO",
            description = "When good news is not sounded, such as 22:30-07:00. What matters rings all the same.")
    private Optional<String> quietHours = Optional.empty();

    NightSettings settings() {
        NightSettings settings = NightFiles.in(Places.settings());
        if (alarmCommand.isPresent()) {
            if (alarmCommand.get().isBlank()) {
                throw new Complaint(Complaint.ExitCode.USAGE, "--alarm-command takes a command, found nothing.");
            }
            settings = settings.withAlarmCommand(alarmCommand.get());
        }
        if (quietHours.isPresent()) {
            settings = settings.withQuiet(hours(quietHours.get()));
        }
        return noSound ? settings.withoutSound() : settings;
    }

    private static QuietHours hours(String text) {
        String[] ends = text.split("-", -1);
        Optional<LocalTime> from = NightFiles.time(ends[0].strip());
        Optional<LocalTime> to = ends.length == 2 ? NightFiles.time(ends[1].strip()) : Optional.empty();
        if (from.isEmpty() || to.isEmpty()) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE,
                    "--quiet-hours takes two times of day such as 22:30-07:00, found \"" + text + "\".");
        }
        return new QuietHours(from.get(), to.get());
    }
}

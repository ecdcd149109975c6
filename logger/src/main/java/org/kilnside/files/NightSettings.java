package org.kilnside.files;

import java.time.Duration;
import java.util.Optional;
import org.kilnside.alarm.QuietHours;

/**
 * How this computer makes an alarm heard.
 *
 * @param alarmCommand the user's own command, run when an alarm is raised; empty when there is none
 * @param quietCommand run when nothing rings any more, to switch off what the other switched on; empty when there is none
 * @param commandLimit how long either may take
 * @param sound whether this computer sounds alarms itself
 * @param notices whether it shows them as notices of its desktop
 * @param name what the person calls this computer; empty where its own name does
 * @param quiet the hours in which good news is not sounded
 */
public record NightSettings(
        Optional<String> alarmCommand,
        Optional<String> quietCommand,
        Duration commandLimit,
        boolean sound,
        boolean notices,
        Optional<String> name,
        QuietHours quiet) {
    /** A text-message gateway that does not answer is given up after this long. */
    public static final Duration USUAL_LIMIT = Duration.ofSeconds(30);

    /** Where nothing was written down: sound and notices, no command, no quiet hours. */
    public static final NightSettings USUAL = new NightSettings(
            Optional.empty(), Optional.empty(), USUAL_LIMIT, true, true, Optional.empty(), QuietHours.NONE);

    public NightSettings withAlarmCommand(String command) {
        return new NightSettings(Optional.of(command), quietCommand, commandLimit, sound, notices, name, quiet);
    }

    public NightSettings withQuiet(QuietHours hours) {
        return new NightSettings(alarmCommand, quietCommand, commandLimit, sound, notices, name, hours);
    }

    public NightSettings withoutSound() {
        return new NightSettings(alarmCommand, quietCommand, commandLimit, false, notices, name, quiet);
    }
}

package org.kilnside.command;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.kilnside.alarm.Alarm;
import org.kilnside.alarm.Bell;
import org.kilnside.alarm.Grade;
import org.kilnside.files.NightSettings;
import org.kilnside.host.AlarmCommand;
import org.kilnside.host.Notices;
import org.kilnside.host.Speaker;
import org.kilnside.session.Snapshot;
import org.kilnside.wording.AlarmWords;
import org.kilnside.wording.Moments;
import org.kilnside.wording.Words;

/** Makes alarms heard on this computer: by its loudspeaker, the user's own command, and a notice. Never waits. */
final class Announcer implements AutoCloseable {
    /** While nobody answers, the command is run again with every so many rings: five minutes. */
    private static final int RINGS_A_COMMAND = 15;

    /** A test waits so long beyond the command's own limit. */
    private static final long TEST_PATIENCE_S = 20;

    private final NightSettings settings;
    private final Words words;
    private final Optional<Speaker> speaker;
    private final Optional<AlarmCommand> command;
    private final Optional<AlarmCommand> quietCommand;
    private final Notices notices = new Notices();
    private boolean commandRang;

    Announcer(NightSettings settings, Words words) {
        this.settings = settings;
        this.words = words;
        this.speaker = settings.sound() ? Optional.of(Speaker.ofThisComputer(words)) : Optional.empty();
        this.command = settings.alarmCommand().map(typed -> new AlarmCommand(typed, settings.commandLimit(), words));
        this.quietCommand =
                settings.quietCommand().map(typed -> new AlarmCommand(typed, settings.commandLimit(), words));
    }

    /** Sounds one ring. */
    void ring(Bell.Ring ring, Snapshot snapshot) {
        Alarm alarm = ring.alarm();
        speaker.ifPresent(it -> it.sound(alarm.grade(), ring.loudness()));
        boolean anew = ring.count() == 1;
        if (anew || ring.count() % RINGS_A_COMMAND == 0) {
            commandRang = true;
            command.ifPresent(it -> it.run(alarm.id(), environment(alarm, ring.count(), snapshot)));
        }
        if (anew && settings.notices()) {
            notices.show(says(snapshot).title(alarm.kind()), text(alarm, snapshot), alarm.grade() == Grade.COME_NOW);
        }
    }

    /** Nothing rings any more. */
    void quiet() {
        if (commandRang) {
            commandRang = false;
            quietCommand.ifPresent(it -> it.run("quiet", Map.of("KILNSIDE_GRADE", "quiet")));
        }
    }

    /** What the alarm says, for somebody who sees nothing else of it. */
    String text(Alarm alarm, Snapshot snapshot) {
        AlarmWords says = says(snapshot);
        StringBuilder text = new StringBuilder();
        snapshot.kiln().ifPresent(kiln -> text.append(kiln).append(": "));
        text.append(says.title(alarm.kind()));
        says.seenAgainstExpected(alarm).ifPresent(seen -> text.append(", ").append(seen));
        text.append('.');
        says.whatToDo(alarm.kind(), snapshot.isolator())
                .forEach(step -> text.append(' ').append(step));
        return text.toString();
    }

    private AlarmWords says(Snapshot snapshot) {
        return new AlarmWords(words, Moments.of(snapshot, words));
    }

    private Map<String, String> environment(Alarm alarm, int count, Snapshot snapshot) {
        Map<String, String> environment = new HashMap<>();
        environment.put("KILNSIDE_GRADE", alarm.grade().code());
        environment.put("KILNSIDE_TEXT", text(alarm, snapshot));
        environment.put("KILNSIDE_TITLE", says(snapshot).title(alarm.kind()));
        environment.put("KILNSIDE_KIND", alarm.kind().code());
        environment.put("KILNSIDE_ALARM", alarm.id());
        environment.put("KILNSIDE_COUNT", Integer.toString(count));
        environment.put("KILNSIDE_KILN", snapshot.kiln().orElse(""));
        return environment;
    }

    /**
     * Does all that a <i>come now</i> would do, and waits for it: not for threads that must not wait.
     *
     * @return what did not work, in one part of a sentence; empty when everything did as far as this computer can tell
     */
    Optional<String> test() {
        CountDownLatch done = new CountDownLatch(2);
        speaker.ifPresentOrElse(it -> it.sound(Grade.COME_NOW, 1, done::countDown), done::countDown);
        Map<String, String> environment = Map.of(
                "KILNSIDE_GRADE",
                Grade.COME_NOW.code(),
                "KILNSIDE_TEXT",
                words.text("alarm_test.text"),
                "KILNSIDE_TITLE",
                words.text("alarm_test.title"),
                "KILNSIDE_KIND",
                "test",
                "KILNSIDE_ALARM",
                "test",
                "KILNSIDE_COUNT",
                "1",
                "KILNSIDE_KILN",
                "");
        command.ifPresentOrElse(it -> it.run("test", environment, done::countDown), done::countDown);
        if (settings.notices()) {
            notices.show(words.text("alarm_test.title"), words.text("alarm_test.text"), true);
        }
        try {
            if (!done.await(settings.commandLimit().toSeconds() + TEST_PATIENCE_S, TimeUnit.SECONDS)) {
                return Optional.of(words.text("alarm_test.hangs"));
            }
            quietCommand.ifPresent(it -> it.run("quiet", Map.of("KILNSIDE_GRADE", "quiet")));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return Optional.of(words.text("alarm_test.hangs"));
        }
        Optional<String> silent = soundTrouble().map(why -> words.text("post.no_sound", why));
        Optional<String> failed = commandTrouble().map(why -> words.text("post.command_failed", why));
        if (silent.isEmpty()) {
            return failed;
        }
        return Optional.of(silent.get() + failed.map(why -> " " + why).orElse(""));
    }

    /** Whether anything of it can be heard at all. */
    boolean canBeHeard() {
        return speaker.isPresent() || command.isPresent();
    }

    boolean sounds() {
        return speaker.isPresent();
    }

    boolean hasCommand() {
        return command.isPresent();
    }

    Optional<String> soundTrouble() {
        return speaker.flatMap(Speaker::trouble);
    }

    Optional<String> commandTrouble() {
        return command.flatMap(AlarmCommand::trouble).or(() -> quietCommand.flatMap(AlarmCommand::trouble));
    }

    @Override
    public void close() {
        speaker.ifPresent(Speaker::close);
        command.ifPresent(AlarmCommand::close);
        quietCommand.ifPresent(AlarmCommand::close);
        notices.close();
    }
}

package org.kilnside.files;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalTime;
import java.time.format.DateTimeParseException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kilnside.alarm.QuietHours;

/** How alarms are made heard, as a TOML file a person edits by hand: {@code night.toml}, described in docs/night.md. */
public final class NightFiles {
    private static final String KIND = "settings for the night";
    private static final List<String> KEYS =
            List.of("alarm_command", "quiet_command", "command_limit_s", "sound", "notices", "name", "quiet");
    private static final Map<String, String> WORDS =
            Map.of("command", "alarm_command", "sounds", "sound", "notifications", "notices", "quiet_hours", "quiet");
    private static final int LONGEST_LIMIT_S = 600;

    private NightFiles() {}

    /**
     * The settings in a person's folder; the usual ones where there is no {@code night.toml}.
     *
     * @throws FileRefusedException when the file cannot be used
     */
    public static NightSettings in(Path folder) {
        Path file = folder.resolve("night.toml");
        return Files.exists(file) ? parse(TextFile.read(file, KIND), file.toString()) : NightSettings.USUAL;
    }

    /** @throws FileRefusedException when the text is no such settings; every problem is named with its line */
    public static NightSettings parse(String text, String file) {
        TomlFields fields = TomlFields.parse(text, file, KIND);
        fields.refuseUnknown(KEYS, WORDS, KIND);
        Optional<String> alarm = fields.text("alarm_command", 2_000);
        Optional<String> quiet = fields.text("quiet_command", 2_000);
        Optional<Duration> limit = fields.text("command_limit_s", 10).flatMap(value -> limit(fields, value));
        Optional<Boolean> sound = fields.yesOrNo("sound");
        Optional<Boolean> notices = fields.yesOrNo("notices");
        Optional<String> name = fields.text("name", 40).map(String::strip).filter(typed -> !typed.isEmpty());
        QuietHours hours = fields.table("quiet").map(NightFiles::hours).orElse(QuietHours.NONE);
        fields.source().refuseProblems();
        return new NightSettings(
                alarm,
                quiet,
                limit.orElse(NightSettings.USUAL_LIMIT),
                sound.orElse(true),
                notices.orElse(true),
                name,
                hours);
    }

    private static Optional<Duration> limit(TomlFields fields, String value) {
        if (value.matches("\\d{1,3}") && Integer.parseInt(value) >= 1 && Integer.parseInt(value) <= LONGEST_LIMIT_S) {
            return Optional.of(Duration.ofSeconds(Integer.parseInt(value)));
        }
        fields.problem(
                "command_limit_s",
                "\"command_limit_s\": found \"" + value + "\", expected whole seconds from 1 to " + LONGEST_LIMIT_S
                        + " in quotes, such as \"30\"");
        return Optional.empty();
    }

    private static QuietHours hours(TomlFields fields) {
        fields.refuseUnknown(List.of("from", "to"), Map.of("begin", "from", "end", "to", "until", "to"), "[quiet]");
        Optional<LocalTime> from = time(fields, "from");
        Optional<LocalTime> to = time(fields, "to");
        return from.isPresent() && to.isPresent() ? new QuietHours(from.get(), to.get()) : QuietHours.NONE;
    }

    private static Optional<LocalTime> time(TomlFields fields, String key) {
        Optional<String> value = fields.text(key, 10);
        if (value.isEmpty() && !fields.has(key)) {
            fields.problem(
                    "quiet hours have a begin and an end: add a line such as " + key + " = \"22:30\" to [quiet]");
        }
        return value.flatMap(text -> {
            Optional<LocalTime> time = time(text);
            if (time.isEmpty()) {
                fields.problem(
                        key, "\"" + key + "\": found \"" + text + "\", expected a time of day such as \"22:30\"");
            }
            return time;
        });
    }

    /** A time of day as {@code 22:30} or {@code 7:00}; empty when the text is none. */
    public static Optional<LocalTime> time(String text) {
        try {
            return Optional.of(LocalTime.parse(text.matches("\\d:\\d\\d") ? "0" + text : text));
        } catch (DateTimeParseException e) {
            return Optional.empty();
        }
    }
}

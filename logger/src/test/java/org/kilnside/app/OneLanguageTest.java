package org.kilnside.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.command.DemoCommand;
import org.kilnside.command.KilnsideCommand;
import org.kilnside.command.Surroundings;
import org.kilnside.desktop.Settings;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.quantity.Temperature;
import org.kilnside.wording.Language;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.TemperatureUnit;
import org.kilnside.wording.Words;
import picocli.CommandLine;

/** A run that opens a window speaks one language, in the terminal and in the window. */
class OneLanguageTest {
    @TempDir
    private Path home;

    /** A window that is closed at once, and keeps in which language it was opened. */
    private static final class ClosedAtOnce implements Surroundings.Window {
        private final Optional<Language> last;
        private final List<Language> spoken = new ArrayList<>();

        ClosedAtOnce(Optional<Language> last) {
            this.last = last;
        }

        @Override
        public boolean isPossible() {
            return true;
        }

        @Override
        public Optional<Language> lastLanguage() {
            return last;
        }

        @Override
        public boolean show(Surroundings.Desk desk) {
            spoken.add(Language.of(desk.locale()));
            return false;
        }

        @Override
        public Optional<String> ask(String question) {
            return Optional.empty();
        }
    }

    private String demo(ClosedAtOnce window, String... more) {
        List<String> arguments = new ArrayList<>(List.of("demo", "--speed", "3000"));
        arguments.addAll(List.of("--book", home.resolve("demo.book").toString()));
        arguments.addAll(List.of(more));
        StringWriter out = new StringWriter();
        KilnsideCommand.line(Map.of("demo", new DemoCommand(window)))
                .setOut(new PrintWriter(out))
                .setErr(new PrintWriter(out))
                .execute(arguments.toArray(String[]::new));
        return out.toString();
    }

    private final Words spoken = Words.of(Locale.GERMANY, Preferences.of(Locale.GERMANY));

    @Test
    void theLanguageLastChosenInTheWindowIsTheTerminalsToo() {
        ClosedAtOnce window = new ClosedAtOnce(Optional.of(Language.DUTCH));
        assertThat(demo(window)).contains("virtuele oven").doesNotContain("virtual kiln");
        assertThat(window.spoken).containsExactly(Language.DUTCH);
    }

    @Test
    void whatTheCommandLineAsksForGoesBeforeItInBoth() {
        ClosedAtOnce window = new ClosedAtOnce(Optional.of(Language.DUTCH));
        assertThat(demo(window, "--language", "de")).contains("virtuelle").doesNotContain("virtuele oven");
        assertThat(window.spoken).containsExactly(Language.GERMAN);
    }

    @Test
    void aRunInAnotherLanguageForOnceLeavesTheOneThatWasChosen() throws Exception {
        Path file = home.resolve("window.properties");
        Files.writeString(file, "language=DUTCH\ntheme=LIGHT\n");
        WindowSettings settings = new WindowSettings(file, Locale.GERMANY, spoken);
        Settings german = settings.load();
        assertThat(german.language()).isEqualTo(Language.GERMAN);
        settings.save(german.withTheme(Theme.DARK));
        assertThat(WindowSettings.lastLanguage(file)).contains(Language.DUTCH);
        assertThat(new WindowSettings(file, Locale.GERMANY, spoken).load().theme())
                .isEqualTo(Theme.DARK);
    }

    @Test
    void whatTheRunSaysOutsideTheWindowFollowsLanguageAndUnitFromTheWindowsOpeningOn() throws Exception {
        Path file = home.resolve("window.properties");
        Files.writeString(file, "unit=FAHRENHEIT\n");
        WindowSettings settings = new WindowSettings(file, Locale.GERMANY, spoken);
        Settings german = settings.load();
        assertThat(spoken.language()).isEqualTo(Language.GERMAN);
        assertThat(spoken.temperature(Temperature.ofCelsius(1000))).isEqualTo("1832 °F");
        settings.save(german.withLanguage(Language.DUTCH).withUnit(TemperatureUnit.CELSIUS));
        assertThat(spoken.language()).isEqualTo(Language.DUTCH);
        assertThat(spoken.temperature(Temperature.ofCelsius(1000))).isEqualTo("1000 °C");
    }

    @Test
    void aLanguageChosenInTheWindowIsKeptAlsoWhenItIsTheRunsOwnAgain() {
        Path file = home.resolve("window.properties");
        WindowSettings settings = new WindowSettings(file, Locale.GERMANY, spoken);
        Settings german = settings.load();
        settings.save(german);
        assertThat(WindowSettings.lastLanguage(file)).isEmpty();
        settings.save(german.withLanguage(Language.ENGLISH));
        assertThat(WindowSettings.lastLanguage(file)).contains(Language.ENGLISH);
        settings.save(german);
        assertThat(WindowSettings.lastLanguage(file)).contains(Language.GERMAN);
    }

    @Test
    void everyCommandRefusesALanguageItDoesNotSpeakBeforeItLooksAtAnythingElse() {
        List<String> asked = new ArrayList<>();
        for (Map.Entry<String, Object> each : Kilnside.commands().entrySet()) {
            refuse(asked, List.of(each.getKey()));
            new CommandLine(each.getValue())
                    .getSubcommands()
                    .keySet()
                    .forEach(under -> refuse(asked, List.of(each.getKey(), under)));
        }
        assertThat(asked).contains("emf", "cone", "forecast", "plan outlook", "book show", "kiln set");
    }

    private static void refuse(List<String> asked, List<String> command) {
        StringWriter err = new StringWriter();
        CommandLine line = KilnsideCommand.line(Kilnside.commands());
        CommandLine under = line;
        for (String name : command) {
            under = under.getSubcommands().get(name);
        }
        if (under.getCommandSpec().findOption("--language") == null) {
            return;
        }
        asked.add(String.join(" ", command));
        line.setErr(new PrintWriter(err, true));
        List<String> words = new ArrayList<>(command);
        words.addAll(List.of("--language", "fr", "nowhere.csv"));
        assertThat(line.execute(words.toArray(String[]::new))).as("%s", command).isEqualTo(2);
        assertThat(err.toString())
                .startsWith("kilnside: --language knows en, nl and de, found \"fr\": choose one of the three.")
                .hasLineCount(1);
    }
}

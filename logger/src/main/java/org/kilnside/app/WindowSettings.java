package org.kilnside.app;

import java.io.IOException;
import java.io.Reader;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Locale;
import java.util.Optional;
import java.util.Properties;
import org.kilnside.desktop.Settings;
import org.kilnside.desktop.SettingsStore;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.Language;
import org.kilnside.wording.Opening;
import org.kilnside.wording.TemperatureUnit;
import org.kilnside.wording.Words;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The window's settings in a small file a person can read. What it does not know is left as it usually is.
 *
 * <p>The language is the run's, decided before the window opens ({@code Surroundings.locale}); the file keeps the one last
 * chosen in the window, so a run that was asked to speak another for once changes nothing there.
 */
final class WindowSettings implements SettingsStore {
    private static final Logger LOG = LoggerFactory.getLogger(WindowSettings.class);

    private final Path file;
    private final Locale locale;
    private final Words spoken;
    private boolean chosen;

    /**
     * @param locale the language this run begins in, and the country
     * @param spoken the words of this run outside the window, such as what an alarm command is handed: they become the
     *     window's whenever those change
     */
    WindowSettings(Path file, Locale locale, Words spoken) {
        this.file = file;
        this.locale = locale;
        this.spoken = spoken;
    }

    /** The language last chosen in the window; empty when it never was. */
    static Optional<Language> lastLanguage(Path file) {
        return named(read(file), "language", Language.class);
    }

    private static Properties read(Path file) {
        Properties written = new Properties();
        if (Files.exists(file)) {
            try (Reader reader = Files.newBufferedReader(file, StandardCharsets.UTF_8)) {
                written.load(reader);
            } catch (IOException | IllegalArgumentException e) {
                LOG.warn("the window's settings could not be read and are the usual ones", e);
            }
        }
        return written;
    }

    @Override
    public Settings load() {
        Settings usual = Settings.of(locale);
        Properties written = read(file);
        Settings settings = new Settings(
                named(written, "theme", Theme.class).orElse(usual.theme()),
                usual.language(),
                named(written, "unit", TemperatureUnit.class).orElse(usual.unit()),
                named(written, "clock", ClockStyle.class).orElse(usual.clock()),
                named(written, "opening", Opening.class).orElse(usual.opening()),
                Boolean.parseBoolean(written.getProperty("quartz", Boolean.toString(usual.quartz()))),
                textPercent(written).orElse(usual.textPercent()));
        spoken.become(settings.words());
        return settings;
    }

    @Override
    public void save(Settings settings) {
        spoken.become(settings.words());
        Properties written = new Properties();
        written.setProperty("theme", settings.theme().name());
        chosen |= settings.language() != Language.of(locale);
        Optional<Language> language = chosen ? Optional.of(settings.language()) : lastLanguage(file);
        language.ifPresent(its -> written.setProperty("language", its.name()));
        written.setProperty("unit", settings.unit().name());
        written.setProperty("clock", settings.clock().name());
        written.setProperty("opening", settings.opening().name());
        written.setProperty("quartz", Boolean.toString(settings.quartz()));
        written.setProperty("text_percent", Integer.toString(settings.textPercent()));
        try {
            Files.createDirectories(file.toAbsolutePath().getParent());
            Path fresh = file.resolveSibling(file.getFileName() + ".new");
            try (Writer writer = Files.newBufferedWriter(fresh, StandardCharsets.UTF_8)) {
                written.store(writer, "Kilnside: how the window looks");
            }
            Files.move(fresh, file, StandardCopyOption.REPLACE_EXISTING);
        } catch (IOException e) {
            LOG.warn("the window's settings could not be saved", e);
        }
    }

    /** A size that could be read and chosen; anything else is taken as not written. */
    private static Optional<Integer> textPercent(Properties written) {
        String percent = written.getProperty("text_percent", "").strip();
        return percent.matches("[1-9]\\d{2}")
                ? Optional.of(Math.min(300, Integer.parseInt(percent)))
                : Optional.empty();
    }

    private static <T extends Enum<T>> Optional<T> named(Properties written, String key, Class<T> kind) {
        String name = written.getProperty(key, "");
        for (T constant : kind.getEnumConstants()) {
            if (constant.name().equals(name)) {
                return Optional.of(constant);
            }
        }
        return Optional.empty();
    }
}

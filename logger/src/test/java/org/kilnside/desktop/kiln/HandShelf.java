package org.kilnside.desktop.kiln;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.kilnside.files.FileRefusedException;
import org.kilnside.files.KilnFile;
import org.kilnside.files.KilnSetting;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.thermal.ElementStrength;
import org.kilnside.wording.Words;

/** One kiln in a folder of its own, by the files' own rules. */
public final class HandShelf implements KilnShelf {
    private final ProfileLibrary library;

    public HandShelf() {
        try {
            Path folder = Files.createTempDirectory("kilns");
            folder.toFile().deleteOnExit();
            library = ProfileLibrary.of(folder);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    HandShelf(Path folder) {
        library = ProfileLibrary.of(folder);
    }

    @Override
    public List<String> kilns() {
        return List.of("Tall Drum");
    }

    @Override
    public Page open(String kiln, Words words) {
        return page(library.kilnFile(kiln));
    }

    @Override
    public Page set(String kiln, KilnSetting setting, Optional<String> value, Words words) {
        try {
            KilnFile after = library.kilnFile(kiln).with(setting, value);
            after.write();
            return page(after);
        } catch (FileRefusedException e) {
            throw new RefusedException(e.getMessage(), e);
        }
    }

    /** Elements that have aged over eight firings, of which three tell their output. */
    @Override
    public Optional<Elements> elements(Page page) {
        return Optional.of(new Elements(
                new ElementStrength(List.of(
                        new ElementStrength.Strength(0, 1, 1, 1),
                        new ElementStrength.Strength(3, 0.96, 0.93, 0.99),
                        new ElementStrength.Strength(7, 0.91, 0.88, 0.94))),
                List.of(7L, 8L, 9L, 10L, 11L, 12L, 13L, 14L)));
    }

    private static Page page(KilnFile file) {
        return new Page(
                file.kiln(),
                "/home/potter/.config/kilnside/kilns/" + file.path().getFileName());
    }
}

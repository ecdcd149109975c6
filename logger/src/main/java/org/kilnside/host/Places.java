package org.kilnside.host;

import java.nio.file.Path;
import net.harawata.appdirs.AppDirs;
import net.harawata.appdirs.AppDirsFactory;

/** Where this system keeps a program's files, by its own convention. */
public final class Places {
    private Places() {}

    /** The firing book, unless the person names another: on Linux {@code ~/.local/share/kilnside/firings.book}. */
    public static Path book() {
        return Path.of(dirs().getUserDataDir("kilnside", null, null)).resolve("firings.book");
    }

    /** The person's own plans, kilns and line patterns: on Linux {@code ~/.config/kilnside}. */
    public static Path settings() {
        return Path.of(dirs().getUserConfigDir("kilnside", null, null));
    }

    private static AppDirs dirs() {
        return AppDirsFactory.getInstance();
    }
}

package org.kilnside.files;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.kilnside.files.FileRefusedException.Problem;

/** Pages to print, as files. */
public final class PageFile {
    private PageFile() {}

    /**
     * Writes a page into a folder that is made where it is missing.
     *
     * @return where it is
     * @throws FileRefusedException when it cannot be written
     */
    public static Path write(Path folder, String name, String text) {
        try {
            Files.createDirectories(folder);
        } catch (IOException e) {
            throw new FileRefusedException(Problem.of(
                    folder.toString(), "this folder cannot be made (" + e.getMessage() + "); check its permissions"));
        }
        Path path = folder.resolve(name);
        TextFile.write(path, text);
        return path;
    }
}

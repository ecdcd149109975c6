package org.kilnside.link.share;

import java.io.IOException;
import java.io.Reader;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Properties;

/** A small file only its owner may read. It is written beside its place first, so that it is always whole. */
final class PrivateFile {
    private PrivateFile() {}

    static Properties read(Path file) throws IOException {
        Properties properties = new Properties();
        try (Reader reader = Files.newBufferedReader(file, StandardCharsets.UTF_8)) {
            properties.load(reader);
        } catch (IllegalArgumentException e) {
            throw new IOException("it is no such file of Kilnside's", e);
        }
        return properties;
    }

    static void write(Path file, Properties properties, String heading) throws IOException {
        Path folder = file.toAbsolutePath().getParent();
        Files.createDirectories(folder);
        boolean posix = FileSystems.getDefault().supportedFileAttributeViews().contains("posix");
        FileAttribute<?>[] ownersOnly = posix
                ? new FileAttribute<?>[] {
                    PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------"))
                }
                : new FileAttribute<?>[0];
        Path fresh = Files.createTempFile(folder, file.getFileName().toString(), ".new", ownersOnly);
        try {
            try (Writer writer = Files.newBufferedWriter(fresh, StandardCharsets.UTF_8)) {
                properties.store(writer, heading);
            }
            Files.move(fresh, file, StandardCopyOption.REPLACE_EXISTING);
        } finally {
            Files.deleteIfExists(fresh);
        }
    }
}

package org.kilnside.testing;

import static org.junit.jupiter.api.Assertions.fail;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import org.opentest4j.TestAbortedException;

/**
 * The programs a test needs beside the JDK. One that is missing fails the test in CI; elsewhere the test is aborted
 * and written down, so that {@code bin/verify} can say how many were not run.
 */
public final class Tools {
    private static final Path NOT_RUN = Path.of("target", "not-run.txt");

    private Tools() {}

    /** The path of a program, or the end of this test. */
    public static Path require(String program) {
        for (String folder : System.getenv("PATH").split(":", -1)) {
            Path candidate = Path.of(folder, program);
            if (Files.isExecutable(candidate)) {
                return candidate;
            }
        }
        return missing(program);
    }

    /** The file where a package puts it, or the end of this test. */
    public static Path requireFile(String path) {
        return Files.exists(Path.of(path)) ? Path.of(path) : missing(path);
    }

    private static Path missing(String what) {
        if (System.getenv("CI") != null) {
            return fail(what + " is not installed: run logger/bin/verify --install");
        }
        try {
            Files.createDirectories(NOT_RUN.getParent());
            Files.writeString(
                    NOT_RUN,
                    what + System.lineSeparator(),
                    StandardCharsets.UTF_8,
                    StandardOpenOption.CREATE,
                    StandardOpenOption.APPEND);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        throw new TestAbortedException("NOT RUN: " + what + " is not installed");
    }
}

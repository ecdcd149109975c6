package org.kilnside.host;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.stream.Stream;

/** What this computer is called, to tell it from the others of the house. Asks no network. */
public final class ComputerName {
    private static final int LONGEST = 40;

    private ComputerName() {}

    /** The system's own name for it; {@code another computer} where it has none. */
    public static String ofThisComputer() {
        return Stream.of(
                        Optional.ofNullable(System.getenv("COMPUTERNAME")),
                        Optional.ofNullable(System.getenv("HOSTNAME")),
                        read(Path.of("/etc/hostname")))
                .flatMap(Optional::stream)
                .map(ComputerName::tidy)
                .filter(name -> !name.isEmpty())
                .findFirst()
                .orElse("another computer");
    }

    /** A name as a person or another computer gives it, in one line of what can be printed, not too long. */
    public static String tidy(String name) {
        String plain = name.replaceAll("[\\s\\p{Cntrl}\\p{Zl}\\p{Zp}]+", " ").strip();
        int end = plain.offsetByCodePoints(0, Math.min(LONGEST, plain.codePointCount(0, plain.length())));
        return plain.substring(0, end).strip();
    }

    private static Optional<String> read(Path file) {
        try {
            return Optional.of(Files.readString(file, StandardCharsets.UTF_8));
        } catch (IOException e) {
            // Not a system that keeps it there.
            return Optional.empty();
        }
    }
}

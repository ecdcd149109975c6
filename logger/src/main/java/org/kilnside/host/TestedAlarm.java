package org.kilnside.host;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** When this computer's alarm was last tested and heard, in a small file of the person's settings. */
public final class TestedAlarm {
    private static final Logger LOG = LoggerFactory.getLogger(TestedAlarm.class);

    private final Path file;

    public TestedAlarm(Path settings) {
        file = settings.resolve("alarm-tested.txt");
    }

    /** Empty when it never was, or nothing can be read. */
    public Optional<Instant> last() {
        try {
            return Optional.of(
                    Instant.parse(Files.readString(file, StandardCharsets.UTF_8).strip()));
        } catch (IOException | DateTimeException e) {
            return Optional.empty();
        }
    }

    /** A person heard it, now. */
    public void heard(Instant now) {
        try {
            Files.createDirectories(file.toAbsolutePath().getParent());
            Files.writeString(file, now + "\n", StandardCharsets.UTF_8);
        } catch (IOException e) {
            LOG.warn("that the alarm was heard could not be kept", e);
        }
    }
}

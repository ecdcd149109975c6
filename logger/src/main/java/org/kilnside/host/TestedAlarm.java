package org.kilnside.host;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * When the alarm was last tested and heard, here and on which other computers, in a small file of the person's settings:
 * a line each, the moment and then the computer's name; without one it was here.
 */
public final class TestedAlarm {
    private static final Logger LOG = LoggerFactory.getLogger(TestedAlarm.class);

    /** More than a house has; the one heard longest ago is forgotten. */
    private static final int MOST_COMPUTERS = 8;

    private static final String HERE = "";

    private final Path file;

    public TestedAlarm(Path settings) {
        file = settings.resolve("alarm-tested.txt");
    }

    /** When it was last heard here; empty when it never was, or nothing can be read. */
    public synchronized Optional<Instant> last() {
        return Optional.ofNullable(read().get(HERE));
    }

    /** When it was last heard elsewhere, by computer, the one heard last at the end. */
    public synchronized Map<String, Instant> elsewhere() {
        Map<String, Instant> heard = read();
        heard.remove(HERE);
        return heard;
    }

    /** A person heard it here, now. */
    public void heard(Instant now) {
        heard(now, HERE);
    }

    /** A person heard it on a computer of this name, now. */
    public synchronized void heard(Instant now, String computer) {
        Map<String, Instant> heard = read();
        heard.remove(computer);
        heard.put(computer, now);
        while (heard.size() > MOST_COMPUTERS) {
            heard.remove(heard.keySet().iterator().next());
        }
        StringBuilder text = new StringBuilder();
        heard.forEach((name, at) ->
                text.append(at).append(name.isEmpty() ? "" : " " + name).append('\n'));
        try {
            Files.createDirectories(file.toAbsolutePath().getParent());
            Files.writeString(file, text, StandardCharsets.UTF_8);
        } catch (IOException e) {
            LOG.warn("that the alarm was heard could not be kept", e);
        }
    }

    private Map<String, Instant> read() {
        Map<String, Instant> heard = new LinkedHashMap<>();
        try {
            for (String line : Files.readAllLines(file, StandardCharsets.UTF_8)) {
                String[] parts = line.strip().split(" ", 2);
                if (!parts[0].isEmpty()) {
                    heard.put(parts.length > 1 ? parts[1] : HERE, Instant.parse(parts[0]));
                }
            }
        } catch (NoSuchFileException e) {
            LOG.debug("never tested here", e);
        } catch (IOException | DateTimeException e) {
            LOG.warn("when the alarm was heard cannot be read", e);
        }
        return heard;
    }
}

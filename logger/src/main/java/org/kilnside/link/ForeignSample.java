package org.kilnside.link;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/** The first lines of a stream in which no good line has come, kept for a proposal. Bounded; safe from any thread. */
final class ForeignSample {
    private static final int MOST_LINES = 60;
    private static final int LONGEST_LINE = 500;
    private static final double SHORTEST_INTERVAL_MS = 20;

    private final List<String> lines = new ArrayList<>();
    private final StringBuilder begun = new StringBuilder();
    private boolean joined;
    private long firstAtMs;
    private long lastAtMs;

    synchronized void take(byte[] buffer, int length, long hostMs) {
        String text = new String(buffer, 0, length, StandardCharsets.ISO_8859_1);
        for (int i = 0; i < length && lines.size() < MOST_LINES; i++) {
            char c = text.charAt(i);
            if (c == '\n' || c == '\r') {
                end(hostMs);
            } else if (begun.length() < LONGEST_LINE) {
                begun.append(c);
            }
        }
    }

    synchronized void forget() {
        lines.clear();
        begun.setLength(0);
        joined = false;
    }

    /** How these lines could be read; empty while there are too few. */
    synchronized Optional<LinePatternProposal> proposal() {
        if (lines.size() < LinePatternProposal.FEWEST_LINES) {
            return Optional.empty();
        }
        double interval = (double) (lastAtMs - firstAtMs) / (lines.size() - 1);
        return Optional.of(LinePatternProposal.of(
                lines, interval >= SHORTEST_INTERVAL_MS ? OptionalDouble.of(interval) : OptionalDouble.empty()));
    }

    private void end(long hostMs) {
        String line = begun.toString();
        begun.setLength(0);
        if (line.isBlank()) {
            return;
        }
        if (!joined) {
            // The first is half a line more often than not.
            joined = true;
            return;
        }
        if (lines.isEmpty()) {
            firstAtMs = hostMs;
        }
        lastAtMs = hostMs;
        // The degree sign of an older code page reads as one here; of UTF-8 it leaves a stray character before it.
        lines.add(line.replace("Â°", "°"));
    }
}

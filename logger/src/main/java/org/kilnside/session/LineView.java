package org.kilnside.session;

import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * What came over the wire, line by line, for a person who looks for what is wrong with it. Bounded: only the last lines
 * are here, while the counts are of all since the link was opened.
 *
 * @param lines the last lines, oldest first; at most {@link #MOST_LINES}
 * @param counts how many lines met each verdict; none is left out but those of which there were none
 */
public record LineView(List<Line> lines, Map<Verdict, Long> counts) {
    /** How many lines are remembered. */
    public static final int MOST_LINES = 200;

    /** How much of a line is remembered, bytes. */
    public static final int LONGEST_SHOWN = 240;

    public static final LineView NONE = new LineView(List.of(), Map.of());

    public LineView {
        lines = List.copyOf(lines);
        counts = counts.isEmpty() ? Map.of() : Collections.unmodifiableMap(new EnumMap<>(counts));
    }

    /** How many lines met a verdict. */
    public long count(Verdict verdict) {
        return counts.getOrDefault(verdict, 0L);
    }

    /** How many lines met a verdict of this sort. */
    public long count(Sort sort) {
        return counts.entrySet().stream()
                .filter(entry -> entry.getKey().sort() == sort)
                .mapToLong(Map.Entry::getValue)
                .sum();
    }

    /**
     * One line as it came.
     *
     * @param number counts all lines of the link, from 1
     * @param hostMs when it was received, on the host's monotonic clock, ms
     * @param text the line without its end; a byte that is no readable character stands as {@code \x1B}
     * @param cut whether the line was longer than what is shown
     * @param verdict what became of it
     */
    public record Line(long number, long hostMs, String text, boolean cut, Verdict verdict) {}

    /** What a line is good for. */
    public enum Sort {
        /** It gave a reading. */
        READING,
        /** In order, but no reading, or not one this program can take. */
        OTHER,
        /** Not in order; left out. */
        SPOILT
    }

    /** What became of a line. */
    public enum Verdict {
        READING(Sort.READING),
        /** A reading from before a gap, which the controller had kept. */
        KEPT_READING(Sort.READING),
        /** A reading beside which fields stood that this program does not know; they were left out. */
        READING_WITH_UNKNOWN_FIELDS(Sort.READING),
        /** A reading with a number its amplifier cannot give; that number was taken as not said. */
        READING_WITH_IMPOSSIBLE_CODE(Sort.READING),
        /** The controller says who it is. */
        HELLO(Sort.OTHER),
        /** The controller has sent all it kept. */
        END_OF_KEPT(Sort.OTHER),
        /** Of a kind this program does not know. */
        UNKNOWN_KIND(Sort.OTHER),
        /** From a controller that speaks a later version of the protocol. */
        LATER_VERSION(Sort.OTHER),
        /** The same line had come before. */
        REPEATED(Sort.OTHER),
        /** The first after the link was opened, most likely half a line. */
        HALF(Sort.OTHER),
        TOO_LONG(Sort.SPOILT),
        /** A byte that no line can have. */
        STRANGE_BYTE(Sort.SPOILT),
        CHECKSUM_MISSING(Sort.SPOILT),
        CHECKSUM_WRONG(Sort.SPOILT),
        BAD_KIND(Sort.SPOILT),
        BAD_SEQUENCE(Sort.SPOILT),
        BAD_UPTIME(Sort.SPOILT),
        BAD_FIELD(Sort.SPOILT),
        DOUBLED_FIELD(Sort.SPOILT),
        OUT_OF_RANGE(Sort.SPOILT),
        MISSING_FIELD(Sort.SPOILT),
        /** Not what the line pattern expects of this controller. */
        NOT_THE_PATTERN(Sort.SPOILT);

        private final Sort sort;

        Verdict(Sort sort) {
            this.sort = sort;
        }

        public Sort sort() {
            return sort;
        }
    }
}

package org.kilnside.firing;

import java.util.Optional;

/** Which kind of cone: how it is made and stands. Each has its own table of temperatures. */
public enum ConeSeries {
    /** With a foot of its own. */
    SELF_SUPPORTING("self-supporting"),
    /** Set in a plaque or a wad of clay, two inches of it standing out. */
    LARGE("large"),
    /** The half-sized ones of a kiln sitter, fired fast. */
    SMALL("small");

    /** What is meant where nobody says otherwise. */
    public static final ConeSeries USUAL = SELF_SUPPORTING;

    private final String word;

    ConeSeries(String word) {
        this.word = word;
    }

    /** The word for it on the command line and in files. */
    public String word() {
        return word;
    }

    /** The series of a word; empty when it is none. */
    public static Optional<ConeSeries> ofWord(String word) {
        for (ConeSeries series : values()) {
            if (series.word.equalsIgnoreCase(word.strip().replace('_', '-'))) {
                return Optional.of(series);
            }
        }
        return Optional.empty();
    }
}

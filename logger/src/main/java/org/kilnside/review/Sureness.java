package org.kilnside.review;

/** How sure a cause is, in words that were counted on simulated firings: see docs/validation.md. */
public enum Sureness {
    /** At least nine in ten. */
    VERY_LIKELY("very likely"),
    /** At least six in ten. */
    LIKELY("likely"),
    /** Less than that, but worth a look. */
    POSSIBLE("possible");

    private final String word;

    Sureness(String word) {
        this.word = word;
    }

    /** As it stands in JSON, whatever the language of the texts beside it. */
    public String word() {
        return word;
    }

    Sureness less() {
        return this == VERY_LIKELY ? LIKELY : POSSIBLE;
    }
}

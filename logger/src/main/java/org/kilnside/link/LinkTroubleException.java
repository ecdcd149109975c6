package org.kilnside.link;

/** A link could not be opened, or broke. The message is one sentence for a person. */
final class LinkTroubleException extends Exception {
    private static final long serialVersionUID = 1L;

    private final boolean hopeless;

    private LinkTroubleException(String sentence, boolean hopeless) {
        super(sentence);
        this.hopeless = hopeless;
    }

    /** Trouble that may pass by itself, such as a cable that is out. */
    static LinkTroubleException passing(String sentence) {
        return new LinkTroubleException(sentence, false);
    }

    /** Trouble that stays until a person acts, such as a missing permission. */
    static LinkTroubleException hopeless(String sentence) {
        return new LinkTroubleException(sentence, true);
    }

    /** Whether trying again is of no use until a person acts. */
    boolean isHopeless() {
        return hopeless;
    }
}

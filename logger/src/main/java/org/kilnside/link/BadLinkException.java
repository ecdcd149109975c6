package org.kilnside.link;

/** A link that cannot be understood or used as written. The message is one sentence for the person who wrote it. */
public final class BadLinkException extends IllegalArgumentException {
    private static final long serialVersionUID = 1L;

    public BadLinkException(String sentence) {
        super(sentence);
    }
}

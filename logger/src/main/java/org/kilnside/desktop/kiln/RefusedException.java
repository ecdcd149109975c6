package org.kilnside.desktop.kiln;

/** The world cannot do what was asked; the message is one sentence for the person, with what to do next. */
public final class RefusedException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    public RefusedException(String sentence, Throwable cause) {
        super(sentence, cause);
    }
}

package org.kilnside.host;

/** A file that cannot be taken as a photo. The message is one clear sentence: what, where, and what to do next. */
public final class PhotoRefusedException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    PhotoRefusedException(String message) {
        super(message);
    }

    PhotoRefusedException(String message, Throwable cause) {
        super(message, cause);
    }
}

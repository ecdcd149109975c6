package org.kilnside.book;

/** The book cannot do what was asked. The message is one clear sentence: what, where, and what to do next. */
public final class BookException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    /** What sort of trouble it is. */
    public enum Reason {
        /** There is no book at the path. */
        MISSING,
        /** The file is a sound one, but no firing book. */
        NOT_A_BOOK,
        /** The file is damaged, or was cut short. */
        DAMAGED,
        /** A later Kilnside has written it. */
        NEWER,
        /** It may be read but not written. */
        READ_ONLY,
        /** Another process records into it. */
        IN_USE,
        /** The disk is full. */
        DISK_FULL,
        /** What was asked for is not in the book. */
        NO_SUCH_FIRING,
        /** Another program has changed meanwhile what was to be changed. */
        CHANGED,
        /** The disk or the system refuses for another reason. */
        UNUSABLE
    }

    private final Reason reason;

    public BookException(Reason reason, String message) {
        super(message);
        this.reason = reason;
    }

    public BookException(Reason reason, String message, Throwable cause) {
        super(message, cause);
        this.reason = reason;
    }

    public Reason reason() {
        return reason;
    }
}

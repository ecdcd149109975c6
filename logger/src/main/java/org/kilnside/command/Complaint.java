package org.kilnside.command;

/**
 * Something a person has to put right: one clear sentence that says what, where, what was found against what was
 * expected, and what to do next. Ends the command with its exit code; no stack trace is ever shown for it.
 */
public final class Complaint extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final ExitCode exitCode;

    public Complaint(ExitCode exitCode, String sentence) {
        super(sentence);
        this.exitCode = exitCode;
    }

    public ExitCode exitCode() {
        return exitCode;
    }

    /** How a command ends. */
    public enum ExitCode {
        /** Done as asked. */
        DONE(0),
        /** The program failed in a way its makers did not foresee. */
        FAILED(1),
        /** The words of the command line are off. */
        USAGE(2),
        /** An input (file, port, book) cannot be used as it is. */
        INPUT(3),
        /** Nothing was found to answer with. */
        NOTHING(4);

        private final int code;

        ExitCode(int code) {
            this.code = code;
        }

        public int code() {
            return code;
        }
    }
}

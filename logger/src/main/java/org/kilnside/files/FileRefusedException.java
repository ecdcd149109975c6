package org.kilnside.files;

import java.util.List;

/**
 * A file that cannot be taken as what it should be. The message is one plain sentence for the person: where, what,
 * found against expected, and what to do.
 */
public final class FileRefusedException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final transient List<Problem> problems;

    /** A file refused for several reasons, in the order in which they stand in it; at least one. */
    public FileRefusedException(List<Problem> problems) {
        super(message(problems));
        this.problems = List.copyOf(problems);
    }

    /** A file refused for one reason. */
    public FileRefusedException(Problem problem) {
        this(List.of(problem));
    }

    /** Every problem found, in the order in which they stand in the file. */
    public List<Problem> problems() {
        return problems;
    }

    /**
     * One thing wrong with a file.
     *
     * @param file the file as the person named it
     * @param line the line, counted from 1; 0 when the whole file is meant
     * @param column the column, counted from 1; 0 when the whole line is meant
     * @param sentence what, found, expected and what to do; without the place
     */
    public record Problem(String file, int line, int column, String sentence) {
        /** A problem of the whole file. */
        public static Problem of(String file, String sentence) {
            return new Problem(file, 0, 0, sentence);
        }

        @Override
        public String toString() {
            String place = line == 0 ? file : column == 0 ? file + ":" + line : file + ":" + line + ":" + column;
            return place + ": " + sentence;
        }
    }

    private static String message(List<Problem> problems) {
        String first = problems.get(0).toString();
        return switch (problems.size()) {
            case 1 -> first;
            case 2 -> first + " (and one more problem in this file)";
            default -> first + " (and " + (problems.size() - 1) + " more problems in this file)";
        };
    }
}

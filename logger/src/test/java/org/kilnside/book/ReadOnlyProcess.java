package org.kilnside.book;

import java.nio.file.Path;

/** Tries what may be done with a book it may only read. Argument: the book. */
final class ReadOnlyProcess {
    private ReadOnlyProcess() {}

    public static void main(String[] arguments) {
        Path path = Path.of(arguments[0]);
        attempt("record", () -> BookRecorder.open(path).close());
        attempt("read", () -> {
            try (Book book = Book.open(path)) {
                System.out.println("caution " + book.caution().orElse("none"));
                System.out.println("firings " + book.firings().size());
                System.out.println("readings " + book.firing(1).curve().size());
                attempt("note", () -> book.addNote(1, 0, "?"));
            }
        });
        attempt(
                "check",
                () -> System.out.println("findings " + BookCheck.of(path).findings()));
    }

    private static void attempt(String word, Runnable call) {
        try {
            call.run();
            System.out.println(word + " done");
        } catch (BookException e) {
            System.out.println(word + " " + e.reason() + " " + e.getMessage());
        }
    }
}

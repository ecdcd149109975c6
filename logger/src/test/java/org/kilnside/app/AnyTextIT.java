package org.kilnside.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.book.BookCheck;
import org.kilnside.book.RookLaneBook;
import org.kilnside.desktop.VirtualScreen;

/** Any text in any field of the real window, on a real book and real files. */
class AnyTextIT {
    @TempDir
    private Path folder;

    @Test
    void anyTextInAnyFieldIsTakenOrRefusedAndNothingElse() throws Exception {
        Path book = folder.resolve("rook-lane.book");
        RookLaneBook.write(book, 4, 60_000);
        try (VirtualScreen screen = VirtualScreen.start(1400, 900)) {
            Process walk = screen.java(List.of(), AnyTextWalk.class, List.of(book.toString()));
            String said = new String(walk.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            assertThat(walk.waitFor(60, TimeUnit.SECONDS)).isTrue();
            assertThat(walk.exitValue()).as(said).isZero();
            assertThat(said).doesNotContain("Exception").doesNotContain("\tat ");
        }
        assertThat(BookCheck.of(book).findings()).isEmpty();
    }
}

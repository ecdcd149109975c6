package org.kilnside;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/**
 * docs/validation.md: its tables are made by tests. A table stands between {@code <!-- begin NAME -->} and
 * {@code <!-- end NAME -->}; run with -Dkilnside.write=true it is written anew, else compared.
 */
public final class ValidationPage {
    private static final Path PAGE = Path.of("..", "docs", "validation.md");

    private ValidationPage() {}

    /** Checks, or writes, one table of the page. */
    public static void holds(String name, List<String> lines) {
        try {
            String page = Files.readString(PAGE);
            String begin = "<!-- begin " + name + " -->\n";
            String end = "<!-- end " + name + " -->";
            int from = page.indexOf(begin) + begin.length();
            int to = page.indexOf(end);
            assertThat(page).contains(begin, end);
            String made = String.join("\n", lines) + "\n";
            if (Boolean.getBoolean("kilnside.write")) {
                Files.writeString(PAGE, page.substring(0, from) + made + page.substring(to));
            } else {
                assertThat(page.substring(from, to))
                        .as("table \"%s\" of docs/validation.md; write it anew with -Dkilnside.write=true", name)
                        .isEqualTo(made);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}

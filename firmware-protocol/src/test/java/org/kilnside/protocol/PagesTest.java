package org.kilnside.protocol;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The pages beside the code: what they show must be true of it. */
class PagesTest {
    private static final Pattern LINK = Pattern.compile("\\]\\(([^)#:]+)(#[^)]*)?\\)");
    private static final Pattern LINE = Pattern.compile("(?m)(?:^|`)([HRKE] \\d[^`\\n]*~[0-9A-F]{4})(?:$|`)");

    static List<Path> pages() throws IOException {
        try (Stream<Path> files = Files.walk(Path.of(""))) {
            return files.filter(file -> file.toString().endsWith(".md"))
                    .filter(file -> !file.startsWith("target"))
                    .sorted()
                    .toList();
        }
    }

    @ParameterizedTest
    @MethodSource("pages")
    void everyLinkLeadsSomewhere(Path page) throws IOException {
        Matcher link = LINK.matcher(Files.readString(page));
        while (link.find()) {
            assertThat(page.resolveSibling(link.group(1)))
                    .as("linked from %s", page)
                    .exists();
        }
    }

    @ParameterizedTest
    @MethodSource("pages")
    void everyLineShownIsAGoodLine(Path page) throws IOException {
        Matcher line = LINE.matcher(Files.readString(page));
        while (line.find()) {
            byte[] bytes = line.group(1).getBytes(StandardCharsets.US_ASCII);
            assertThat(new LineDecoder().decode(bytes, 0, bytes.length))
                    .as("%s in %s", line.group(1), page)
                    .isEqualTo(Verdict.GOOD);
        }
    }
}

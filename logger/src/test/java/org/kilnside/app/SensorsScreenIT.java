package org.kilnside.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.desktop.VirtualScreen;

/** The kiln's sensors in the real window, on a real book. */
class SensorsScreenIT {
    @TempDir
    private Path folder;

    @Test
    void aSensorIsFittedComparedMovedStruckOutAndUndoneByKeyboardAlone() throws Exception {
        try (VirtualScreen screen = VirtualScreen.start(1280, 800)) {
            Process walk = screen.java(
                    List.of(),
                    SensorsWalk.class,
                    List.of(folder.resolve("firings.book").toString()));
            String said = new String(walk.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            assertThat(walk.waitFor(60, TimeUnit.SECONDS)).isTrue();
            assertThat(walk.exitValue()).as(said).isZero();
            assertThat(said.lines().filter(line -> line.startsWith("held: "))).hasSizeGreaterThan(15);
        }
    }
}

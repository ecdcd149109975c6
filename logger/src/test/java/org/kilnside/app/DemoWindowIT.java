package org.kilnside.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.desktop.VirtualScreen;

/** A whole firing in the real window, sped up. */
class DemoWindowIT {
    @TempDir
    private Path folder;

    @Test
    void aFiringIsFollowedToItsEndItsAlarmAcknowledgedAndItsReviewRead() throws Exception {
        try (VirtualScreen screen = VirtualScreen.start(1280, 800)) {
            Process walk = screen.java(
                    Map.of("XDG_CONFIG_HOME", folder.resolve("settings").toString()),
                    List.of("-Duser.timezone=Europe/Amsterdam"),
                    DemoWalk.class,
                    List.of(folder.resolve("firings.book").toString()));
            String said = new String(walk.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            assertThat(walk.waitFor(60, TimeUnit.SECONDS)).isTrue();
            assertThat(walk.exitValue()).as(said).isZero();
            assertThat(said.lines().filter(line -> line.startsWith("held: "))).hasSize(10);
        }
    }
}

package org.kilnside.desktop;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;

/** The real window on a virtual screen with a window manager, by keyboard alone; the steps are in {@link WindowWalk}. */
class WindowIT {
    @Test
    void allOfTheWindowIsReachedByKeyboardAndNothingMakesItWait() throws Exception {
        try (VirtualScreen screen = VirtualScreen.start(1280, 800)) {
            Process walk = screen.java(
                    List.of("-Duser.timezone=Europe/Amsterdam", "-Duser.language=en"), WindowWalk.class, List.of());
            String said = new String(walk.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            assertThat(walk.waitFor(30, TimeUnit.SECONDS)).isTrue();
            assertThat(walk.exitValue()).as(said).isZero();
            assertThat(said.lines().filter(line -> line.startsWith("held: "))).hasSizeGreaterThan(20);
            System.out.println(said.lines()
                    .filter(line -> line.startsWith("window after"))
                    .findFirst()
                    .orElseThrow());
        }
    }

    @Test
    void aWindowWhoseScreenIsGoneComesBackToTheOneThatIsLeft() throws Exception {
        try (VirtualScreen screen = VirtualScreen.bare(1280, 800)) {
            Process walk = screen.java(List.of(), LostScreenWalk.class, List.of());
            String said = new String(walk.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            assertThat(walk.waitFor(30, TimeUnit.SECONDS)).isTrue();
            assertThat(walk.exitValue()).as(said).isZero();
            assertThat(said.lines().filter(line -> line.startsWith("held: "))).hasSize(4);
        }
    }
}

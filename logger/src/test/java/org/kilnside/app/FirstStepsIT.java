package org.kilnside.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.book.Book;
import org.kilnside.desktop.VirtualScreen;
import org.kilnside.link.PtyPair;
import org.kilnside.testing.SimulatedBoard;

/**
 * From no kiln yet to the first reading, in the real window by keyboard alone: the real firmware on a simulated board, a
 * controller with lines of its own, the virtual kiln. Each walk has to be through within the two minutes.
 */
class FirstStepsIT {
    private static final int TWO_MINUTES_S = 120;

    @TempDir
    private Path folder;

    @Test
    void fromNoKilnYetToTheFirstReadingOfARealBoardAndWithOneKeyTheNextDay() throws Exception {
        Path port = folder.resolve("ttykiln");
        try (SimulatedBoard board = SimulatedBoard.with().link(port).start();
                VirtualScreen screen = VirtualScreen.start(1280, 800)) {
            board.temperature(19, 20);
            walk(screen, "controller", port.toString());
            try (Book book = Book.open(folder.resolve("firings.book"))) {
                assertThat(book.firing(1).start().kiln()).contains("Tall Drum");
                assertThat(book.firing(1).curve().size()).isPositive();
            }
            assertThat(Files.readString(folder.resolve("settings/kilnside/ports.toml")))
                    .contains("goes on");
            assertThat(Files.readString(folder.resolve("settings/kilnside/last-recording.toml")))
                    .contains(port.toString())
                    .contains("bisque");
            walk(screen, "again");
            assertThat(board.restarts("dtr") + board.restarts("pin")).isZero();
        }
    }

    @Test
    void aControllerWithLinesOfItsOwnIsReadAfterOneLookAtTheProposal() throws Exception {
        Path port = folder.resolve("ttyown");
        try (PtyPair cable = new PtyPair(port);
                VirtualScreen screen = VirtualScreen.start(1280, 800)) {
            Thread controller = new Thread(() -> speak(cable));
            controller.setDaemon(true);
            controller.start();
            walk(screen, "foreign", port.toString());
            assertThat(Files.readString(folder.resolve("settings/kilnside/line-patterns/my-controller.toml")))
                    .contains("[temperature]")
                    .contains("at = \"1\"");
            controller.interrupt();
        }
    }

    @Test
    void theVirtualKilnIsOneKeyAwayAndGoesIntoABookOfItsOwn() throws Exception {
        try (VirtualScreen screen = VirtualScreen.start(1280, 800)) {
            walk(screen, "virtual");
            assertThat(folder.resolve("demo.book")).exists();
            assertThat(folder.resolve("firings.book")).doesNotExist();
        }
    }

    /** A made-up controller: temperature, set-point, power, and the seconds since its start, once a second. */
    private static void speak(PtyPair cable) {
        try {
            for (int second = 100; !Thread.currentThread().isInterrupted(); second++) {
                String line = String.format(
                        Locale.ROOT, "%.1f;650;%d;%d%n", 20.5 + second * 0.005, (second * 7) % 3 * 50, second);
                cable.says(line.getBytes(StandardCharsets.US_ASCII));
                TimeUnit.SECONDS.sleep(1);
            }
        } catch (IOException | InterruptedException e) {
            // The cable was pulled: the test is over.
            Thread.currentThread().interrupt();
        }
    }

    private void walk(VirtualScreen screen, String which, String... port) throws Exception {
        List<String> arguments =
                new ArrayList<>(List.of(which, folder.resolve("firings.book").toString()));
        arguments.addAll(List.of(port));
        Process walk = screen.java(
                Map.of("XDG_CONFIG_HOME", folder.resolve("settings").toString()),
                List.of("-Duser.timezone=Europe/Amsterdam"),
                FirstStepsWalk.class,
                arguments);
        Thread guard = new Thread(() -> endAfterTwoMinutes(walk));
        guard.setDaemon(true);
        guard.start();
        String said = new String(walk.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(walk.waitFor()).as(said).isZero();
        assertThat(said).contains("first reading after ");
        System.out.println(which + ": "
                + said.lines()
                        .filter(line -> line.startsWith("first reading"))
                        .findFirst()
                        .orElseThrow());
    }

    private static void endAfterTwoMinutes(Process walk) {
        try {
            if (!walk.waitFor(TWO_MINUTES_S, TimeUnit.SECONDS)) {
                walk.destroyForcibly();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}

package org.kilnside.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.book.Book;
import org.kilnside.command.Program;
import org.kilnside.firing.FiringEvent;
import org.kilnside.testing.SimulatedBoard;

/**
 * Two computers, played by two processes with settings of their own and the network between them: whatever happens to the
 * first, the second rings within two minutes. Three nights at once, as each takes that long.
 */
class NightIT {
    private static final long TWO_MINUTES_NS = 120_000_000_000L;

    private final List<Process> processes = new ArrayList<>();

    @TempDir
    private Path folder;

    @AfterEach
    void endAll() throws IOException {
        for (Process process : processes) {
            signal(process, "CONT");
            process.destroyForcibly();
        }
    }

    /** A recorder and the copy that follows it. */
    private final class House {
        private final Path place;
        private final int port;
        private final Path bell;
        private Process recorder;

        House(String name) throws IOException {
            place = Files.createDirectories(folder.resolve(name));
            bell = place.resolve("bell");
            try (ServerSocket free = new ServerSocket(0)) {
                port = free.getLocalPort();
            }
        }

        private Process start(String computer, Map<String, String> more, String... words) throws IOException {
            java.util.HashMap<String, String> environment = new java.util.HashMap<>(more);
            environment.put("XDG_CONFIG_HOME", place.resolve(computer).toString());
            Process process = Program.start(
                    environment, List.of(), place.resolve(computer + ".out"), place.resolve(computer + ".err"), words);
            processes.add(process);
            return process;
        }

        House records(String link, String alarmCommand) throws Exception {
            recorder = start(
                    "studio",
                    Map.of(),
                    "record",
                    "--language",
                    "en",
                    "--from",
                    link,
                    "--kiln",
                    "Tall Drum",
                    "--book",
                    place.resolve("firings.book").toString(),
                    "--share=lan,notes",
                    "--share-port",
                    Integer.toString(port),
                    "--no-sound",
                    "--alarm-command",
                    alarmCommand);
            await("a reading", () -> said("studio").contains("Recording began"), 60_000_000_000L);
            return this;
        }

        House isFollowed() throws Exception {
            Matcher token = Pattern.compile("([0-9A-Z]{4}-){6}[0-9A-Z]{4}").matcher(said("studio"));
            assertThat(token.find()).as(said("studio")).isTrue();
            start(
                    "bedroom",
                    Map.of("KILNSIDE_TOKEN", token.group()),
                    "watch",
                    "--language",
                    "en",
                    "--attach",
                    "127.0.0.1:" + port,
                    "--no-sound",
                    "--alarm-command",
                    "echo \"$KILNSIDE_GRADE $KILNSIDE_KIND\" >> " + bell);
            await("the copy to follow", () -> said("bedroom").contains("Recording began"), 60_000_000_000L);
            return this;
        }

        String said(String computer) throws IOException {
            return Program.said(place.resolve(computer + ".out")) + Program.said(place.resolve(computer + ".err"));
        }

        boolean rang(String kind) throws IOException {
            return Files.exists(bell) && Files.readString(bell).contains("come-now " + kind);
        }
    }

    private interface Condition {
        boolean holds() throws Exception;
    }

    private static void await(String what, Condition condition, long patienceNs) throws Exception {
        long until = System.nanoTime() + patienceNs;
        while (!condition.holds()) {
            assertThat(System.nanoTime()).as("waited for %s", what).isLessThan(until);
            TimeUnit.MILLISECONDS.sleep(200);
        }
    }

    private static void signal(Process process, String name) throws IOException {
        new ProcessBuilder("kill", "-" + name, Long.toString(process.pid()))
                .redirectErrorStream(true)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .start();
    }

    @Test
    void killedStoppedOrWithItsCablePulledTheRecorderWakesTheBedroom() throws Exception {
        try (SimulatedBoard board = SimulatedBoard.start()) {
            board.temperature(480, 30);
            House killed = new House("killed")
                    .records("virtual:tall-drum?speed=1", "true")
                    .isFollowed();
            House stopped = new House("stopped")
                    .records("virtual:tall-drum?speed=1", "true")
                    .isFollowed();
            House pulled = new House("pulled")
                    .records(board.pty().toString(), "echo 'no bell is connected' >&2; exit 5")
                    .isFollowed();
            // A terminal that is closed ends no recording.
            signal(pulled.recorder, "HUP");

            killed.recorder.destroyForcibly();
            signal(stopped.recorder, "STOP");
            board.suspend();
            long begin = System.nanoTime();
            await("the bell after a kill", () -> killed.rang("recorder-silent"), TWO_MINUTES_NS);
            await("the bell after a stop", () -> stopped.rang("recorder-silent"), TWO_MINUTES_NS);
            await("the bell after the cable", () -> pulled.rang("no-readings"), TWO_MINUTES_NS);
            assertThat(System.nanoTime() - begin)
                    .as("all three within two minutes")
                    .isLessThan(TWO_MINUTES_NS);
            await(
                    "the words to the bell",
                    () -> killed.said("bedroom").contains("COME NOW: Nothing is heard of the recording any more"),
                    30_000_000_000L);
            assertThat(pulled.recorder.isAlive()).isTrue();

            // The recorder's own command failed: that is in the book, and on its screen.
            await(
                    "the failed command in the book",
                    () -> events(pulled).stream()
                            .anyMatch(event -> event.kind() == FiringEvent.Kind.ALARM_UNHEARD
                                    && event.text().orElse("").contains("no bell is connected")),
                    30_000_000_000L);

            // Woken up, the stopped one goes on and the bedroom sees it live again.
            signal(stopped.recorder, "CONT");
            board.resume();
            await(
                    "the bedroom to see it live",
                    () -> stopped.said("bedroom")
                            .strip()
                            .lines()
                            .reduce((earlier, later) -> later)
                            .filter(last -> !last.contains("No reading"))
                            .isPresent(),
                    90_000_000_000L);
        }
    }

    private static List<FiringEvent> events(House house) {
        try (Book book = Book.open(house.place.resolve("firings.book"))) {
            return book.firing(1).events();
        }
    }
}

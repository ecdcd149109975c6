package org.kilnside.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.kilnside.book.Book;
import org.kilnside.command.Program;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.FiringEvent.Kind;
import org.kilnside.firing.Reading;

/** {@code kilnside record} in a process of its own, with a book and a settings folder of its own. */
final class Recording implements AutoCloseable {
    private static final long PATIENCE_NS = 120_000_000_000L;

    private final Path folder;
    final Path book;
    private Process process;

    Recording(Path folder) {
        this.folder = folder;
        this.book = folder.resolve("firings.book");
    }

    /** Begins, or goes on after the process was ended. */
    Recording from(String link) throws IOException {
        process = Program.start(
                environment(),
                List.of(),
                folder.resolve("out"),
                folder.resolve("err"),
                "record",
                "--language",
                "en",
                "--from",
                link,
                "--kiln",
                "Tall Drum",
                "--book",
                book.toString());
        return this;
    }

    Map<String, String> environment() {
        return Map.of("XDG_CONFIG_HOME", folder.resolve("settings").toString());
    }

    /** As a power cut does it. */
    void kill() throws InterruptedException {
        process.destroyForcibly();
        assertThat(process.waitFor(20, TimeUnit.SECONDS)).isTrue();
    }

    /** The process stands still, as in a computer asleep, until {@link #wake()}. */
    void sleep() throws Exception {
        signal("STOP");
    }

    void wake() throws Exception {
        signal("CONT");
    }

    private void signal(String name) throws IOException, InterruptedException {
        int exit = new ProcessBuilder("kill", "-" + name, Long.toString(process.pid()))
                .start()
                .waitFor();
        assertThat(exit).isZero();
    }

    /** The exit code of a process that ends by itself. */
    int awaitEnd() throws InterruptedException {
        assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
        return process.exitValue();
    }

    /** What it said on both streams. */
    String said() throws IOException {
        return Program.said(folder.resolve("out")) + Program.said(folder.resolve("err"));
    }

    /** As a system does it when it shuts down, or a person with Ctrl-C. */
    void stop() {
        if (process == null) {
            return;
        }
        process.destroy();
        try {
            assertThat(process.waitFor(20, TimeUnit.SECONDS)).isTrue();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Override
    public void close() {
        stop();
    }

    List<Reading> readings() {
        try (Book opened = Book.open(book)) {
            if (opened.firings().isEmpty()) {
                return List.of();
            }
            List<Reading> readings = new ArrayList<>();
            opened.readings(1, readings::add);
            return readings;
        }
    }

    List<FiringEvent> events() {
        try (Book opened = Book.open(book)) {
            return opened.firing(1).events();
        }
    }

    void awaitReadings(int count) throws Exception {
        await(count + " readings", () -> Files.exists(book) && readings().size() >= count);
    }

    void awaitEvent(Kind kind) throws Exception {
        await(kind.toString(), () -> events().stream().map(FiringEvent::kind).anyMatch(kind::equals));
    }

    interface Condition {
        boolean holds() throws Exception;
    }

    void await(String what, Condition condition) throws Exception {
        long until = System.nanoTime() + PATIENCE_NS;
        while (!condition.holds()) {
            assertThat(System.nanoTime())
                    .as("waited for %s; the recorder said: %s", what, said())
                    .isLessThan(until);
            TimeUnit.MILLISECONDS.sleep(100);
        }
    }
}

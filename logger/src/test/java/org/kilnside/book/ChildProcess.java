package org.kilnside.book;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.kilnside.testing.Tools;

/** A Java process of its own, with what it says line by line. */
final class ChildProcess implements AutoCloseable {
    private final Process process;
    private final Thread reader;
    private final List<String> lines = Collections.synchronizedList(new ArrayList<>());

    private ChildProcess(Process process) {
        this.process = process;
        this.reader = new Thread(this::read, "what the child says");
        reader.start();
    }

    static ChildProcess start(
            List<String> prefix, Map<String, String> environment, Class<?> main, String... arguments) {
        List<String> command = new ArrayList<>(prefix);
        command.addAll(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx128m",
                "-XX:+UseSerialGC",
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                main.getName()));
        command.addAll(List.of(arguments));
        ProcessBuilder builder = new ProcessBuilder(command).redirectErrorStream(true);
        builder.environment().putAll(environment);
        try {
            return new ChildProcess(builder.start());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The test's disk, compiled from its source; see disk_shim.c. */
    static Path compileDisk(Path folder) throws IOException, InterruptedException {
        Path gcc = Tools.require("gcc");
        Path source = folder.resolve("disk_shim.c");
        Path library = folder.resolve("disk_shim.so");
        try (var text = ChildProcess.class.getResourceAsStream("disk_shim.c")) {
            Files.write(source, text.readAllBytes());
        }
        Process compiler = new ProcessBuilder(
                        gcc.toString(), "-shared", "-fPIC", "-O1", "-o", library.toString(), source.toString(), "-ldl")
                .inheritIO()
                .start();
        if (compiler.waitFor() != 0) {
            throw new IOException("disk_shim.c does not compile");
        }
        return library;
    }

    private void read() {
        try (BufferedReader said =
                new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
            for (String line = said.readLine(); line != null; line = said.readLine()) {
                lines.add(line);
            }
        } catch (IOException e) {
            lines.add("(the pipe broke: " + e.getMessage() + ")");
        }
    }

    long pid() {
        return process.pid();
    }

    List<String> lines() {
        synchronized (lines) {
            return List.copyOf(lines);
        }
    }

    /** What stands behind a word at the beginning of a line; the last line that has it. */
    Optional<String> said(String word) {
        return lines().stream()
                .filter(line -> line.startsWith(word + " "))
                .map(line -> line.substring(word.length() + 1))
                .reduce((earlier, later) -> later);
    }

    void awaitSaid(String word) throws InterruptedException {
        long giveUp = System.nanoTime() + TimeUnit.SECONDS.toNanos(60);
        while (said(word).isEmpty()) {
            if (System.nanoTime() > giveUp || !process.isAlive()) {
                throw new AssertionError("the child never said \"" + word + "\" but: " + lines());
            }
            Thread.sleep(5);
        }
    }

    /** SIGKILL: the process gets no chance to tidy up. */
    void kill() throws InterruptedException {
        process.destroyForcibly().waitFor();
        reader.join();
    }

    int awaitEnd() throws InterruptedException {
        if (!process.waitFor(120, TimeUnit.SECONDS)) {
            throw new AssertionError("the child did not end; it said: " + lines());
        }
        reader.join();
        return process.exitValue();
    }

    @Override
    public void close() {
        process.destroyForcibly();
    }
}

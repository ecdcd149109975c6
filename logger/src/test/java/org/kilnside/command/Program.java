package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;

/** The program as a person runs it: the built jar in a process of its own. */
public final class Program {
    private static final Path JAR = Path.of("target", "kilnside.jar").toAbsolutePath();

    /** What bin/kilnside says to every Java it starts: one collector thread, no server compiler. */
    public static final List<String> AS_LAUNCHED =
            List.of("-Xss512k", "-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1", "-Dfile.encoding=UTF-8");

    private Program() {}

    /** How a run ended and what it said. */
    public record Run(int exit, String out, String err) {
        /** What was said is a sentence for a person: no stack trace, no class names. */
        public Run isPlain() {
            assertThat(out + err)
                    .doesNotContain("\tat ")
                    .doesNotContain("Exception")
                    .doesNotContain("java.")
                    .doesNotContain("org.kilnside");
            return this;
        }

        /** The run was refused with one plain sentence that holds all of these words. */
        public Run isRefusedWith(String... words) {
            isPlain();
            assertThat(exit).as("exit code, having said: %s", err).isNotZero();
            assertThat(err).contains(words);
            assertThat(err.strip().lines().count()).as(err).isLessThanOrEqualTo(2);
            return this;
        }
    }

    /** Runs the program to its end, at most two minutes. */
    public static Run run(String... arguments) {
        return run(Map.of(), List.of(), arguments);
    }

    /** Runs the program with further variables in its environment, behind the words of a wrapper such as {@code prlimit}. */
    public static Run run(Map<String, String> environment, List<String> wrapper, String... arguments) {
        try {
            Path out = Files.createTempFile("program", ".out");
            Path err = Files.createTempFile("program", ".err");
            Process process = start(environment, wrapper, out, err, arguments);
            if (!process.waitFor(120, TimeUnit.SECONDS)) {
                process.destroyForcibly();
                throw new AssertionError("the program did not end within 120 s: " + List.of(arguments));
            }
            Run run = new Run(process.exitValue(), Files.readString(out), Files.readString(err));
            Files.delete(out);
            Files.delete(err);
            return run;
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new AssertionError(e);
        }
    }

    /** Starts the program and leaves it running. */
    public static Process start(
            Map<String, String> environment, List<String> wrapper, Path out, Path err, String... arguments)
            throws IOException {
        List<String> words = new ArrayList<>(wrapper);
        words.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        words.add("-Xmx256m");
        words.addAll(AS_LAUNCHED);
        words.addAll(List.of("-jar", JAR.toString()));
        words.addAll(List.of(arguments));
        ProcessBuilder builder = new ProcessBuilder(words);
        builder.environment().putAll(Map.of("LC_ALL", "C.UTF-8"));
        builder.environment().putAll(environment);
        builder.redirectOutput(out.toFile()).redirectError(err.toFile());
        return builder.start();
    }

    /** What a running program has said so far. */
    public static String said(Path file) throws IOException {
        return Files.readString(file, StandardCharsets.UTF_8);
    }
}

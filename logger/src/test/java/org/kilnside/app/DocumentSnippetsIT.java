package org.kilnside.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Every command the documents show is one the program knows, and does what it can do without a controller. */
class DocumentSnippetsIT {
    private static final Path DOCS = Path.of("..", "docs");

    @TempDir
    private Path folder;

    @Test
    void everyCommandInTheDocumentsCanBeGiven() throws Exception {
        List<String> commands = new ArrayList<>(commands(DOCS.resolve("../README.md")));
        for (String document :
                new String[] {"user-guide.md", "night.md", "alarms.md", "heat-work.md", "review.md", "line-patterns.md"
                }) {
            List<String> its = commands(DOCS.resolve(document));
            assertThat(its).as(document).isNotEmpty();
            commands.addAll(its);
        }
        List<String> words = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-ea",
                "-XX:TieredStopAtLevel=1",
                "-Djava.awt.headless=true",
                "-Duser.home=" + folder,
                "-cp",
                System.getProperty("java.class.path"),
                SnippetRun.class.getName(),
                Files.createDirectory(folder.resolve("files")).toString()));
        words.addAll(commands);
        ProcessBuilder builder = new ProcessBuilder(words).redirectErrorStream(true);
        builder.environment().put("XDG_CONFIG_HOME", folder.resolve("config").toString());
        builder.environment().put("XDG_DATA_HOME", folder.resolve("data").toString());
        builder.environment().put("LC_ALL", "C.UTF-8");
        Process process = builder.start();
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
        assertThat(process.exitValue()).as(said).isZero();
        assertThat(said.lines().filter(line -> line.startsWith("run 0: ") || line.startsWith("read 0: ")))
                .as(said)
                .hasSameSizeAs(commands);
        // Not more may be left to reading than records, rings, opens a window or a port.
        assertThat(said.lines().filter(line -> line.startsWith("run 0: "))).hasSizeGreaterThan(25);
    }

    /** The lines in fences that start the program, from the command's own name on. */
    private static List<String> commands(Path document) throws IOException {
        List<String> commands = new ArrayList<>();
        boolean fenced = false;
        for (String line : Files.readAllLines(document)) {
            if (line.startsWith("```")) {
                fenced = !fenced;
            } else if (fenced && line.matches("(.*/bin/)?kilnside .*")) {
                commands.add(line.replaceFirst("^(.*/bin/)?kilnside ", "").replaceFirst(" {2,}.*", ""));
            }
        }
        return commands;
    }
}

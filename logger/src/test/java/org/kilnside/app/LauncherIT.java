package org.kilnside.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.command.Program;
import org.kilnside.testing.Tools;

/** The program's starter, on machines that lack what it needs: a message, never a stack trace. */
class LauncherIT {
    private static final Path LAUNCHER = Path.of("bin", "kilnside").toAbsolutePath();

    @TempDir
    private Path folder;

    @Test
    void withoutJavaItSaysWhatToInstall() throws Exception {
        Said said = start(folderOfTools(), "--version");
        assertThat(said.exit).isEqualTo(3);
        assertThat(said.text).contains("Java 17", "found none").doesNotContain("Exception");
    }

    @Test
    void withAJavaThatIsTooOldItSaysWhichItFound() throws Exception {
        Path tools = folderOfTools();
        program(tools.resolve("java"), "echo 'openjdk version \"11.0.21\" 2023-10-17' >&2");
        Said eleven = start(tools, "--version");
        assertThat(eleven.exit).isEqualTo(3);
        assertThat(eleven.text).contains("Java 17", "found Java 11");
        program(tools.resolve("java"), "echo 'java version \"1.8.0_292\"' >&2");
        assertThat(start(tools, "--version").text).contains("found Java 8");
    }

    @Test
    void onceBuiltItStartsWithoutMaven() throws Exception {
        Path tools = folderOfTools();
        Files.createSymbolicLink(tools.resolve("java"), Path.of(System.getProperty("java.home"), "bin", "java"));
        // Maven has just built the program for these tests, without the starter's stamp: it is there, and starts.
        Said said = start(tools, "--version");
        assertThat(said.exit).as(said.text).isZero();
        assertThat(said.text).contains("Kilnside");
    }

    @Test
    void allTestsStartJavaAsItDoes() throws IOException {
        assertThat(Files.readString(LAUNCHER)).contains(Program.AS_LAUNCHED);
    }

    private record Said(int exit, String text) {}

    private Said start(Path tools, String... arguments) throws Exception {
        Path out = folder.resolve("out");
        ProcessBuilder builder = new ProcessBuilder(LAUNCHER.toString(), arguments[0]);
        builder.environment().remove("JAVA_HOME");
        builder.environment().put("PATH", tools.toString());
        builder.redirectErrorStream(true).redirectOutput(out.toFile());
        Process process = builder.start();
        assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
        return new Said(process.exitValue(), Files.readString(out));
    }

    /** The everyday programs of a Unix machine, and neither Java nor Maven. */
    private Path folderOfTools() throws IOException {
        Path tools = Files.createDirectories(folder.resolve("tools"));
        for (String name : new String[] {
            "sh", "dirname", "readlink", "sed", "head", "find", "mktemp", "mv", "rm", "cat", "tail", "mkdir"
        }) {
            Path link = tools.resolve(name);
            if (!Files.exists(link)) {
                Files.createSymbolicLink(link, Tools.require(name));
            }
        }
        return tools;
    }

    private static void program(Path path, String body) throws IOException {
        Files.writeString(path, "#!/bin/sh\n" + body + "\n");
        Files.setPosixFilePermissions(path, PosixFilePermissions.fromString("rwxr-xr-x"));
    }
}

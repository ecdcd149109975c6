package org.kilnside.testing;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * The C library's programs, the firmware and the simulated board, built by {@code firmware-protocol/build.sh} when
 * their sources changed. A test without compilers is not run ({@link Tools}).
 */
public final class NativeBuild {
    private NativeBuild() {}

    /** The folder firmware-protocol, from whichever module's tests are running. */
    public static Path home() {
        for (Path folder = Path.of("").toAbsolutePath(); folder != null; folder = folder.getParent()) {
            for (Path candidate : new Path[] {folder, folder.resolve("firmware-protocol")}) {
                if (Files.exists(candidate.resolve("build.sh")) && Files.exists(candidate.resolve("fields.csv"))) {
                    return candidate;
                }
            }
        }
        throw new IllegalStateException(
                "firmware-protocol/build.sh is not above " + Path.of("").toAbsolutePath());
    }

    /** A program or firmware of target/native, such as {@code simulated_board} or {@code firmware-max31855.elf}. */
    public static Path program(String name) {
        Tools.require("bash");
        Tools.require("flock");
        Tools.require("gcc");
        Tools.require("avr-gcc");
        Tools.requireFile("/usr/include/simavr/sim_avr.h");
        run("build.sh");
        return home().resolve("target/native").resolve(name);
    }

    /** Runs a script of firmware-protocol to its end and gives what it printed; fails the test if it fails. */
    public static String run(String script, String... arguments) {
        try {
            String[] command = new String[arguments.length + 2];
            command[0] = "bash";
            command[1] = home().resolve(script).toString();
            System.arraycopy(arguments, 0, command, 2, arguments.length);
            Process process =
                    new ProcessBuilder(command).redirectErrorStream(true).start();
            process.getOutputStream().close();
            String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            assertThat(process.waitFor()).as("%s said:%n%s", script, said).isZero();
            return said;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException("interrupted while running " + script, e);
        }
    }
}

package org.kilnside.protocol;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/**
 * Jazzer on the codec and the framer: seconds of it here, 10⁸ bytes and more with {@code verify --long}. It begins with
 * the vectors and what earlier runs found ({@link FuzzedWireTest}).
 */
@EnabledOnOs(OS.LINUX)
class JazzerIT {
    private static final boolean LONG = Boolean.getBoolean("kilnside.long");
    private static final Pattern READ = Pattern.compile("READ (\\d+) BYTES");

    @TempDir
    private Path folder;

    @Test
    void nothingIsFound() throws Exception {
        Path seeds = seeds();
        Path log = folder.resolve("log");
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx768m",
                "-cp",
                System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")),
                "com.code_intelligence.jazzer.Jazzer",
                "--target_class=" + FuzzedWire.class.getName(),
                "--instrumentation_includes=org.kilnside.protocol.**",
                "-seed=20261125",
                "-max_len=4096",
                "-len_control=0",
                "-timeout=10",
                "-use_value_profile=1",
                LONG ? "-runs=800000" : "-runs=20000"));
        command.add(Files.createDirectory(folder.resolve("corpus")).toString());
        command.add(seeds.toString());
        Process process = new ProcessBuilder(command)
                .directory(folder.toFile())
                .redirectErrorStream(true)
                .redirectOutput(log.toFile())
                .start();
        int exit = process.waitFor();

        String said = Files.readString(log, StandardCharsets.ISO_8859_1);
        assertThat(exit).as(said).isZero();
        Matcher read = READ.matcher(said);
        assertThat(read.find()).as(said).isTrue();
        System.out.println("Jazzer read " + read.group(1) + " bytes");
        assertThat(Long.parseLong(read.group(1))).isGreaterThan(LONG ? 100_000_000L : 1_000_000L);
    }

    private Path seeds() throws IOException {
        Path seeds = Files.createDirectory(folder.resolve("seeds"));
        int number = 0;
        for (Path vector : FuzzedWireTest.vectors()) {
            byte[] bytes = Files.readAllBytes(vector);
            byte[] input = new byte[bytes.length + 1];
            input[0] = (byte) (number % 256);
            System.arraycopy(bytes, 0, input, 1, bytes.length);
            Files.write(seeds.resolve("vector-" + number++), input);
        }
        for (String found : Files.readAllLines(FuzzedWireTest.FOUND, StandardCharsets.US_ASCII)) {
            Files.write(seeds.resolve("found-" + number++), HexFormat.of().parseHex(found));
        }
        return seeds;
    }
}

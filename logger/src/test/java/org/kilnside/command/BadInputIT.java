package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.Once;
import org.kilnside.command.Program.Run;
import org.kilnside.testing.Tools;

/** Whatever a person gives the program that it cannot use: one clear sentence, a non-zero exit, nothing lost. */
class BadInputIT {
    private static final Supplier<byte[]> SMALL_BOOK = Once.of(BadInputIT::made);

    @TempDir
    private Path folder;

    private String book;

    @BeforeEach
    void nameABook() {
        book = folder.resolve("firings.book").toString();
    }

    private Path file(String name, String content) throws IOException {
        return Files.writeString(folder.resolve(name), content, StandardCharsets.UTF_8);
    }

    @Test
    void aPortThatIsNotThereIsSaid() {
        Program.run("record", "--from", "/dev/ttyNOWHERE", "--book", book).isRefusedWith("/dev/ttyNOWHERE");
    }

    /** A port of the system's that belongs to root and a group; the program runs as a user who is in none. */
    @Test
    void aPortThisUserMayNotOpenIsSaidWithTheGroupThatMay() throws Exception {
        Process socat = new ProcessBuilder(
                        Tools.require("socat").toString(), "-d", "-d", "pty,rawer,mode=660", "pty,rawer")
                .redirectErrorStream(true)
                .start();
        try (BufferedReader said =
                new BufferedReader(new InputStreamReader(socat.getInputStream(), StandardCharsets.UTF_8))) {
            String line = said.readLine();
            while (!line.contains("PTY is ")) {
                line = said.readLine();
            }
            String port = line.substring(line.indexOf("PTY is ") + "PTY is ".length());
            boolean root = System.getProperty("user.name").equals("root");
            // Whoever is not root cannot become another user: the console belongs to root on every Linux.
            Program.Run run = root
                    ? Program.run(
                            Map.of(),
                            List.of(
                                    Tools.require("setpriv").toString(),
                                    "--reuid=65534",
                                    "--regid=65534",
                                    "--clear-groups"),
                            "ports",
                            port)
                    : Program.run("ports", "/dev/console");
            run.isRefusedWith("This user may not open", "belongs to the group", "usermod -aG");
        } finally {
            socat.destroy();
        }
    }

    @Test
    void aPortThatIsInUseIsSaid() throws Exception {
        Process socat = new ProcessBuilder(
                        Tools.require("socat").toString(), "pty,rawer,link=" + folder.resolve("busy"), "pty,rawer")
                .start();
        Process other = null;
        try {
            while (!Files.exists(folder.resolve("busy"))) {
                Thread.sleep(20);
            }
            other = new ProcessBuilder(
                            Tools.require("flock").toString(),
                            "-x",
                            folder.resolve("busy").toRealPath().toString(),
                            "sleep",
                            "60")
                    .start();
            Thread.sleep(500);
            Program.run("ports", folder.resolve("busy").toString())
                    .isRefusedWith("busy", "is in use by another program");
        } finally {
            if (other != null) {
                other.descendants().forEach(ProcessHandle::destroy);
                other.destroy();
            }
            socat.destroy();
        }
    }

    @Test
    void aPortThatIsNoPortIsSaid() throws IOException {
        Path plain = file("plain.txt", "not a port");
        Program.run("record", "--from", "serial:" + plain, "--book", book).isRefusedWith(plain.toString());
    }

    @Test
    void aLinkThatIsNoLinkIsSaidWithWhatWouldBeOne() {
        Program.run("record", "--from", "carrier-pigeon:3", "--book", book).isRefusedWith("carrier-pigeon");
        Program.run("record", "--from", "virtual:short-drum", "--book", book).isRefusedWith("short-drum", "tall-drum");
        Program.run("record", "--from", "virtual:tall-drum?speed=fast", "--book", book)
                .isRefusedWith("fast");
        Program.run("record", "--from", "replay:" + folder.resolve("no.stream"), "--book", book)
                .isRefusedWith("no.stream");
    }

    @Test
    void aFileThatIsNoPlanIsSaidWithItsPlace() throws IOException {
        Path plan = file("bisque.toml", """
                name = "Bisque"

                [[segment]]
                rate = "80"
                to = "600 °C"
                """);
        Program.run("plan", "show", plan.toString()).isRefusedWith(plan + ":4:", "80", "°C/h");
        Program.run("record", "--from", "virtual:tall-drum", "--plan", plan.toString(), "--book", book)
                .isRefusedWith(plan + ":4:");
        assertThat(Path.of(book)).doesNotExist();
    }

    @Test
    void aPlanThatIsNotThereIsSaidWithThoseThatAre() {
        Program.run("plan", "show", "biscuit").isRefusedWith("biscuit", "bisque");
    }

    @Test
    void aFolderABinaryFileAndAnEmptyFileAreNoPlans() throws IOException {
        Program.run("plan", "show", folder.toString()).isRefusedWith(folder.toString());
        byte[] noise = new byte[4_000];
        new Random(7).nextBytes(noise);
        Path binary = Files.write(folder.resolve("binary.toml"), noise);
        Program.run("plan", "show", binary.toString()).isRefusedWith("binary.toml");
        Program.run("plan", "show", file("empty.toml", "").toString()).isRefusedWith("empty.toml");
    }

    @Test
    void aLogWithAHoleATextAndANaNIsTakenWithoutThoseRowsAndSaysWhichTheyAre() throws IOException {
        StringBuilder log = new StringBuilder("elapsed_s,temp_c\n");
        for (int s = 0; s < 100; s++) {
            String value = s == 10 ? "" : s == 20 ? "hot" : s == 30 ? "NaN" : Integer.toString(20 + s);
            log.append(s * 10).append(',').append(value).append('\n');
        }
        Run run = Program.run("book", "import", file("log.csv", log.toString()).toString(), "--book", book)
                .isPlain();
        assertThat(run.exit()).isZero();
        assertThat(run.out()).contains("97");
        assertThat(run.err()).contains("12", "22", "32");
    }

    @Test
    void aLogWithoutAHeaderOrWithoutAnyReadingIsRefused() throws IOException {
        Program.run("book", "import", file("bare.csv", "0,20\n1,21\n").toString(), "--book", book)
                .isRefusedWith("bare.csv");
        Program.run("book", "import", file("none.csv", "elapsed_s,temp_c\n").toString(), "--book", book)
                .isRefusedWith("none.csv");
        assertThat(Path.of(book)).doesNotExist();
    }

    @Test
    void aBookThatIsNotThereIsSaid() {
        Program.run("book", "list", "--book", book).isRefusedWith(book);
        Program.run("book", "show", "1", "--book", book).isRefusedWith(book);
    }

    @Test
    void aFileThatIsNoBookIsRefusedAndLeftAsItWas() throws IOException {
        Path letter = file("letter.txt", "Dear Rook Lane Pottery, ".repeat(500));
        Program.run("book", "list", "--book", letter.toString()).isRefusedWith("letter.txt");
        Program.run("record", "--from", "virtual:tall-drum?speed=600", "--book", letter.toString())
                .isRefusedWith("letter.txt");
        assertThat(Files.readString(letter)).isEqualTo("Dear Rook Lane Pottery, ".repeat(500));
    }

    @Test
    void aDamagedBookIsSaidAndLeftAsItWas() throws IOException {
        smallBook();
        byte[] bytes = Files.readAllBytes(Path.of(book));
        new Random(3).nextBytes(bytes);
        System.arraycopy("SQLite format 3\0".getBytes(StandardCharsets.US_ASCII), 0, bytes, 0, 16);
        Files.write(Path.of(book), bytes);
        Program.run("book", "list", "--book", book).isRefusedWith(book);
        Program.run("record", "--from", "virtual:tall-drum?speed=600", "--book", book)
                .isRefusedWith(book);
        assertThat(Files.readAllBytes(Path.of(book))).isEqualTo(bytes);
    }

    @Test
    void aBookOfANewerVersionIsNotRecordedInto() throws IOException {
        smallBook();
        byte[] bytes = Files.readAllBytes(Path.of(book));
        // user_version is the four bytes from 60 on (published: SQLite database file format, section 1.3).
        bytes[60] = 0;
        bytes[61] = 0;
        bytes[62] = 3;
        bytes[63] = (byte) 0xe7;
        Files.write(Path.of(book), bytes);
        Program.run("record", "--from", "virtual:tall-drum?speed=600", "--book", book)
                .isRefusedWith(book);
        assertThat(Files.readAllBytes(Path.of(book))).isEqualTo(bytes);
    }

    @Test
    void aSecondRecorderOfABookIsRefused() throws Exception {
        Process first = Program.start(
                Map.of(),
                List.of(),
                folder.resolve("out"),
                folder.resolve("err"),
                "record",
                "--from",
                "virtual:tall-drum?speed=60",
                "--book",
                book);
        try {
            for (int i = 0; i < 200 && !Files.exists(Path.of(book)); i++) {
                TimeUnit.MILLISECONDS.sleep(100);
            }
            TimeUnit.MILLISECONDS.sleep(500);
            Program.run("record", "--from", "virtual:tall-drum?speed=60", "--book", book)
                    .isRefusedWith(book, Long.toString(first.pid()));
        } finally {
            first.destroy();
            first.waitFor(20, TimeUnit.SECONDS);
        }
    }

    @Test
    void aFolderThatCannotBeMadeIsSaid() throws IOException {
        Path plain = file("plain.txt", "in the way");
        Program.run(
                        "record",
                        "--from",
                        "virtual:tall-drum",
                        "--book",
                        plain.resolve("firings.book").toString())
                .isRefusedWith(plain.toString());
    }

    @Test
    void aDiskThatFillsUpWhileRecordingIsSaidAndWhatWasWrittenStays() throws IOException {
        Tools.require("prlimit");
        // A limit on the size of files stands in for a full disk: the system refuses the write in the same place.
        Run run = Program.run(
                Map.of(),
                List.of("prlimit", "--fsize=" + 3_000_000),
                "record",
                "--from",
                "virtual:tall-drum?speed=10000",
                "--book",
                book);
        run.isPlain();
        assertThat(run.out() + run.err()).containsIgnoringCase("full");
        Run check = Program.run("book", "check", "--book", book).isPlain();
        assertThat(check.exit()).as(check.err()).isZero();
    }

    @Test
    void anUnknownCommandOptionOrLanguageIsSaidInOneSentence() {
        Program.run("glaze").isRefusedWith("glaze");
        Program.run("record", "--from", "virtual:tall-drum", "--form", "x").isRefusedWith("--form");
        Program.run("demo", "--speed", "0").isRefusedWith("--speed", "0");
        Program.run("book", "list", "--language", "fr", "--book", book).isPlain();
    }

    @Test
    void anExportDoesNotOverwrite() throws IOException {
        smallBook();
        Path there = file("there.csv", "mine");
        Program.run("book", "export", "1", "--to", there.toString(), "--book", book)
                .isRefusedWith("there.csv");
        assertThat(Files.readString(there)).isEqualTo("mine");
        Program.run("book", "backup", there.toString(), "--book", book).isRefusedWith("there.csv");
        assertThat(Files.readString(there)).isEqualTo("mine");
    }

    @Test
    void aFiringThatIsNotInTheBookIsSaid() throws IOException {
        smallBook();
        Program.run("book", "show", "12", "--book", book).isRefusedWith("12");
        Program.run("book", "export", "12", "--book", book).isRefusedWith("12");
    }

    private void smallBook() throws IOException {
        Files.write(Path.of(book), SMALL_BOOK.get());
    }

    private static byte[] made() {
        StringBuilder log = new StringBuilder("elapsed_s,temp_c\n");
        for (int s = 0; s < 500; s++) {
            log.append(s * 10).append(',').append(20 + s).append('\n');
        }
        try {
            Path csv = Files.writeString(Files.createTempFile("small", ".csv"), log);
            Path small = csv.resolveSibling(csv.getFileName() + ".book");
            Run made = Program.run("book", "import", csv.toString(), "--book", small.toString());
            assertThat(made.exit()).as(made.err()).isZero();
            byte[] bytes = Files.readAllBytes(small);
            Files.delete(csv);
            Files.delete(small);
            return bytes;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}

package org.kilnside.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.book.Book;
import org.kilnside.desktop.VirtualScreen;

/**
 * The window follows the virtual kiln through twenty-six hours of its time, a reading for each second: what memory it
 * has every two hours. Started as {@code bin/kilnside demo} starts it. Minutes long, so only with {@code verify --long}.
 */
class DayInTheWindowIT {
    private static final int SPEED = Integer.getInteger("kilnside.day.speed", 200);
    private static final int HOURS = 26;
    private static final int EVERY_HOURS = 2;
    private static final double MOST_MEGABYTES = 350;

    @TempDir
    private Path folder;

    /** What it had at one time, megabytes: live objects, and what the system gives it, before anybody collects. */
    private record Measure(double hour, double liveMb, double residentMb) {}

    @Test
    @EnabledIfSystemProperty(named = "kilnside.long", matches = "true")
    void theMemoryOfADayAtOneReadingASecondStaysSmallAndFlat() throws Exception {
        Path book = folder.resolve("day.book");
        List<Measure> measured = new ArrayList<>();
        try (VirtualScreen screen = VirtualScreen.start(1600, 900)) {
            Process window = screen.java(
                    List.of("-Xmx320m", "-Duser.home=" + folder),
                    Kilnside.class,
                    List.of("demo", "--speed", String.valueOf(SPEED), "--book", book.toString()));
            try {
                for (int hour = EVERY_HOURS; hour <= HOURS; hour += EVERY_HOURS) {
                    double there = await(window, book, hour);
                    double resident = residentMb(window.pid());
                    measured.add(new Measure(there, liveMb(window.pid()), resident));
                    System.out.printf("%s%n", measured.get(measured.size() - 1));
                }
            } finally {
                window.destroyForcibly().waitFor();
            }
        }
        assertThat(measured).allSatisfy(at -> assertThat(at.residentMb()).isLessThan(MOST_MEGABYTES));
        // From the second hour on only the readings themselves grow: 32 bytes each in a curve, with room to grow.
        double grown =
                measured.get(measured.size() - 1).liveMb() - measured.get(0).liveMb();
        assertThat(grown).isLessThan(30);
    }

    /** Waits for the kiln's hour. Gives the hour it is then. */
    private static double await(Process window, Path book, int hour) throws Exception {
        long giveUp = System.nanoTime() + TimeUnit.HOURS.toNanos(hour) / SPEED * 4 + TimeUnit.MINUTES.toNanos(2);
        double there = 0;
        while (there < hour) {
            assertThat(window.isAlive()).as("the window is open").isTrue();
            assertThat(System.nanoTime()).as("waited too long for hour " + hour).isLessThan(giveUp);
            TimeUnit.MILLISECONDS.sleep(500);
            if (Files.exists(book)) {
                there = hoursIn(book);
            }
        }
        return there;
    }

    private static double hoursIn(Path book) {
        try (Book reader = Book.open(book)) {
            return reader.list().stream()
                    .mapToDouble(firing -> firing.duration().toMillis() / 3_600_000.0)
                    .max()
                    .orElse(0);
        }
    }

    private static double liveMb(long pid) throws Exception {
        jcmd(pid, "GC.run");
        Matcher used = Pattern.compile("(?:def new|tenured) generation\\s+total \\d+K, used (\\d+)K")
                .matcher(jcmd(pid, "GC.heap_info"));
        double sum = 0;
        while (used.find()) {
            sum += Long.parseLong(used.group(1)) / 1024.0;
        }
        assertThat(sum).isPositive();
        return sum;
    }

    private static String jcmd(long pid, String command) throws Exception {
        String tool = Path.of(System.getProperty("java.home"), "bin", "jcmd").toString();
        Process process = new ProcessBuilder(tool, String.valueOf(pid), command)
                .redirectErrorStream(true)
                .start();
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(process.waitFor()).as(said).isZero();
        return said;
    }

    private static double residentMb(long pid) throws IOException {
        return Files.readAllLines(Path.of("/proc", String.valueOf(pid), "status")).stream()
                .filter(line -> line.startsWith("VmRSS:"))
                .mapToDouble(line -> Long.parseLong(line.replaceAll("\\D", "")) / 1024.0)
                .findFirst()
                .orElseThrow();
    }
}

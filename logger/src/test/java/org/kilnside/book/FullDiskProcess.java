package org.kilnside.book;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.stream.Stream;
import org.kilnside.session.FiringBook.DiskState;

/**
 * Records on a disk that fills up and is emptied again. Arguments: the book, the file with the disk's size in bytes.
 * Says what the book's state is at each stage.
 */
final class FullDiskProcess {
    private static final Duration PATIENCE = Duration.ofSeconds(60);

    private final Path path;
    private final Path quota;
    private final BookRecorder recorder;
    private final long number;
    private long elapsedMs;

    private FullDiskProcess(Path path, Path quota) {
        this.path = path;
        this.quota = quota;
        recorder = BookRecorder.open(path);
        number = recorder.begin(SomeReadings.start());
        recorder.sensors(number, 0, List.of(SomeReadings.TYPE_K));
    }

    public static void main(String[] arguments) throws IOException, InterruptedException {
        new FullDiskProcess(Path.of(arguments[0]), Path.of(arguments[1])).run();
    }

    private void run() throws IOException, InterruptedException {
        append(1_000);
        say("flushed", recorder.flush(PATIENCE));

        fillTheDisk();
        while (reserveIsThere()) {
            append(5_000);
            recorder.flush(PATIENCE);
        }
        say("reserve-freed", recorder.flush(PATIENCE));
        say("on-the-reserve", state());

        fillTheDisk();
        while (recorder.state().waiting() == 0 || !state().contains("is full")) {
            append(5_000);
            recorder.flush(Duration.ofMillis(500));
        }
        say("full", state());
        long onDisk = recorder.state().onDiskUpToMs().orElseThrow();
        append(200_000);
        say("still-full", state());
        say("bounded", recorder.state().waiting() <= WaitingEntries.MOST_READINGS);
        say("on-disk-unchanged", recorder.state().onDiskUpToMs().orElseThrow() == onDisk);
        refusedBackup();

        Files.writeString(quota, "1000000000");
        say("recovered", recorder.flush(PATIENCE));
        append(1_000);
        say("goes-on", recorder.flush(PATIENCE));
        say("afterwards", state());
        say("handed-up-to", elapsedMs);
        recorder.close();
        try (BookRecorder again = BookRecorder.open(path)) {
            again.flush(PATIENCE);
            while (!reserveIsThere()) {
                Thread.sleep(10);
            }
            say("reserve-again", true);
        }
        fillTheDisk();
        try (BookRecorder again = BookRecorder.open(path)) {
            say("opened-full", !reserveIsThere());
            again.append(number, SomeReadings.celsius(elapsedMs, 20));
            say("recorded-full", again.flush(PATIENCE));
            say("opened-full-state", again.state().trouble().orElse("all is well"));
        }
    }

    private void refusedBackup() {
        try (Book book = Book.open(path)) {
            book.backup(path.resolveSibling("copy"));
            say("backup", "written");
        } catch (BookException e) {
            say("backup", e.getMessage());
        }
    }

    private void append(int readings) {
        for (int i = 0; i < readings; i++) {
            recorder.append(number, SomeReadings.celsius(elapsedMs, 20 + elapsedMs / 1_000_000.0));
            elapsedMs += 1_000;
        }
    }

    private boolean reserveIsThere() {
        return Files.exists(path.resolveSibling(path.getFileName() + ".reserve"));
    }

    /** From now on the disk has no byte more than what lies on it. */
    private void fillTheDisk() throws IOException {
        try (Stream<Path> files = Files.list(path.getParent())) {
            long used = 0;
            for (Path file :
                    files.filter(file -> !file.toString().endsWith("-shm")).toList()) {
                used += Files.size(file);
            }
            Files.writeString(quota, Long.toString(used));
        }
    }

    private String state() {
        DiskState state = recorder.state();
        return state.trouble().orElse("all is well");
    }

    private static void say(String word, Object what) {
        System.out.println(word + " " + what);
        System.out.flush();
    }
}

package org.kilnside.book;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.OptionalLong;
import org.kilnside.session.FiringBook.FiringStart;

/**
 * Records until it is killed. Arguments: the book, how many readings a millisecond. Says "handed MS" each time, with
 * the newest reading's elapsed ms, and "disk MS" with what the book says is on disk. Elapsed time is the wall clock
 * since the firing began, so that a line also tells when it was handed over.
 */
final class RecordingProcess {
    private static final int BETWEEN_BURSTS_MS = 4;

    private RecordingProcess() {}

    public static void main(String[] arguments) throws InterruptedException {
        int readingsPerMs = Integer.parseInt(arguments[1]);
        BookRecorder recorder = BookRecorder.open(Path.of(arguments[0]));
        FiringStart start = SomeReadings.start();
        var unfinished = recorder.unfinished();
        Instant zero;
        long number;
        long elapsedMs;
        if (unfinished.isPresent()) {
            number = unfinished.get().number();
            zero = unfinished.get().start().startedAt();
            elapsedMs = System.currentTimeMillis() - zero.toEpochMilli();
        } else {
            zero = Instant.now();
            number = recorder.begin(
                    new FiringStart(start.kiln(), start.link(), zero, start.plan(), start.planText(), start.series()));
            recorder.sensors(number, 0, List.of(SomeReadings.TYPE_K));
            elapsedMs = 0;
        }
        System.out.println("zero " + zero.toEpochMilli());
        while (true) {
            long now = System.currentTimeMillis() - zero.toEpochMilli();
            for (; elapsedMs <= now; elapsedMs++) {
                for (int i = 0; i < readingsPerMs; i++) {
                    recorder.append(number, SomeReadings.celsius(elapsedMs, 20 + elapsedMs % 1_000));
                }
            }
            System.out.println("handed " + (elapsedMs - 1));
            OptionalLong disk = recorder.state().onDiskUpToMs();
            if (disk.isPresent()) {
                System.out.println("disk " + disk.getAsLong());
            }
            System.out.flush();
            Thread.sleep(BETWEEN_BURSTS_MS);
        }
    }
}

package org.kilnside.book;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;

/** The record of a test's disk, and what a power cut leaves of its files. */
final class DiskLog {
    private static final int SECTOR_BYTES = 512;

    private final List<Step> steps;

    /** One call on a file: W writes data at an offset, T cuts or lengthens to an offset, S syncs. */
    record Step(char kind, long timeMs, String file, long offset, byte[] data) {}

    DiskLog(List<Step> steps) {
        this.steps = List.copyOf(steps);
    }

    static DiskLog read(Path log) throws IOException {
        ByteBuffer bytes = ByteBuffer.wrap(Files.readAllBytes(log)).order(ByteOrder.LITTLE_ENDIAN);
        List<Step> steps = new ArrayList<>();
        while (bytes.remaining() >= 29) {
            char kind = (char) bytes.get();
            long timeMs = bytes.getLong();
            byte[] path = new byte[bytes.getInt()];
            long offset = bytes.getLong();
            byte[] data = new byte[(int) bytes.getLong()];
            if (bytes.remaining() < path.length + data.length) {
                break; // killed in the middle of its last note
            }
            bytes.get(path).get(data);
            String name = Path.of(new String(path, StandardCharsets.UTF_8))
                    .getFileName()
                    .toString();
            steps.add(new Step(kind, timeMs, name, offset, data));
        }
        return new DiskLog(steps);
    }

    int size() {
        return steps.size();
    }

    long timeMs(int step) {
        return steps.get(step).timeMs();
    }

    long syncs(String file) {
        return steps.stream()
                .filter(step -> step.kind() == 'S' && step.file().equals(file))
                .count();
    }

    /** Lays out the book as a cut before a step leaves it; when the log's syncs do not count, the disk lied about them. */
    Path survivor(Path folder, byte[] before, int cut, Random random, boolean logSyncsCount) throws IOException {
        Files.createDirectory(folder);
        Path book = folder.resolve("firing.book");
        Files.write(book, contents("firing.book", before, cut, random, true));
        byte[] wal = contents("firing.book-wal", new byte[0], cut, random, logSyncsCount);
        if (wal.length > 0) {
            Files.write(folder.resolve("firing.book-wal"), wal);
        }
        return book;
    }

    byte[] contents(String file, byte[] before, int cut, Random random, boolean syncsCount) {
        int sure = 0;
        for (int i = 0; i < cut && syncsCount; i++) {
            sure = steps.get(i).kind() == 'S' && steps.get(i).file().equals(file) ? i : sure;
        }
        Image image = new Image(before);
        for (int i = 0; i < cut; i++) {
            Step step = steps.get(i);
            if (step.file().equals(file)) {
                image.apply(step, i < sure ? null : random);
            }
        }
        return Arrays.copyOf(image.bytes, image.length);
    }

    /** A file's contents as they grow. */
    private static final class Image {
        private byte[] bytes;
        private int length;

        Image(byte[] before) {
            bytes = before.clone();
            length = before.length;
        }

        /** With chance given, half of what a step does is lost, sector by sector. */
        void apply(Step step, Random chance) {
            if (step.kind() == 'T' && (chance == null || chance.nextBoolean())) {
                int end = (int) step.offset();
                reach(end);
                Arrays.fill(bytes, Math.min(end, length), bytes.length, (byte) 0);
                length = end;
            }
            for (int from = 0; step.kind() == 'W' && from < step.data().length; from += SECTOR_BYTES) {
                if (chance == null || chance.nextBoolean()) {
                    int sector = Math.min(SECTOR_BYTES, step.data().length - from);
                    int at = (int) step.offset() + from;
                    reach(at + sector);
                    System.arraycopy(step.data(), from, bytes, at, sector);
                    length = Math.max(length, at + sector);
                }
            }
        }

        private void reach(int end) {
            if (end > bytes.length) {
                bytes = Arrays.copyOf(bytes, Math.max(end, bytes.length * 2));
            }
        }
    }
}

package org.kilnside.book;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Random;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Space kept back beside the book for the day the disk is full: {@value #SIZE_BYTES} bytes, more than a day of
 * readings at one a second. Filled with noise, as a file of zeros takes no room where the file system compresses.
 */
record ReserveFile(Path file) {
    static final int SIZE_BYTES = 4 << 20;

    private static final Logger LOG = LoggerFactory.getLogger(ReserveFile.class);

    /** What opening a book takes, generously. */
    private static final long LAST_BYTES = 256 << 10;

    /** With less than this to spare the reserve would only fill the disk itself. */
    private static final long SPARE_BYTES = 2L * SIZE_BYTES;

    /** Whether the reserve is there, whole. */
    boolean isThere() {
        try {
            return Files.exists(file) && Files.size(file) >= SIZE_BYTES;
        } catch (IOException e) {
            LOG.warn("the reserve cannot be looked at", e);
            return false;
        }
    }

    /** Whether the disk is so full that only the reserve is left. */
    boolean isNeeded() {
        try {
            return isThere() && Files.getFileStore(file.getParent()).getUsableSpace() < LAST_BYTES;
        } catch (IOException e) {
            LOG.warn("the disk's free space cannot be found out", e);
            return false;
        }
    }

    /**
     * Sets the space aside, when it is not yet and the disk has some to spare.
     *
     * @return whether it is set aside
     */
    boolean fill() {
        if (isThere()) {
            return true;
        }
        try {
            if (Files.getFileStore(file.getParent()).getUsableSpace() < SPARE_BYTES) {
                return false;
            }
            byte[] noise = new byte[SIZE_BYTES];
            new Random(SIZE_BYTES).nextBytes(noise);
            ByteBuffer bytes = ByteBuffer.wrap(noise);
            try (FileChannel channel = FileChannel.open(
                    file, StandardOpenOption.CREATE, StandardOpenOption.WRITE, StandardOpenOption.TRUNCATE_EXISTING)) {
                while (bytes.hasRemaining()) {
                    channel.write(bytes);
                }
                channel.force(true);
            }
            return true;
        } catch (IOException e) {
            LOG.warn("the reserve cannot be set aside", e);
            release();
            return false;
        }
    }

    /**
     * Gives the space back to the disk.
     *
     * @return whether there was any to give
     */
    boolean release() {
        try {
            return Files.deleteIfExists(file);
        } catch (IOException e) {
            LOG.warn("the reserve cannot be freed", e);
            return false;
        }
    }
}

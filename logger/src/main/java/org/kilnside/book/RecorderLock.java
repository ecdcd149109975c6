package org.kilnside.book;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import org.kilnside.book.BookException.Reason;

/**
 * The recorder's role for one book: a lock on a small file beside it, which names the process that holds it. The
 * system takes the lock back when the process ends, however it ends.
 */
final class RecorderLock implements AutoCloseable {
    /** Far behind the text: on Windows the locked bytes themselves cannot be read by others. */
    private static final long LOCKED_BYTE = 1L << 40;

    /**
     * The locks this process holds. Asked before the file is touched: closing any descriptor of it would drop the
     * lock this process already has on it.
     */
    private static final Set<Path> HELD_HERE = new HashSet<>();

    /** Somebody who only asks holds the lock for an instant; a recorder that begins then tries again. */
    private static final int ATTEMPTS = 5;

    private static final long BETWEEN_ATTEMPTS_MS = 40;

    private final BookFile book;
    private final Path file;
    private final FileChannel channel;

    private RecorderLock(BookFile book, Path file, FileChannel channel) {
        this.book = book;
        this.file = file;
        this.channel = channel;
    }

    /**
     * Takes the role.
     *
     * @throws BookException when another process, or this one, has it already
     */
    static RecorderLock take(BookFile book) {
        Path file = realName(book.recorderFile());
        synchronized (HELD_HERE) {
            if (HELD_HERE.contains(file)) {
                throw inUse(book, Optional.of(ProcessHandle.current().pid()));
            }
            try {
                Files.createDirectories(file.getParent());
                FileChannel channel = FileChannel.open(
                        file, StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE);
                if (!holds(channel)) {
                    Optional<Long> holder = holderNamed(channel);
                    channel.close();
                    throw inUse(book, holder);
                }
                HELD_HERE.add(file);
                return new RecorderLock(book, file, channel);
            } catch (AccessDeniedException e) {
                throw new BookException(
                        Reason.READ_ONLY,
                        "The folder of the firing book " + book.path() + " may not be written (" + e.getMessage()
                                + "): give yourself permission, or choose another file.",
                        e);
            } catch (IOException e) {
                throw new BookException(
                        Reason.UNUSABLE,
                        "Recording into the firing book " + book.path() + " cannot begin, " + file
                                + " cannot be written: " + e.getMessage() + ".",
                        e);
            }
        }
    }

    /** The book whose role this is. */
    BookFile book() {
        return book;
    }

    /** Whether a process records into a book now. */
    static boolean isHeld(BookFile book) {
        Path file = realName(book.recorderFile());
        synchronized (HELD_HERE) {
            if (HELD_HERE.contains(file)) {
                return true;
            }
            if (!Files.exists(file)) {
                return false;
            }
            try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
                return channel.tryLock(LOCKED_BYTE, 1, true) == null;
            } catch (IOException e) {
                throw new BookException(
                        Reason.UNUSABLE,
                        "Whether somebody records into the firing book " + book.path() + " cannot be found out: "
                                + e.getMessage() + ".",
                        e);
            }
        }
    }

    /** Locks and signs; on any failure nothing stays locked. */
    private static boolean holds(FileChannel channel) throws IOException {
        try {
            if (!lockedInTheEnd(channel)) {
                return false;
            }
            byte[] text = (ProcessHandle.current().pid() + "\n").getBytes(StandardCharsets.US_ASCII);
            channel.truncate(0);
            channel.write(ByteBuffer.wrap(text), 0);
            return true;
        } catch (IOException e) {
            channel.close();
            throw e;
        }
    }

    private static boolean lockedInTheEnd(FileChannel channel) throws IOException {
        for (int attempt = 1; !locked(channel); attempt++) {
            if (attempt == ATTEMPTS) {
                return false;
            }
            try {
                Thread.sleep(BETWEEN_ATTEMPTS_MS);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                return false;
            }
        }
        return true;
    }

    private static boolean locked(FileChannel channel) throws IOException {
        try {
            FileLock lock = channel.tryLock(LOCKED_BYTE, 1, false);
            return lock != null;
        } catch (OverlappingFileLockException e) {
            return false;
        }
    }

    private static Optional<Long> holderNamed(FileChannel channel) throws IOException {
        ByteBuffer text = ByteBuffer.allocate(32);
        channel.read(text, 0);
        String pid = new String(text.array(), 0, text.position(), StandardCharsets.US_ASCII).trim();
        return pid.matches("\\d{1,10}") ? Optional.of(Long.valueOf(pid)) : Optional.empty();
    }

    private static BookException inUse(BookFile book, Optional<Long> holder) {
        String who = holder.map(pid -> pid == ProcessHandle.current().pid()
                        ? "this program already records into it (process " + pid + ")"
                        : "process " + pid + " already records into it")
                .orElse("another process already records into it");
        return new BookException(
                Reason.IN_USE,
                "The firing book " + book.path() + " has one recorder at a time, and " + who
                        + ": attach to that one, end it first, or choose another book.");
    }

    /** One name however the path is written, so that a symbolic link to the folder does not get round the lock. */
    private static Path realName(Path file) {
        try {
            return file.getParent().toRealPath().resolve(file.getFileName());
        } catch (IOException e) {
            return file; // the folder is not there: opening the file will say so
        }
    }

    /** Gives the role back. The file stays: removing it would let two processes lock two files of one name. */
    @Override
    public void close() {
        synchronized (HELD_HERE) {
            HELD_HERE.remove(file);
            try {
                channel.truncate(0);
                channel.close();
            } catch (IOException e) {
                throw new BookException(
                        Reason.UNUSABLE, "The recorder's role " + file + " cannot be given back: " + e.getMessage(), e);
            }
        }
    }
}

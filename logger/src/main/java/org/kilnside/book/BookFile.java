package org.kilnside.book;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.sql.Connection;
import java.sql.SQLException;
import org.kilnside.book.BookException.Reason;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteDataSource;

/**
 * The book's file, the files beside it, and how a connection to it is made.
 *
 * <p>Java must never open and close the book's own file while SQLite has it open in this process: closing any
 * descriptor of a file drops all of the process's POSIX locks on it (sqlite.org/howtocorrupt.html, 2.2).
 */
record BookFile(Path path) {
    /** How long a connection waits while another one writes a note or a checkpoint. */
    private static final int BUSY_TIMEOUT_MS = 5_000;

    /** Resolves symbolic links, as SQLite does: the files beside the book are beside the real one. */
    BookFile {
        path = path.toAbsolutePath().normalize();
        try {
            path = Files.exists(path) ? path.toRealPath() : path;
        } catch (IOException e) {
            throw new BookException(
                    Reason.UNUSABLE, "The firing book " + path + " cannot be found: " + e.getMessage() + ".", e);
        }
    }

    boolean exists() {
        return Files.exists(path);
    }

    /** Whether both the file and its folder may be written; SQLite needs both. */
    boolean isWritable() {
        return Files.isWritable(path) && Files.isWritable(folder());
    }

    Path folder() {
        return path.getParent();
    }

    /** The file whose lock is the recorder's role. */
    Path recorderFile() {
        return beside(".recorder");
    }

    /** Space kept back for the day the disk is full. */
    Path reserveFile() {
        return beside(".reserve");
    }

    /** Where a new book is made before it takes its place whole. */
    Path draftFile() {
        return beside(".draft");
    }

    Path beside(String ending) {
        return path.resolveSibling(path.getFileName() + ending);
    }

    /** A connection that may write, with every commit forced to the disk. */
    Connection connect() throws SQLException {
        return dataSource(path).getConnection();
    }

    /** A connection that cannot write, and needs no permission to. */
    Connection connectReadOnly() throws SQLException {
        SQLiteConfig config = new SQLiteConfig();
        config.setReadOnly(true);
        config.setBusyTimeout(BUSY_TIMEOUT_MS);
        boolean othersMayWrite = Files.isWritable(folder()) || Files.exists(beside("-wal"));
        // In a folder nobody can write to, SQLite cannot lay its index beside the book, and need not: nothing changes.
        String address = othersMayWrite
                ? "jdbc:sqlite:" + path
                : "jdbc:sqlite:file:" + path.toUri().getRawPath() + "?immutable=1";
        return config.createConnection(address);
    }

    /**
     * The settings every writing connection has. With WAL and synchronous=NORMAL a power cut would take everything
     * since the last checkpoint (measured: 14 min of readings); FULL forces the log at every commit.
     */
    static SQLiteDataSource dataSource(Path file) {
        SQLiteConfig config = new SQLiteConfig();
        config.setJournalMode(SQLiteConfig.JournalMode.WAL);
        config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
        config.setBusyTimeout(BUSY_TIMEOUT_MS);
        config.enforceForeignKeys(true);
        SQLiteDataSource source = new SQLiteDataSource(config);
        source.setUrl("jdbc:sqlite:" + file);
        return source;
    }

    /** Forces a finished file and its name to the disk. Never call it on a book that is open in this process. */
    static void force(Path file) throws IOException {
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
            channel.force(true);
        }
        forceFolder(file.toAbsolutePath().getParent());
    }

    static void forceFolder(Path folder) throws IOException {
        if (System.getProperty("os.name").startsWith("Windows")) {
            return; // a folder cannot be opened there, and NTFS journals its names itself
        }
        try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
            channel.force(true);
        }
    }
}

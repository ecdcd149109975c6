package org.kilnside.book;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Optional;
import org.kilnside.book.BookException.Reason;

/**
 * Copies a book as it was at one instant, while a recorder goes on writing it: {@code VACUUM INTO} reads one
 * transaction and writes a file of its own (sqlite.org/lang_vacuum.html). The copy is forced to the disk and checked
 * before it takes its name.
 */
final class BookBackup {
    private BookBackup() {}

    static void write(BookFile book, Connection connection, Path target) {
        Path absolute = target.toAbsolutePath().normalize();
        if (Files.exists(absolute)) {
            throw new BookException(
                    Reason.UNUSABLE,
                    "The backup " + absolute + " is there already and is not written over: choose another name.");
        }
        Path draft = absolute.resolveSibling(absolute.getFileName() + ".draft");
        try {
            Files.createDirectories(absolute.getParent());
            Files.deleteIfExists(draft);
            try (PreparedStatement copy = connection.prepareStatement("VACUUM INTO ?")) {
                copy.setString(1, draft.toString());
                copy.executeUpdate();
            }
            Optional<String> finding = finding(new BookFile(draft));
            if (finding.isPresent()) {
                throw new BookException(
                        Reason.DAMAGED,
                        "The backup of " + book.path() + " does not read back: " + finding.get()
                                + ". Try another disk.");
            }
            BookFile.force(draft);
            Files.move(draft, absolute, StandardCopyOption.ATOMIC_MOVE);
            BookFile.forceFolder(absolute.getParent());
        } catch (SQLException e) {
            String what = SqliteTrouble.reason(e) == Reason.DISK_FULL
                    ? "The disk is too full for the backup " + absolute + ": free some space or choose another disk."
                    : "The backup " + absolute + " could not be written. " + SqliteTrouble.sentence(book.path(), e);
            throw new BookException(SqliteTrouble.reason(e), what, e);
        } catch (IOException e) {
            throw new BookException(
                    Reason.UNUSABLE, "The backup " + absolute + " could not be written: " + e.getMessage() + ".", e);
        } finally {
            removeDraft(draft);
        }
    }

    private static Optional<String> finding(BookFile draft) throws SQLException {
        try (Connection connection = draft.connectReadOnly();
                Statement statement = connection.createStatement();
                ResultSet found = statement.executeQuery("PRAGMA integrity_check(1)")) {
            String first = found.next() ? found.getString(1) : "no answer";
            return first.equals("ok") ? Optional.empty() : Optional.of(first);
        }
    }

    private static void removeDraft(Path draft) {
        try {
            if (Files.exists(draft)) {
                Files.delete(draft);
            }
        } catch (IOException e) {
            // It is named a draft and the next backup replaces it; the trouble that left it is on its way already.
            org.slf4j.LoggerFactory.getLogger(BookBackup.class).warn("a backup's draft stays behind", e);
        }
    }
}

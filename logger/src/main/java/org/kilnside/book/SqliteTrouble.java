package org.kilnside.book;

import java.nio.file.Path;
import java.sql.SQLException;
import java.util.Locale;
import org.kilnside.book.BookException.Reason;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;

/** Says in one plain sentence what SQLite's error codes mean for the book (sqlite.org/rescode.html). */
final class SqliteTrouble {
    private SqliteTrouble() {}

    static Reason reason(SQLException e) {
        SQLiteErrorCode code = primaryCode(e);
        return switch (code) {
            case SQLITE_FULL -> Reason.DISK_FULL;
            case SQLITE_NOTADB, SQLITE_CORRUPT -> Reason.DAMAGED;
            case SQLITE_READONLY, SQLITE_PERM -> Reason.READ_ONLY;
            case SQLITE_BUSY, SQLITE_LOCKED -> Reason.IN_USE;
            default -> Reason.UNUSABLE;
        };
    }

    static boolean isConstraint(SQLException e) {
        return primaryCode(e) == SQLiteErrorCode.SQLITE_CONSTRAINT;
    }

    /** What SQLite said, from behind Jdbi's own exception. */
    static SQLException within(Exception e) {
        for (Throwable cause = e; cause != null; cause = cause.getCause()) {
            if (cause instanceof SQLException sql) {
                return sql;
            }
        }
        throw new IllegalStateException("the book failed, but not in SQLite", e);
    }

    static BookException of(Path book, SQLException e) {
        return new BookException(reason(e), sentence(book, e), e);
    }

    /** What is wrong and what to do next, in whole English sentences: for who typed a command. */
    static String sentence(Path book, SQLException e) {
        return sentence(book, e, Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH)));
    }

    /** The same in a potter's own language. */
    static String sentence(Path book, SQLException e, Words words) {
        String key = switch (primaryCode(e)) {
            case SQLITE_FULL -> "book.disk_full";
            case SQLITE_NOTADB -> "book.no_book";
            case SQLITE_CORRUPT -> "book.damaged";
            case SQLITE_READONLY, SQLITE_PERM -> "book.read_only";
            case SQLITE_BUSY, SQLITE_LOCKED -> "book.locked";
            case SQLITE_CANTOPEN -> "book.not_opened";
            case SQLITE_IOERR -> "book.disk_error";
            default -> "book.unusable";
        };
        return words.text(key, book, code(e));
    }

    private static String code(SQLException e) {
        return e instanceof SQLiteException sqlite ? sqlite.getResultCode().name() : e.getMessage();
    }

    /** The extended codes carry the primary one in their low byte. */
    private static SQLiteErrorCode primaryCode(SQLException e) {
        int code = e instanceof SQLiteException sqlite ? sqlite.getResultCode().code : e.getErrorCode();
        return SQLiteErrorCode.getErrorCode(code & 0xff);
    }
}

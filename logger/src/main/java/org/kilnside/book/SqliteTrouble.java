package org.kilnside.book;

import java.nio.file.Path;
import java.sql.SQLException;
import org.kilnside.book.BookException.Reason;
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

    /** What is wrong and what to do next, in whole sentences. */
    static String sentence(Path book, SQLException e) {
        SQLiteErrorCode code = primaryCode(e);
        return switch (code) {
            case SQLITE_FULL -> "The disk that holds the firing book " + book + " is full: free some space on it.";
            case SQLITE_NOTADB ->
                "The file " + book + " is damaged or no firing book: it does not begin as one. Nothing was changed;"
                        + " put a backup in its place, or choose another file.";
            case SQLITE_CORRUPT ->
                "The firing book " + book
                        + " is damaged or was cut short. Nothing was changed; run \"book check\" to see"
                        + " how far it can be read, and put a backup in its place.";
            case SQLITE_READONLY, SQLITE_PERM ->
                "The firing book " + book + " may not be written: give yourself permission to write the file and its"
                        + " folder, or choose another file.";
            case SQLITE_BUSY, SQLITE_LOCKED ->
                "The firing book " + book
                        + " has been locked by another program for more than 5 s: close that program.";
            case SQLITE_CANTOPEN ->
                "The firing book " + book + " cannot be opened: check that the folder is there and that you may write"
                        + " in it, or copy the book and the files beside it to where you may.";
            case SQLITE_IOERR ->
                "The disk that holds the firing book " + book + " reports an error (" + code(e) + "): check that it is"
                        + " still connected and sound.";
            default -> "The firing book " + book + " cannot be used (" + code(e) + ").";
        };
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

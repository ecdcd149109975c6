package org.kilnside.book;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import org.jdbi.v3.core.JdbiException;
import org.kilnside.book.BookException.Reason;
import org.kilnside.firing.FiringEvent;

/**
 * What a thorough look through a book found. It only reads.
 *
 * @param findings one sentence each; empty when the book is sound
 * @param firings how many firings were looked at
 * @param readings how many readings were looked at
 */
public record BookCheck(List<String> findings, long firings, long readings) {
    private static final int MOST_FINDINGS = 100;

    public BookCheck {
        findings = List.copyOf(findings);
    }

    public boolean isSound() {
        return findings.isEmpty();
    }

    /**
     * Looks through a book: the file as SQLite lays it out, and what must hold between its rows.
     *
     * @throws BookException when there is no book at the path, or the file is none
     */
    public static BookCheck of(Path path) {
        BookFile book = new BookFile(path);
        if (!book.exists()) {
            throw new BookException(Reason.MISSING, "There is no firing book at " + book.path() + ".");
        }
        Inspection inspection = new Inspection();
        try (Connection connection = book.connectReadOnly()) {
            BookSchema.versionOf(book, connection);
            try (Statement statement = connection.createStatement()) {
                // One view of the book throughout, whatever its recorder does meanwhile.
                statement.execute("BEGIN");
                inspection.look(connection);
                statement.execute("ROLLBACK");
            }
        } catch (SQLException | JdbiException e) {
            inspection.add(SqliteTrouble.sentence(book.path(), SqliteTrouble.within(e)));
        } catch (BookException e) {
            if (e.reason() == Reason.NOT_A_BOOK) {
                throw e;
            }
            inspection.add(e.getMessage());
        }
        return new BookCheck(inspection.findings, inspection.firings, inspection.readings);
    }

    /** The looking itself, finding by finding. */
    private static final class Inspection {
        private final List<String> findings = new ArrayList<>();
        private long firings;
        private long readings;

        void add(String finding) {
            if (findings.size() < MOST_FINDINGS) {
                findings.add(finding);
            }
        }

        void look(Connection connection) throws SQLException {
            try (Statement statement = connection.createStatement()) {
                layOut(statement);
                references(statement);
                order(statement);
                known(statement);
                firings = count(statement, "firing");
                readings = count(statement, "reading");
            }
            summaries(connection);
        }

        private static long count(Statement statement, String table) throws SQLException {
            try (ResultSet found = statement.executeQuery("SELECT count(*) FROM " + table)) {
                found.next();
                return found.getLong(1);
            }
        }

        private void layOut(Statement statement) throws SQLException {
            each(statement, "PRAGMA integrity_check", row -> {
                if (!row.getString(1).equals("ok")) {
                    add("The file's structure is damaged: " + row.getString(1) + ".");
                }
            });
        }

        private void references(Statement statement) throws SQLException {
            each(
                    statement,
                    "PRAGMA foreign_key_check",
                    row -> add("A row of " + row.getString(1) + " belongs to no row of " + row.getString(3) + "."));
        }

        private void order(Statement statement) throws SQLException {
            each(
                    statement,
                    "SELECT firing, elapsed_ms FROM reading GROUP BY firing, elapsed_ms HAVING max(repeat) >= count(*)",
                    row -> add("Firing " + row.getLong(1) + " lacks a line it had at " + row.getLong(2) + " ms."));
            each(
                    statement,
                    "SELECT firing FROM plan_segment GROUP BY firing HAVING max(position) > count(*)",
                    row -> add("The plan of firing " + row.getLong(1) + " lacks a segment."));
        }

        private void known(Statement statement) throws SQLException {
            each(statement, "SELECT DISTINCT firing, kind FROM event", row -> {
                String kind = row.getString(2);
                try {
                    FiringEvent.Kind.valueOf(kind);
                } catch (IllegalArgumentException e) {
                    add("Firing " + row.getLong(1) + " has an event of an unknown kind, " + kind + ".");
                }
            });
        }

        /** The list's columns must say what the readings say. */
        private void summaries(Connection connection) throws SQLException {
            try (Statement statement = connection.createStatement()) {
                each(
                        statement,
                        "SELECT number, reading_count, coalesce(last_elapsed_ms, -1) FROM firing"
                                + " WHERE reading_count IS NOT NULL",
                        row -> {
                            FiringQueries.Extent extent = FiringQueries.extent(connection, row.getLong(1));
                            if (extent.readingCount() != row.getLong(2)
                                    || extent.lastElapsedMs().orElse(-1) != row.getLong(3)) {
                                add("Firing " + row.getLong(1) + " is listed with " + row.getLong(2)
                                        + " readings but has " + extent.readingCount() + ".");
                            }
                        });
            }
        }

        private static void each(Statement statement, String sql, RowTaker taker) throws SQLException {
            try (ResultSet rows = statement.executeQuery(sql)) {
                while (rows.next()) {
                    taker.take(rows);
                }
            }
        }

        @FunctionalInterface
        private interface RowTaker {
            void take(ResultSet row) throws SQLException;
        }
    }
}

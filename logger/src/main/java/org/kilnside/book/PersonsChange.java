package org.kilnside.book;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.sql.Types;

/** What a person changes in the book: one short transaction, wholly or not at all, beside a recorder and other windows. */
final class PersonsChange {
    private final Connection connection;

    PersonsChange(Connection connection) {
        this.connection = connection;
    }

    /** What is done in the transaction. */
    @FunctionalInterface
    interface Work<T> {
        T run() throws SQLException;
    }

    <T> T inOneTransaction(Work<T> work) throws SQLException {
        execute("BEGIN IMMEDIATE");
        boolean done = false;
        try {
            T result = work.run();
            execute("COMMIT");
            done = true;
            return result;
        } finally {
            if (!done) {
                execute("ROLLBACK");
            }
        }
    }

    /**
     * @param values in the order of the question marks; null for nothing known
     * @return how many rows it changed
     */
    int update(String sql, Object... values) throws SQLException {
        try (PreparedStatement statement = connection.prepareStatement(sql)) {
            for (int i = 0; i < values.length; i++) {
                if (values[i] == null) {
                    statement.setNull(i + 1, Types.NULL);
                } else if (values[i] instanceof byte[] bytes) {
                    statement.setBytes(i + 1, bytes);
                } else {
                    statement.setObject(i + 1, values[i]);
                }
            }
            return statement.executeUpdate();
        }
    }

    /** The number of the next row of a table. */
    long next(String table) throws SQLException {
        try (Statement statement = connection.createStatement();
                ResultSet row = statement.executeQuery("SELECT coalesce(max(number), 0) + 1 FROM " + table)) {
            row.next();
            return row.getLong(1);
        }
    }

    private void execute(String sql) throws SQLException {
        try (Statement statement = connection.createStatement()) {
            statement.execute(sql);
        }
    }
}

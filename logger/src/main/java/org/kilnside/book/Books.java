package org.kilnside.book;

import java.sql.Connection;
import java.sql.SQLException;

/** Opens books for writing, bringing them up to date. */
final class Books {
    private Books() {}

    static Connection openForWriting(BookFile book) throws SQLException {
        if (!book.exists()) {
            BookSchema.create(book);
        }
        Connection connection = book.connect();
        int version = BookSchema.versionOf(book, connection);
        if (version > BookSchema.VERSION) {
            connection.close();
            throw BookSchema.newer(book, version);
        }
        return connection;
    }
}

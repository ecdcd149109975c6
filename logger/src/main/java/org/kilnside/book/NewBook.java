package org.kilnside.book;

import java.nio.file.Path;
import java.sql.SQLException;

/** Makes a book before there is anything recorded to put into it: a sensor may be noted before the first firing. */
public final class NewBook {
    private NewBook() {}

    /**
     * Opens a book for something to be noted in it; makes it where there is none, under the recorder's role.
     *
     * @throws BookException as {@link Book#open}, and when it cannot be made
     */
    public static Book openOrMake(Path path) {
        BookFile file = new BookFile(path);
        if (!file.exists()) {
            try (RecorderLock role = RecorderLock.take(file)) {
                Books.CURRENT.openForRecorder(role.book()).close();
            } catch (SQLException e) {
                throw SqliteTrouble.of(file.path(), e);
            }
        }
        return Book.open(path);
    }
}

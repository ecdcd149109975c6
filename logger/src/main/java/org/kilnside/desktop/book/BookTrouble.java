package org.kilnside.desktop.book;

import org.kilnside.book.BookException;
import org.kilnside.wording.Words;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** What went wrong with an errand, in one sentence. */
final class BookTrouble {
    private static final Logger LOG = LoggerFactory.getLogger(BookTrouble.class);

    private BookTrouble() {}

    static String sentence(Exception failure, Words words) {
        if (failure instanceof BookException told) {
            return told.getMessage();
        }
        LOG.error("the Book screen met an error of the program itself", failure);
        return words.text("firings.error");
    }
}

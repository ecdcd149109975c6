/**
 * The firing book on disk: every reading to the code, what happened, and what it was fired with.
 *
 * <p>Knows: the craft rooms and the port {@link org.kilnside.session.FiringBook} it fills; SQLite, Flyway and Jdbi live
 * here and nowhere else. Must not know: links, faces, where the book belongs on this system (it is given a path).
 *
 * <p>Threads: {@link org.kilnside.book.BookRecorder} is called by the session's thread, never makes it wait for the
 * disk, and writes on a thread of its own. {@link org.kilnside.book.Book} may be used from any one thread at a time;
 * it waits for the disk. Truth: the file, as SQLite reads it back.
 */
package org.kilnside.book;

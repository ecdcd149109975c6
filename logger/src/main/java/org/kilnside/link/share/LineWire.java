package org.kilnside.link.share;

import java.io.Closeable;
import java.io.IOException;
import java.util.function.LongConsumer;

/** Lines of text to and from another Kilnside. One thread reads and another writes; a third may close. */
public interface LineWire extends Closeable {
    /**
     * The next line without its end; null when the other end has closed.
     *
     * @param longest more characters than this and the wire is given up
     */
    String readLine(int longest) throws IOException;

    /**
     * Writes a line and its end, waiting for the other end to take it.
     *
     * @param progress told after each piece that went, so that one that is slow can be told from one that does not read
     */
    void writeLine(String line, LongConsumer progress) throws IOException;

    /** Breaks off whatever waits on this wire, on any thread, and never waits itself. */
    @Override
    void close();
}

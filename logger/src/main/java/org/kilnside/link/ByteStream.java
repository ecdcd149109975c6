package org.kilnside.link;

/** An open stream of bytes. Confined to the link's thread. */
interface ByteStream extends AutoCloseable {
    /** What {@link #read} says when the stream is at its end or the other side is gone. */
    int END = -1;

    /**
     * Waits a moment (about a tenth of a second at most) for bytes.
     *
     * @return how many came; 0 when none did; {@link #END} when none will
     */
    int read(byte[] buffer) throws LinkTroubleException, InterruptedException;

    /** Sends bytes; a link that cannot send lets them go. */
    void write(byte[] bytes) throws LinkTroubleException;

    @Override
    void close();
}

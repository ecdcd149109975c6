package org.kilnside.protocol;

import java.nio.charset.StandardCharsets;

/** The only two things a host may ask of a controller, which may ignore both. There is nothing else, and will not be. */
public final class Request {
    /** A week before the controller's last start. */
    public static final int EARLIEST_MINUTE = -10_080;

    /** The last whole minute of a 32-bit count of milliseconds. */
    public static final int LATEST_MINUTE = 71_582;

    private Request() {}

    /** Say hello again. */
    public static byte[] hello() {
        return "?H\n".getBytes(StandardCharsets.US_ASCII);
    }

    /**
     * Send what you kept.
     *
     * @param sinceMinute the first uptime minute wanted, −10080 … 71582; negative = before the controller's last start
     */
    public static byte[] kept(int sinceMinute) {
        if (sinceMinute < EARLIEST_MINUTE || sinceMinute > LATEST_MINUTE) {
            throw new IllegalArgumentException("a kept minute lies in -10080 … 71582, found " + sinceMinute);
        }
        return ("?K " + sinceMinute + "\n").getBytes(StandardCharsets.US_ASCII);
    }
}

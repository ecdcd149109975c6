package org.kilnside.protocol;

import java.nio.charset.StandardCharsets;

/** The only two things a host may ask of a controller, which may ignore both. There is nothing else, and will not be. */
public final class Request {
    private Request() {}

    /** Say hello again. */
    public static byte[] hello() {
        return "?H\n".getBytes(StandardCharsets.US_ASCII);
    }

    /**
     * Send what you kept.
     *
     * @param sinceMinute the first uptime minute wanted, not negative
     */
    public static byte[] kept(long sinceMinute) {
        if (sinceMinute < 0) {
            throw new IllegalArgumentException("an uptime minute is not negative, found " + sinceMinute);
        }
        return ("?K " + sinceMinute + "\n").getBytes(StandardCharsets.US_ASCII);
    }
}

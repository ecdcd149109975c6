package org.kilnside.protocol;

/**
 * All kept readings asked for have been sent (kind E).
 *
 * @param fromMinute the uptime minute the host had asked from
 * @param sent how many kept readings were sent
 */
public record KeptEnd(int sequence, long uptimeMs, int fromMinute, int sent) implements Message {
    public KeptEnd {
        Message.checkHead(sequence, uptimeMs);
    }
}

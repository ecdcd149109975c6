package org.kilnside.link;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.kilnside.protocol.ChannelCodes;
import org.kilnside.protocol.Hello;
import org.kilnside.protocol.Message;
import org.kilnside.protocol.ReadingLine;

/** The lines a plain one-channel controller sends. */
final class Lines {
    private int sequence;

    Hello hello(long uptimeMs) {
        return hello(uptimeMs, 1000, OptionalInt.empty());
    }

    Hello hello(long uptimeMs, int intervalMs, OptionalInt resetCause) {
        return new Hello(
                next(),
                uptimeMs & Message.UPTIME_MAX_MS,
                1,
                Optional.of("tall-drum"),
                Optional.of("reference-1.0"),
                OptionalInt.of(1),
                List.of(new Hello.HelloChannel(1, Optional.of("K"), Optional.of("MAX31856"))),
                OptionalInt.of(intervalMs),
                OptionalInt.of(0),
                resetCause);
    }

    ReadingLine reading(long uptimeMs, int celsius) {
        return new ReadingLine(
                next(),
                uptimeMs & Message.UPTIME_MAX_MS,
                List.of(new ChannelCodes(
                        1, OptionalInt.of(celsius * 128), OptionalInt.of(20 * 64), ChannelCodes.NO_FAULT)),
                OptionalInt.of(500),
                OptionalInt.of(6000),
                OptionalInt.of(2));
    }

    /** A number goes missing. */
    Lines skip() {
        next();
        return this;
    }

    /** The controller starts anew. */
    Lines restart() {
        sequence = 0;
        return this;
    }

    private int next() {
        int now = sequence;
        sequence = sequence + 1 & Message.SEQUENCE_MAX;
        return now;
    }
}

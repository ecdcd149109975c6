package org.kilnside.link;

import java.util.OptionalLong;
import org.kilnside.wording.Words;

/** Something that can be opened, again and again, as a stream of bytes. */
interface Port {
    /** Opens it anew. */
    ByteStream open() throws LinkTroubleException;

    /** What a person calls it in a sentence, such as {@code /dev/ttyUSB0}. */
    String title();

    /** The link as a person types it for {@code ports}. */
    default String asLink() {
        return title();
    }

    /** Kiln time over host time. */
    default double speed() {
        return 1;
    }

    /** Whether the stream has an end of its own, after which there is nothing to reconnect to. */
    default boolean finite() {
        return false;
    }

    /** Whether opening it may pull a line that restarts a controller. */
    default boolean mayRestartController() {
        return false;
    }

    /** After how many ms of silence the other side is taken for gone; empty where its going shows by itself. */
    default OptionalLong goneAfterSilenceMs() {
        return OptionalLong.empty();
    }

    /** A sentence when this port is not set as the bytes seem to need; said when only noise comes. */
    default String noiseAdvice(Words words) {
        return words.text("wire.same_speed");
    }
}

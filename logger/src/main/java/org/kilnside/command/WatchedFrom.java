package org.kilnside.command;

import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.IntSupplier;
import org.kilnside.link.AttachedFiring;
import org.kilnside.session.Host;
import org.kilnside.session.LiveFiring;
import org.kilnside.session.Post;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * From where a night watch watches: beside the recording, or over a wire.
 *
 * @param role what this computer does
 * @param silence on a copy, whether anything is heard of the recorder
 * @param record takes what stands in the way of making an alarm heard here
 * @param followers how many copies follow a recorder
 * @param waiting how much said on a copy has not reached the recorder yet
 * @param tooLate how much of it was given up
 * @param host asked for the line about its health
 */
record WatchedFrom(
        Post.Role role,
        Optional<RecorderSilence> silence,
        Consumer<String> record,
        IntSupplier followers,
        IntSupplier waiting,
        IntSupplier tooLate,
        Host host) {
    private static final Logger LOG = LoggerFactory.getLogger(WatchedFrom.class);

    /** Beside the recording, in its process. */
    static WatchedFrom recorder(LiveFiring firing, IntSupplier followers, Host host) {
        return new WatchedFrom(
                Post.Role.RECORDER, Optional.empty(), firing::alarmUnheard, followers, () -> 0, () -> 0, host);
    }

    /**
     * Over a wire.
     *
     * @param awaited whether there has to be a recording, so that it is an alarm when none is ever heard
     */
    static WatchedFrom copy(AttachedFiring firing, boolean awaited) {
        return new WatchedFrom(
                Post.Role.COPY,
                Optional.of(new RecorderSilence(firing, awaited)),
                why -> LOG.warn("an alarm may go unheard here: {}", why),
                () -> 0,
                firing::waiting,
                firing::tooLate,
                Host.UNKNOWN);
    }
}

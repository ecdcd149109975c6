package org.kilnside.host;

import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The hangup signal: what a terminal that is closed sends to all it started, a recording among them. */
public final class Hangup {
    private static final Logger LOG = LoggerFactory.getLogger(Hangup.class);

    private Hangup() {}

    /**
     * Lets this process go on when its terminal is closed or its user logs out. Java has no public way to say so: the
     * class it has lies in the module jdk.unsupported, and a Java without it, or Windows, goes on as it is.
     *
     * @return whether it is so now
     */
    public static boolean ignore() {
        try {
            Class<?> signal = Class.forName("sun.misc.Signal");
            Class<?> handler = Class.forName("sun.misc.SignalHandler");
            Object hangup = signal.getConstructor(String.class).newInstance("HUP");
            Object ignore = handler.getField("SIG_IGN").get(null);
            signal.getMethod("handle", signal, handler).invoke(null, hangup, ignore);
            return true;
        } catch (ReflectiveOperationException | RuntimeException e) {
            LOG.info("a hangup would end this recording", e);
            return false;
        }
    }
}

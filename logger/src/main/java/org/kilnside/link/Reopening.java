package org.kilnside.link;

import java.time.LocalDate;
import java.util.Optional;
import java.util.OptionalInt;
import org.kilnside.protocol.Uptime;
import org.kilnside.wording.Words;

/**
 * Watches whether opening the port restarts the controller. If a restart ever follows an opening, the port is not
 * opened by itself again: doing so would restart the firing again and again.
 *
 * <p>A controller that was restarted by the opening began to count its uptime after the opening. One that was off while
 * its cable was out began before, and is none of our doing.
 */
final class Reopening {
    /** What the host's clock and the time a line needs on the wire may put between a restart and its opening. */
    private static final long LEEWAY_MS = 500;

    /** A boot loader keeps a board for two seconds before it says its first word. */
    private static final long LONGEST_BOOT_MS = 5_000;

    /** The reset cause RESET pin, of bits.csv. */
    private static final int RESET_PIN = 2;

    private final Uptime uptime = new Uptime();
    private boolean openings;
    private long openedAtMs;
    private boolean lookedAtCause;
    private boolean guilty;

    /** The day on which opening this port was seen to restart the controller; empty when it never was. */
    private final Optional<LocalDate> knownSince;

    private final Words words;

    Reopening(Optional<LocalDate> knownSince, Words words) {
        this.knownSince = knownSince;
        this.words = words;
    }

    /** The port was opened at a host time. */
    void opened(long hostMs) {
        openings = true;
        openedAtMs = hostMs;
        lookedAtCause = false;
    }

    /** A message came with this uptime. */
    void heard(long uptimeMs, OptionalInt resetCauseBits, long hostMs) {
        boolean restarted = uptime.restarted(uptimeMs, hostMs);
        if (!openings || guilty) {
            return;
        }
        long startedAtMs = hostMs - uptimeMs;
        boolean afterOpening = startedAtMs >= openedAtMs - LEEWAY_MS && startedAtMs <= openedAtMs + LONGEST_BOOT_MS;
        // Without an uptime from before, the RESET pin as the cause is the proof; a controller merely switched on just
        // now says another.
        boolean byResetPin = !lookedAtCause
                && resetCauseBits.isPresent()
                && (resetCauseBits.getAsInt() & RESET_PIN) != 0
                && (resetCauseBits.getAsInt() & ~RESET_PIN) == 0;
        if (resetCauseBits.isPresent()) {
            lookedAtCause = true;
        }
        guilty = afterOpening && (restarted || byResetPin);
    }

    /** Whether the port may be opened again without being asked. */
    boolean allowed() {
        return !guilty && knownSince.isEmpty();
    }

    /** Whether an opening was followed by a restart since this began to watch. */
    boolean sawRestart() {
        return guilty;
    }

    /** The sentence for a connection that is gone and may not be made anew. */
    String givenUpSentence(String port, String why) {
        return sentence(port).orElseGet(() -> why + " " + words.text("wire.restarts", port, knownSince.orElseThrow()));
    }

    /** The one sentence that names the cause; empty while nothing speaks against reopening. */
    Optional<String> sentence(String port) {
        return guilty ? Optional.of(words.text("wire.restarted", port)) : Optional.empty();
    }
}

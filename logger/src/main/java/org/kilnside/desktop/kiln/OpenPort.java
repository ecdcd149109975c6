package org.kilnside.desktop.kiln;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The port that was chosen: its link, what was heard from it, and the speeds still to be tried on it. */
final class OpenPort {
    /** The speeds controllers are usually set to, the likeliest first. */
    static final List<Integer> SPEEDS = List.of(115_200, 9_600, 57_600, 38_400, 19_200, 230_400, 250_000);

    /** At one speed long enough to tell text from noise. */
    private static final long SPEED_MS = 3_500;

    private static final Logger LOG = LoggerFactory.getLogger(OpenPort.class);

    private final Chores chores;
    private String link = "";
    private Optional<Wire.Ears> ears = Optional.empty();
    private Optional<Wire.Heard> heard = Optional.empty();
    private FirstLines look = FirstLines.WAITING;
    private Deque<Integer> speedsToTry = new ArrayDeque<>();

    OpenPort(Chores chores) {
        this.chores = chores;
    }

    String link() {
        return link;
    }

    void choose(String chosen) {
        link = chosen;
    }

    /** Lets go of the port, and of what was heard from it. */
    void letGo() {
        ears.ifPresent(this::close);
        ears = Optional.empty();
        heard = Optional.empty();
        look = FirstLines.WAITING;
        speedsToTry = new ArrayDeque<>();
    }

    /** Lets go of the port and keeps what was heard, to be shown. */
    void stopListening() {
        Optional<Wire.Heard> found = heard;
        letGo();
        heard = found;
    }

    /** Closes a link, which waits for its thread. */
    void close(Wire.Ears open) {
        chores.run(
                () -> {
                    open.close();
                    return open;
                },
                closed -> {},
                failure -> LOG.warn("a link could not be closed", failure));
    }

    void opened(Wire.Ears open) {
        ears = Optional.of(open);
    }

    /**
     * Looks at what has come.
     *
     * @param listenedMs how long the port has been open, ms
     * @return whether the port is open
     */
    boolean look(long listenedMs) {
        if (ears.isEmpty()) {
            return false;
        }
        Wire.Heard came = ears.get().heard();
        heard = Optional.of(came);
        look = FirstLines.of(came, listenedMs);
        return true;
    }

    FirstLines look() {
        return look;
    }

    Optional<Wire.Heard> heard() {
        return heard;
    }

    boolean hasText() {
        return heard.map(its -> FirstLines.hasText(its.lines())).orElse(false);
    }

    /** The speed in the link, in baud; 0 where it has none. */
    int speed() {
        String digits = link.replaceAll(".*baud=(\\d+).*", "$1");
        return digits.matches("\\d{1,7}") ? Integer.parseInt(digits) : 0;
    }

    boolean hasSpeed() {
        return link.contains("baud=");
    }

    void setSpeed(int baud) {
        link = link.replaceAll("baud=\\d+", "baud=" + baud);
    }

    void readBy(String pattern) {
        link = link + (link.contains("?") ? "&" : "?") + "lines=" + pattern;
    }

    /** All usual speeds but the one that gave noise are to be tried. */
    Deque<Integer> otherSpeeds() {
        Deque<Integer> others = new ArrayDeque<>(SPEEDS);
        others.remove(speed());
        return others;
    }

    void toTry(Deque<Integer> speeds) {
        speedsToTry = speeds;
    }

    Deque<Integer> toTry() {
        return speedsToTry;
    }

    boolean isTryingSpeeds() {
        return !speedsToTry.isEmpty();
    }

    /** Whether this speed has had its time without one line of text, and another is to be tried. */
    boolean triesNext(long listenedMs) {
        return isTryingSpeeds() && !hasText() && listenedMs >= SPEED_MS;
    }
}

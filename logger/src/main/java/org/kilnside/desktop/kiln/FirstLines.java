package org.kilnside.desktop.kiln;

import java.util.List;
import java.util.OptionalDouble;
import java.util.regex.Pattern;
import org.kilnside.session.Connection;
import org.kilnside.session.LineView;
import org.kilnside.session.LineView.Sort;
import org.kilnside.session.LineView.Verdict;

/** What the first lines of a connection look like. */
enum FirstLines {
    /** Too little has come to tell. */
    WAITING,
    /** Readings with a temperature come. */
    READINGS,
    /** Readings come, and none of them has a temperature. */
    NO_TEMPERATURE,
    /** Whole lines of text come, of another make than the program's own or the pattern's. */
    FOREIGN,
    /** What comes is no text: most likely the speed is wrong. */
    NOISE,
    /** Nothing has come for a while; it may yet. */
    SILENT,
    /** The port could not be opened, or is gone. */
    REFUSED;

    /** A controller says hello when asked; without, its lines are taken after this long. */
    private static final long HELLO_MS = 4_000;

    private static final long SILENCE_MS = 8_000;

    /** Less than this says too little; one more than a proposal needs, as the first may be half a line. */
    private static final int FEWEST_LINES = 5;

    /** The more lines, the surer which number is which; a controller that prints seldom is not waited for as long. */
    private static final int ENOUGH_LINES = 10;

    private static final long LONG_ENOUGH_MS = 15_000;

    private static final int ENOUGH_CHARACTERS = 48;

    /** A wrong speed makes about half of all bytes no text; a worn cable makes one in a hundred. */
    private static final double NOISY_PART = 0.15;

    private static final int LONG_WITHOUT_LINE = 300;
    private static final Pattern STRANGE = Pattern.compile("\\\\x[0-9A-F]{2}|[^ -~°]");

    /** @param listenedMs how long the link has been open, ms */
    static FirstLines of(Wire.Heard heard, long listenedMs) {
        if (heard.connection().state() == Connection.State.GIVEN_UP) {
            return REFUSED;
        }
        if (heard.readings() > 0) {
            boolean introduced = heard.hello().isPresent() || listenedMs >= HELLO_MS;
            if (heard.temperature().isPresent()) {
                return introduced ? READINGS : WAITING;
            }
            return listenedMs >= 2 * HELLO_MS ? NO_TEMPERATURE : WAITING;
        }
        if (isNoise(heard)) {
            return NOISE;
        }
        boolean ours = heard.lines().count(Verdict.HELLO) > 0;
        int foreign = foreign(heard.lines()).size();
        if (!ours && foreign >= (listenedMs < LONG_ENOUGH_MS ? ENOUGH_LINES : FEWEST_LINES)) {
            return FOREIGN;
        }
        return heard.connection().counts().bytes() == 0 && heard.lines().lines().isEmpty() && listenedMs >= SILENCE_MS
                ? SILENT
                : WAITING;
    }

    /** The lines from which a pattern can be proposed: whole ones that gave no reading. */
    static List<LineView.Line> foreign(LineView view) {
        return view.lines().stream()
                .filter(line -> line.verdict().sort() == Sort.SPOILT)
                .toList();
    }

    /** Host time from line to line, ms; empty where that cannot be told. */
    static OptionalDouble betweenMs(List<LineView.Line> lines) {
        if (lines.size() < 2) {
            return OptionalDouble.empty();
        }
        double between =
                (double) (lines.get(lines.size() - 1).hostMs() - lines.get(0).hostMs()) / (lines.size() - 1);
        // Lines that came in one piece say nothing of their interval.
        return between >= 20 ? OptionalDouble.of(between) : OptionalDouble.empty();
    }

    /** Whether at least one whole line of readable text is among them. */
    static boolean hasText(LineView view) {
        return view.lines().stream()
                .anyMatch(line -> line.verdict() != Verdict.HALF
                        && line.text().length() >= 3
                        && !STRANGE.matcher(line.text()).find());
    }

    private static boolean isNoise(Wire.Heard heard) {
        long characters = 0;
        long strange = 0;
        for (LineView.Line line : heard.lines().lines()) {
            long found = STRANGE.matcher(line.text()).results().count();
            strange += found;
            characters += STRANGE.matcher(line.text()).replaceAll("").length() + found;
        }
        boolean noText = characters >= ENOUGH_CHARACTERS && strange > characters * NOISY_PART;
        boolean noLines =
                heard.lines().lines().isEmpty() && heard.connection().counts().bytes() >= LONG_WITHOUT_LINE;
        return noText || noLines;
    }
}

package org.kilnside.command;

import java.io.PrintWriter;
import java.time.Duration;
import java.util.Optional;
import java.util.stream.Collectors;
import org.kilnside.alarm.Alarm;
import org.kilnside.session.Connection;
import org.kilnside.session.LiveForecast;
import org.kilnside.session.Snapshot;
import org.kilnside.thermal.Forecast;
import org.kilnside.wording.Ahead;
import org.kilnside.wording.AlarmWords;
import org.kilnside.wording.Moments;
import org.kilnside.wording.NowSentence;
import org.kilnside.wording.PostWords;
import org.kilnside.wording.ReadingAge;
import org.kilnside.wording.StateWords;
import org.kilnside.wording.Words;
import picocli.CommandLine.Help;

/**
 * The firing as one line of text: the sentence, the temperature with the age of its reading, what is wrong, and up to
 * when it is in the book. On a terminal the line is overwritten; elsewhere a new one is printed each minute and
 * whenever something happens.
 */
final class StatusLine {
    private static final long PLAIN_EVERY_MS = 60_000;
    /** Where an hour goes by in seconds, a line a minute would say nothing. */
    private static final long PLAIN_EVERY_MS_SPED_UP = 5_000;

    private final PrintWriter out;
    private final Words words;
    private final StateWords state;
    private final PostWords posts;
    private final boolean terminal;
    private final int columns;
    private int eventsShown;
    private int width;
    private long plainAtMs = Long.MIN_VALUE;
    private String rangPlain = "";

    StatusLine(PrintWriter out, Words words, boolean terminal, int columns) {
        this.out = out;
        this.words = words;
        this.state = new StateWords(words);
        this.posts = new PostWords(words);
        this.terminal = terminal;
        this.columns = columns;
    }

    /** A line on the terminal of a command, as wide as that is. */
    static StatusLine on(Surroundings around) {
        return on(around, around.words());
    }

    /** The same in words that may change while the window is open. */
    static StatusLine on(Surroundings around, Words words) {
        return new StatusLine(
                around.out(), words, System.console() != null, Help.Ansi.AUTO.enabled() ? columns() : 200);
    }

    private static int columns() {
        String columns = System.getenv("COLUMNS");
        try {
            return columns == null ? 100 : Integer.parseInt(columns);
        } catch (NumberFormatException e) {
            return 100;
        }
    }

    /** Shows the firing as it stands. */
    void show(Snapshot snapshot, long hostNowMs) {
        boolean happened = showEvents(snapshot);
        long every = snapshot.speed() == 1 ? PLAIN_EVERY_MS : PLAIN_EVERY_MS_SPED_UP;
        String line = text(snapshot, hostNowMs);
        if (terminal) {
            String cut = cut(snapshot, hostNowMs, line);
            out.print("\r" + cut + " ".repeat(Math.max(0, width - cut.length())));
            width = cut.length();
            out.flush();
        } else if (happened || rings(snapshot) || plainAtMs == Long.MIN_VALUE || hostNowMs - plainAtMs >= every) {
            plainAtMs = hostNowMs;
            out.println(line);
            out.flush();
        }
    }

    /** A time of which the end falls off would lose its doubt or its interval: it is said in short, or not at all. */
    private String cut(Snapshot snapshot, long hostNowMs, String whole) {
        if (whole.length() < columns) {
            return whole;
        }
        String brief = text(snapshot, hostNowMs, brief(snapshot));
        String line = brief.length() < columns ? brief : text(snapshot, hostNowMs, "");
        return line.length() < columns ? line : line.substring(0, Math.max(0, columns - 2)) + "…";
    }

    /** The next thing to come with its interval; nothing where whether the top is reached is in doubt. */
    private String brief(Snapshot snapshot) {
        boolean doubted = snapshot.findings()
                .forecast()
                .flatMap(LiveForecast::forecast)
                .flatMap(Forecast::arrival)
                .filter(arrival -> arrival.reaches() != Forecast.Reaches.YES)
                .isPresent();
        return doubted
                ? ""
                : Ahead.of(snapshot, words).lines().stream()
                        .filter(line -> !line.label().isBlank())
                        .findFirst()
                        .map(line -> line.label() + " " + line.value())
                        .orElse("");
    }

    /** Whether something has begun or ceased to ring since the last line. */
    private boolean rings(Snapshot snapshot) {
        String now = snapshot.alarms().stream()
                .filter(Alarm::rings)
                .map(alarm -> alarm.id() + "/" + alarm.times())
                .collect(Collectors.joining(" "));
        boolean other = !now.equals(rangPlain);
        rangPlain = now;
        return other;
    }

    /** Leaves the line as it is, so that what follows begins on its own. */
    void end() {
        if (terminal && width > 0) {
            out.println();
            out.flush();
            width = 0;
        }
    }

    private boolean showEvents(Snapshot snapshot) {
        int count = snapshot.events().size();
        if (count < eventsShown) {
            eventsShown = 0;
        }
        boolean any = count > eventsShown;
        for (; eventsShown < count; eventsShown++) {
            var event = snapshot.events().get(eventsShown);
            String line = state.moment(event.elapsedMs(), snapshot.zeroFor(event.elapsedMs()), snapshot.speed()) + "  "
                    + state.event(event, Moments.of(snapshot, words));
            out.println((terminal ? "\r" : "") + line + " ".repeat(Math.max(0, width - line.length())));
        }
        return any;
    }

    String text(Snapshot snapshot, long hostNowMs) {
        return text(snapshot, hostNowMs, Ahead.of(snapshot, words).sentence());
    }

    private String text(Snapshot snapshot, long hostNowMs, String toCome) {
        AlarmWords alarmWords = new AlarmWords(words, Moments.of(snapshot, words));
        StringBuilder line = new StringBuilder();
        snapshot.alarms().stream()
                .filter(Alarm::rings)
                .findFirst()
                .ifPresent(alarm -> line.append("! ")
                        .append(words.named("alarm.grade", alarm.grade())
                                .toUpperCase(words.language().locale()))
                        .append(": ")
                        .append(alarmWords.title(alarm.kind()))
                        .append(alarmWords
                                .seenAgainstExpected(alarm)
                                .map(seen -> " (" + seen + ")")
                                .orElse(""))
                        .append(". "));
        snapshot.latest()
                .ifPresent(latest -> line.append(state.moment(
                                latest.elapsedMs(), snapshot.zeroFor(latest.elapsedMs()), snapshot.speed()))
                        .append("  "));
        line.append(NowSentence.of(snapshot, hostNowMs, words).text());
        if (!ReadingAge.isOld(snapshot, hostNowMs)) {
            snapshot.latest()
                    .flatMap(Snapshot.Latest::temperature)
                    .ifPresent(temperature -> line.append("  ").append(words.temperature(temperature)));
            Optional<Duration> age = ReadingAge.of(snapshot, hostNowMs);
            age.ifPresent(old -> line.append(" (").append(words.ago(old)).append(')'));
            if (!ReadingAge.isOver(snapshot) && !toCome.isEmpty()) {
                line.append("  ").append(toCome);
            }
        }
        posts.firstTrouble(snapshot).ifPresent(trouble -> line.append("  ").append(trouble));
        snapshot.disk().trouble().ifPresent(trouble -> line.append("  ").append(words.text("book.trouble", trouble)));
        if (snapshot.connection().state() != Connection.State.GIVEN_UP) {
            // What was given up ends the command, which then says why.
            snapshot.connection()
                    .detail()
                    .filter(detail -> line.indexOf(detail) < 0)
                    .ifPresent(detail -> line.append("  ").append(detail));
        }
        return line.toString();
    }
}

package org.kilnside.wording;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.alarm.Alarm;
import org.kilnside.alarm.AlarmEntry;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.alarm.Grade;
import org.kilnside.alarm.Measure;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.TemperatureDifference;

/** Says alarms: what is wrong, seen against expected, what to do next, and what this program cannot do. */
public final class AlarmWords implements Measure.Sayer<String> {
    private final Words words;
    private final Moments moments;

    /** @param moments of the recording whose alarms they are */
    public AlarmWords(Words words, Moments moments) {
        this.words = words;
        this.moments = moments;
    }

    /** What is wrong, in a few large words: {@code Heating when it should not}. */
    public String title(AlarmKind kind) {
        return words.named("alarm", kind);
    }

    /**
     * {@code Seen 1,012 °C, expected 1,000 °C}; empty where neither is a number. What is foreseen is not said to be seen,
     * and of good news what was waited for is in the title.
     */
    public Optional<String> seenAgainstExpected(Alarm alarm) {
        boolean news = alarm.grade() == Grade.GOOD_TO_KNOW;
        return seenAgainstExpected(AlarmEntry.of(alarm), news);
    }

    private Optional<String> seenAgainstExpected(AlarmEntry entry, boolean asNews) {
        if (entry.kind() == AlarmKind.FORECAST_MOVED) {
            return moved(entry);
        }
        if (entry.seen().isEmpty()) {
            boolean news =
                    entry.kind() == AlarmKind.BELOW_LID_THRESHOLD || entry.kind() == AlarmKind.BELOW_UNLOAD_THRESHOLD;
            return news ? Optional.of(words.text("alarm.by_model")) : Optional.empty();
        }
        String it = entry.seen().get().say(this);
        Optional<String> instead = entry.expected().filter(measure -> !asNews).map(measure -> measure.say(this));
        if (instead.isEmpty()) {
            return Optional.of(words.text("alarm.seen", it));
        }
        boolean foreseen = entry.kind() == AlarmKind.WILL_NOT_REACH_TOP;
        return Optional.of(words.text(foreseen ? "alarm.foreseen_planned" : "alarm.seen_expected", it, instead.get()));
    }

    /** What is expected when now, and when before; books of earlier versions have the likeliest moment, and not what of. */
    private Optional<String> moved(AlarmEntry entry) {
        if (entry.seen().isEmpty() || entry.expected().isEmpty()) {
            return Optional.empty();
        }
        Measure now = entry.seen().get();
        Measure before = entry.expected().get();
        if (now instanceof Measure.OfPassing passing && before instanceof Measure.OfPassing instead) {
            return Optional.of(words.text(
                    passing.falling() ? "alarm.moved_below" : "alarm.moved_top",
                    words.temperature(passing.temperature()),
                    moments.spanBeside(entry.sinceMs(), passing.fromMs(), passing.toMs()),
                    moments.spanBeside(passing.toMs(), instead.fromMs(), instead.toMs())));
        }
        if (now instanceof Measure.OfTime moment && before instanceof Measure.OfTime instead) {
            long nowMs = moment.value().toMillis();
            return Optional.of(words.text(
                    "alarm.moved_about",
                    moments.beside(entry.sinceMs(), nowMs),
                    moments.beside(nowMs, instead.value().toMillis())));
        }
        return Optional.empty();
    }

    /**
     * What to do next, one sentence each; where the kiln should go off, the last says that this program cannot do it.
     *
     * @param isolator where the kiln's isolator is, in the potter's words
     */
    public List<String> whatToDo(AlarmKind kind, Optional<String> isolator) {
        List<String> steps = new ArrayList<>();
        if (kind.withdrawsNumber()) {
            steps.add(words.text("alarm.do_not_trust"));
        }
        AlarmKind.Advice advice = kind.advice();
        boolean off = advice == AlarmKind.Advice.SWITCH_OFF || advice == AlarmKind.Advice.SWITCH_OFF_AND_LOOK_AT_SENSOR;
        if (off) {
            steps.add(isolator.map(place -> words.text("alarm.off_at", place))
                    .orElseGet(() -> words.named("alarm.do", AlarmKind.Advice.SWITCH_OFF)));
        }
        if (advice != AlarmKind.Advice.SWITCH_OFF) {
            steps.add(words.named("alarm.do", advice));
        }
        if (advice != AlarmKind.Advice.SAY_HEARD) {
            steps.add(words.text("alarm.cannot_switch"));
        }
        return steps;
    }

    /** What an alarm is, in one line for lists: title, grade, seen against expected. */
    public String line(AlarmEntry entry) {
        return line(entry, " (" + words.named("alarm.grade", entry.grade()) + ")", false);
    }

    /** Good news in one line: title and what was seen; what was waited for is in the title. */
    String news(AlarmEntry entry) {
        return line(entry, "", true);
    }

    private String line(AlarmEntry entry, String grade, boolean asNews) {
        Optional<String> numbers = seenAgainstExpected(entry, asNews);
        if (entry.seen().filter(Measure.OfPassing.class::isInstance).isPresent() && numbers.isPresent()) {
            // What moved, from when to when: that is the whole news.
            return words.sentence(numbers.get()) + grade;
        }
        String title = title(entry.kind()) + grade;
        return numbers.map(its -> words.text("alarm.line", title, its)).orElse(title);
    }

    /** What has become of it, where nobody can say since when; nothing while it simply stands. */
    public Optional<String> standing(Alarm alarm) {
        return switch (alarm.state()) {
            case RAISED, RAISED_AGAIN -> Optional.empty();
            case ACKNOWLEDGED -> Optional.of(words.text("alarm.state.acknowledged_undated"));
            case CLEARED -> Optional.of(words.text("alarm.state.cleared_undated"));
        };
    }

    /** Where it stands: {@code since 02:10}, with what has become of it. */
    public String standing(Alarm alarm, String since) {
        return switch (alarm.state()) {
            case RAISED -> words.text("alarm.state.raised", since);
            case RAISED_AGAIN -> words.text("alarm.state.raised_again", since);
            case ACKNOWLEDGED -> words.text("alarm.state.acknowledged", since);
            case CLEARED -> words.text("alarm.state.cleared", since);
        };
    }

    @Override
    public String temperature(Temperature value) {
        return words.temperature(value);
    }

    @Override
    public String difference(TemperatureDifference value) {
        return words.difference(value);
    }

    @Override
    public String rate(HeatingRate value) {
        return words.rate(value);
    }

    @Override
    public String time(Duration value) {
        return words.duration(value);
    }

    @Override
    public String power(Share value) {
        return words.text("alarm.of_full_power", words.percent(value));
    }

    @Override
    public String bytes(long value) {
        return words.number(value / 1_000_000.0, 0) + " MB";
    }

    @Override
    public String passing(Measure.OfPassing value) {
        return moments.spanBeside(value.fromMs(), value.fromMs(), value.toMs());
    }
}

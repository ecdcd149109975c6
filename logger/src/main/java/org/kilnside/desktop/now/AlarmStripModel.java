package org.kilnside.desktop.now;

import java.util.List;
import java.util.Optional;
import org.kilnside.alarm.Alarm;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.alarm.Grade;
import org.kilnside.session.Snapshot;
import org.kilnside.wording.AlarmWords;
import org.kilnside.wording.Moments;
import org.kilnside.wording.NowSentence;
import org.kilnside.wording.StateWords;
import org.kilnside.wording.Words;

/**
 * What the strip of alarms says: the worst one large, the others by their titles.
 *
 * @param id the worst one's, to acknowledge it by
 * @param tone how bad it is; a tone that is not calm begins with a sign, so that it is not told by colour alone
 * @param isOver whether nothing is wrong any more: one line is enough then
 * @param title what is wrong
 * @param standing how bad in words, since when, and what has become of it
 * @param seen seen against expected; empty where neither is a number
 * @param whatToDo what to do next, and what this program cannot do
 * @param others the titles of the others, the worst first
 * @param answer what a person says who knows
 * @param toAcknowledge whether it waits for a person to say that they know
 */
public record AlarmStripModel(
        String id,
        NowSentence.Tone tone,
        boolean isOver,
        String title,
        String standing,
        Optional<String> seen,
        String whatToDo,
        List<String> others,
        String answer,
        boolean toAcknowledge) {
    public AlarmStripModel {
        others = List.copyOf(others);
    }

    /** The strip of a snapshot; empty when there is no alarm. */
    static Optional<AlarmStripModel> of(Snapshot snapshot, Words words) {
        if (snapshot.alarms().isEmpty()) {
            return Optional.empty();
        }
        AlarmWords say = new AlarmWords(words, Moments.of(snapshot, words));
        Alarm worst = snapshot.alarms().get(0);
        String since =
                new StateWords(words).moment(worst.sinceMs(), snapshot.zeroFor(worst.sinceMs()), snapshot.speed());
        // Before the first reading no moment has a time of day.
        Optional<String> standing =
                snapshot.latest().isEmpty() ? say.standing(worst) : Optional.of(say.standing(worst, since));
        return Optional.of(new AlarmStripModel(
                worst.id(),
                tone(worst),
                worst.isOver(),
                say.title(worst.kind()),
                words.sentence(words.named("alarm.grade", worst.grade()))
                        + standing.map(text -> " · " + text).orElse(""),
                say.seenAgainstExpected(worst).map(words::sentence),
                String.join(" ", say.whatToDo(worst.kind(), snapshot.isolator())),
                snapshot.alarms().stream()
                        .skip(1)
                        .map(alarm -> say.title(alarm.kind()))
                        .toList(),
                words.text(worst.kind() == AlarmKind.TEST ? "alarm.i_hear_it" : "alarm.acknowledge"),
                worst.state() != Alarm.State.ACKNOWLEDGED));
    }

    private static NowSentence.Tone tone(Alarm alarm) {
        if (alarm.isOver() || alarm.grade() == Grade.GOOD_TO_KNOW) {
            return NowSentence.Tone.CALM;
        }
        return alarm.grade() == Grade.COME_NOW ? NowSentence.Tone.BLIND : NowSentence.Tone.LOOK;
    }

    /** All of it in one string, for a screen reader. */
    String spoken() {
        return title + ". " + standing + ". " + seen.map(text -> text + ". ").orElse("") + whatToDo;
    }
}

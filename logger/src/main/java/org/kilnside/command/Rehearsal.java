package org.kilnside.command;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.alarm.Alarm;
import org.kilnside.alarm.NightTest;
import org.kilnside.host.ComputerName;
import org.kilnside.host.TestedAlarm;
import org.kilnside.session.Post;

/**
 * The test of tonight's alarm as one computer sees it: on the recorder it is raised here, and where it was heard is kept
 * here; on a copy only that it was heard on this one. From any thread.
 */
final class Rehearsal {
    private final NightTest test = new NightTest();
    private final TestedAlarm tested;
    private volatile List<Post.Heard> elsewhere;
    private volatile Optional<Instant> here;

    Rehearsal(TestedAlarm tested) {
        this.tested = tested;
        this.elsewhere = List.of();
        this.here = tested.last();
        readElsewhere();
    }

    /** Rings from now on, for a while. */
    synchronized void begin(long hostMs, long recordingMs) {
        test.begin(hostMs, recordingMs);
    }

    /** Nobody else is to hear it. */
    synchronized void end() {
        test.end();
    }

    /** The alarm while it rings. */
    synchronized List<Alarm> look(long hostMs) {
        return test.look(hostMs);
    }

    /** A person heard it on this computer. */
    synchronized void heardHere(Instant now) {
        tested.heard(now);
        here = Optional.of(now);
    }

    /** A person heard it on another computer; the name it goes by here. */
    synchronized String heardElsewhere(String computer, Instant now) {
        String tidy = ComputerName.tidy(computer);
        String name = tidy.isEmpty() ? "?" : tidy;
        tested.heard(now, name);
        readElsewhere();
        return name;
    }

    private void readElsewhere() {
        List<Post.Heard> heard = new ArrayList<>();
        tested.elsewhere().forEach((name, at) -> heard.add(0, new Post.Heard(name, at)));
        elsewhere = List.copyOf(heard);
    }

    Optional<Instant> lastHere() {
        // Another program of this computer, such as alarm-test, writes it down too.
        here = tested.last();
        return here;
    }

    /** Where else it was heard, the latest first. */
    List<Post.Heard> elsewhere() {
        return elsewhere;
    }
}

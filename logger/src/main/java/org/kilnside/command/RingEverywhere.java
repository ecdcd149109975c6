package org.kilnside.command;

import java.time.Instant;
import java.util.HashMap;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.alarm.NightTest;
import org.kilnside.link.AttachedFiring;
import org.kilnside.link.share.RecorderPlace;
import org.kilnside.session.Post;
import org.kilnside.session.Snapshot;
import org.kilnside.wording.Words;

/** Has a recorder ring the test of tonight's alarm there and on all that follow it, and tells where it was heard. */
final class RingEverywhere {
    private static final long LOOK_ROUND_MS = 300;

    private static final long COUNTED_MS = 1_500;

    /** What was said in the test's last moment comes in. */
    private static final long LAST_WORDS_MS = 5_000;

    private final Surroundings around;
    private final Words words;

    RingEverywhere(Surroundings around) {
        this.around = around;
        this.words = around.words();
    }

    /** Rings, and waits until it is over; ends sooner where it was heard on every copy. */
    int ring(RecorderPlace place) {
        try (AttachedFiring firing = AttachedFiring.now(place, around.clock())
                .orElseThrow(() -> new Complaint(Complaint.ExitCode.INPUT, place.absence()))) {
            if (!firing.takesNotes()) {
                throw new Complaint(
                        Complaint.ExitCode.INPUT,
                        "this recorder lets copies only look: start it with --share=lan,notes, or test on its own computer.");
            }
            // This program follows too, and rings for nobody; the recorder counts anew twice a second.
            TimeUnit.MILLISECONDS.sleep(COUNTED_MS);
            int copies = recorder(firing.latest()).followers().orElse(1) - 1;
            say(copies == 0 ? words.text("alarm_test.nobody_follows") : words.text("alarm_test.everywhere", copies));
            Map<String, Instant> before = heard(firing.latest());
            firing.ringTest();
            int said = follow(firing, before, copies);
            if (said == 0) {
                say(words.text("alarm_test.not_everywhere"));
            }
            return (said > 0 ? Complaint.ExitCode.DONE : Complaint.ExitCode.NOTHING).code();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return Complaint.ExitCode.NOTHING.code();
        }
    }

    private int follow(AttachedFiring firing, Map<String, Instant> before, int copies) throws InterruptedException {
        long untilNanos = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(NightTest.LASTS_MS + LAST_WORDS_MS);
        boolean rang = false;
        Map<String, Instant> told = new HashMap<>(before);
        int said = 0;
        int onCopies = 0;
        while (System.nanoTime() < untilNanos && (copies == 0 || onCopies < copies)) {
            TimeUnit.MILLISECONDS.sleep(LOOK_ROUND_MS);
            Snapshot snapshot = firing.latest();
            boolean rings = snapshot.alarms().stream().anyMatch(alarm -> alarm.kind() == AlarmKind.TEST);
            for (Map.Entry<String, Instant> each : heard(snapshot).entrySet()) {
                if (!each.getValue().equals(told.put(each.getKey(), each.getValue()))) {
                    said++;
                    onCopies += each.getKey().isEmpty() ? 0 : 1;
                    say(words.text(
                            "alarm_test.heard_on",
                            each.getKey().isEmpty() ? words.named("post.role", Post.Role.RECORDER) : each.getKey()));
                }
            }
            if (rang && !rings || copies == 0 && said > 0) {
                break;
            }
            rang |= rings;
        }
        return said;
    }

    /** When it was heard where; the recorder itself has no name here. */
    private static Map<String, Instant> heard(Snapshot snapshot) {
        Map<String, Instant> heard = new HashMap<>();
        Post recorder = recorder(snapshot);
        recorder.testedAt().ifPresent(at -> heard.put("", at));
        recorder.heard().forEach(where -> heard.put(where.computer(), where.at()));
        return heard;
    }

    private static Post recorder(Snapshot snapshot) {
        return snapshot.posts().stream()
                .filter(post -> post.role() == Post.Role.RECORDER)
                .findFirst()
                .orElseThrow(() -> new Complaint(
                        Complaint.ExitCode.INPUT, "nobody keeps watch over this recording: it is a demo."));
    }

    private void say(String sentence) {
        around.out().println(sentence);
        around.out().flush();
    }
}

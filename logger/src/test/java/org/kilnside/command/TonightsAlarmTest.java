package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.UnixDomainSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.Duration;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.alarm.Alarm;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.alarm.NightTest;
import org.kilnside.alarm.QuietHours;
import org.kilnside.files.NightSettings;
import org.kilnside.firing.FiringEvent;
import org.kilnside.host.StayAwake;
import org.kilnside.host.TestedAlarm;
import org.kilnside.link.AttachedFiring;
import org.kilnside.link.share.RecorderPlace;
import org.kilnside.link.share.ShareKey;
import org.kilnside.link.share.Token;
import org.kilnside.page.LanDoor;
import org.kilnside.page.SnapshotStream;
import org.kilnside.session.BookInMemory;
import org.kilnside.session.FakeFiring;
import org.kilnside.session.HandClock;
import org.kilnside.session.Host;
import org.kilnside.session.LiveFeed;
import org.kilnside.session.LiveFiring;
import org.kilnside.session.Post;
import org.kilnside.session.Snapshot;
import org.kilnside.wording.PostWords;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;

/**
 * Tonight's alarm, from one end to the other: raised at the recorder, over the network's door and its encryption, rung
 * by the copy's own command, answered there, and shown with its time in the list before lighting. Two night watches as
 * they are, a real recording, a clock moved by hand.
 */
class TonightsAlarmTest {
    private static final Words WORDS = Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH));

    private final HandClock clock = new HandClock();
    private final BookInMemory book = new BookInMemory();
    private final FakeFiring kiln = new FakeFiring(book, clock);
    private final List<AutoCloseable> open = new ArrayList<>();
    private final Token token = Token.random(new SecureRandom());

    @TempDir
    private Path folder;

    private NightWatch recorder;
    private SnapshotStream stream;

    @BeforeEach
    void recordsAndKeepsWatch() throws IOException {
        LiveFiring firing = kiln.firing();
        recorder = NightWatch.overRecording(
                firing,
                clock,
                () -> stream == null ? 0 : stream.followers(),
                Host.UNKNOWN,
                settings("studio"),
                StayAwake.ofThisComputer(WORDS),
                new TestedAlarm(folder.resolve("studio")),
                WORDS);
        open.add(0, firing);
        open.add(0, recorder);
        stream = SnapshotStream.open(recorder, clock, UnixDomainSocketAddress.of(folder.resolve("s")));
        open.add(0, stream);
        firing.start();
    }

    @AfterEach
    void closeAll() throws Exception {
        for (AutoCloseable one : open) {
            one.close();
        }
    }

    private NightSettings settings(String computer) {
        return new NightSettings(
                Optional.of("echo \"$KILNSIDE_GRADE $KILNSIDE_KIND $KILNSIDE_TEXT\" >> "
                        + folder.resolve(computer + ".bell")),
                Optional.of("echo quiet >> " + folder.resolve(computer + ".bell")),
                Duration.ofSeconds(5),
                false,
                false,
                Optional.of(computer),
                QuietHours.NONE);
    }

    private NightWatch follows(String computer, boolean takesNotes) throws IOException {
        ShareKey key = ShareKey.of(token, new SecureRandom(), LocalDate.EPOCH);
        LanDoor door = LanDoor.open(stream, clock, key, takesNotes, 0);
        AttachedFiring copy = AttachedFiring.now(
                        RecorderPlace.onTheNetwork("127.0.0.1", door.port(), token, WORDS), clock)
                .orElseThrow();
        NightWatch watch =
                NightWatch.overCopy(copy, clock, settings(computer), new TestedAlarm(folder.resolve(computer)), WORDS);
        open.add(0, door);
        open.add(0, copy);
        open.add(0, watch);
        return watch;
    }

    private String bell(String computer) throws IOException {
        Path file = folder.resolve(computer + ".bell");
        return Files.exists(file) ? Files.readString(file) : "";
    }

    private static Optional<Alarm> test(LiveFeed watch) {
        return watch.latest().alarms().stream()
                .filter(alarm -> alarm.kind() == AlarmKind.TEST)
                .findFirst();
    }

    private static void hears(NightWatch watch) {
        watch.acknowledge(test(watch).orElseThrow().id());
    }

    private Post studio() {
        return recorder.latest().posts().get(0);
    }

    private interface Condition {
        boolean holds() throws Exception;
    }

    private static void await(String what, Condition condition) throws Exception {
        long until = System.nanoTime() + 20_000_000_000L;
        while (!condition.holds()) {
            assertThat(System.nanoTime()).as("waited for %s", what).isLessThan(until);
            TimeUnit.MILLISECONDS.sleep(20);
        }
    }

    @Test
    void raisedAtTheRecorderItRingsInTheBedroomAndItsSuccessStandsInTheListBeforeLighting() throws Exception {
        kiln.gives(3);
        NightWatch bedroom = follows("bedroom", true);
        assertThat(new PostWords(WORDS).lastHeard(recorder.latest())).containsExactly("Never tested and heard yet.");

        recorder.ringTest();
        await("the studio's bell", () -> bell("studio").startsWith("come-now test Tall Drum: A test of tonight"));
        await("the bedroom's bell", () -> bell("bedroom").startsWith("come-now test Tall Drum: A test of tonight"));
        assertThat(studio().heard()).isEmpty();

        hears(bedroom);
        await("the recorder to know", () -> !studio().heard().isEmpty());
        await("quiet in the bedroom", () -> bell("bedroom").endsWith("quiet\n"));
        assertThat(bell("studio")).doesNotContain("quiet");
        assertThat(test(bedroom).orElseThrow().rings()).isFalse();
        assertThat(test(recorder).orElseThrow().rings()).isTrue();
        assertThat(studio().heard()).containsExactly(new Post.Heard("bedroom", clock.wallClock()));
        assertThat(new PostWords(WORDS).lastHeard(recorder.latest()))
                .singleElement()
                .asString()
                .startsWith("Heard on bedroom: ");
        await(
                "the book",
                () -> book.events.get(0).stream()
                        .anyMatch(event -> event.kind() == FiringEvent.Kind.NOTE
                                && event.text()
                                        .orElse("")
                                        .equals("The test of tonight’s alarm was heard on bedroom.")));
        // The recorder that is started tomorrow knows of it, and so does the bedroom.
        assertThat(new TestedAlarm(folder.resolve("studio")).elsewhere()).containsKey("bedroom");
        assertThat(new TestedAlarm(folder.resolve("bedroom")).last()).hasValue(clock.wallClock());
    }

    @Test
    void answeredAtTheRecorderItsOwnWindowIsCalmAndTheBedroomRingsOn() throws Exception {
        kiln.gives(3);
        NightWatch bedroom = follows("bedroom", true);
        await("a follower", () -> stream.followers() == 1);
        FeedHere window = new FeedHere(recorder);
        recorder.ringTest();
        await("the bedroom's bell", () -> bell("bedroom").contains("come-now test"));
        assertThat(test(window).orElseThrow().rings()).isTrue();
        List<Snapshot> told = new CopyOnWriteArrayList<>();
        window.subscribe(told::add);
        window.acknowledge(test(window).orElseThrow().id());

        assertThat(test(window).orElseThrow().rings()).isFalse();
        await(
                "word of it",
                () -> told.stream()
                        .anyMatch(snapshot -> snapshot.alarms().stream()
                                .anyMatch(alarm -> alarm.kind() == AlarmKind.TEST && !alarm.rings())));
        await("quiet in the studio", () -> bell("studio").endsWith("quiet\n"));
        assertThat(test(recorder).orElseThrow().rings()).as("on the stream").isTrue();
        assertThat(test(bedroom).orElseThrow().rings()).as("in the bedroom").isTrue();
    }

    @Test
    void whereNobodyFollowsTheTestIsOverOnceItWasHeard() throws Exception {
        recorder.ringTest();
        await("the studio's bell", () -> bell("studio").contains("come-now test"));
        hears(recorder);
        await("the end", () -> test(recorder).isEmpty());
        assertThat(studio().testedAt()).isPresent();
    }

    @Test
    void itStopsByItselfAndRingsAnewWhenRungAnew() throws Exception {
        NightWatch bedroom = follows("bedroom", true);
        recorder.ringTest();
        await("the bedroom's bell", () -> bell("bedroom").contains("come-now test"));
        clock.forwardMs(NightTest.LASTS_MS);
        await("the end", () -> test(bedroom).isEmpty() && test(recorder).isEmpty());
        await("quiet", () -> bell("bedroom").endsWith("quiet\n"));

        // From the bed: asked for on the copy, it is the recorder that rings.
        bedroom.ringTest();
        await(
                "the second bell",
                () -> bell("bedroom")
                                .lines()
                                .filter(line -> line.startsWith("come-now"))
                                .count()
                        == 2);
        await("the studio", () -> test(recorder).isPresent());
        hears(recorder);
        await("its time", () -> studio().testedAt().isPresent());
        assertThat(test(bedroom).orElseThrow().rings())
                .as("the bedroom still rings")
                .isTrue();
    }

    @Test
    void aCopyThatMayOnlyLookRingsAndKeepsItsSuccessToItself() throws Exception {
        NightWatch landing = follows("landing", false);
        recorder.ringTest();
        await("the bell", () -> bell("landing").contains("come-now test"));
        hears(landing);
        await("quiet", () -> bell("landing").endsWith("quiet\n"));
        assertThat(new TestedAlarm(folder.resolve("landing")).last()).isPresent();
        TimeUnit.MILLISECONDS.sleep(1_200);
        assertThat(studio().heard()).isEmpty();
    }
}

package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.StandardProtocolFamily;
import java.net.UnixDomainSocketAddress;
import java.nio.ByteBuffer;
import java.nio.channels.ServerSocketChannel;
import java.nio.channels.SocketChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.alarm.Alarm;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.alarm.QuietHours;
import org.kilnside.files.NightSettings;
import org.kilnside.files.SnapshotLines;
import org.kilnside.host.TestedAlarm;
import org.kilnside.link.AttachedFiring;
import org.kilnside.link.share.RecorderPlace;
import org.kilnside.page.SnapshotStream;
import org.kilnside.session.Connection;
import org.kilnside.session.HandClock;
import org.kilnside.session.HandFeed;
import org.kilnside.session.Post;
import org.kilnside.session.Snapshot;
import org.kilnside.session.Snapshots;
import org.kilnside.wording.Language;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.ReadingAge;
import org.kilnside.wording.Words;

/** The copy in the bedroom: a real stream, a real alarm command, and a clock moved by hand. */
class NightWatchTest {
    private static final Words WORDS = Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH));

    private final HandClock clock = new HandClock();
    private final HandFeed feed = new HandFeed(Snapshots.bisque(clock.monotonicMs(), 100));
    private final List<AutoCloseable> open = new ArrayList<>();

    @TempDir
    private Path folder;

    private Path rang;
    private UnixDomainSocketAddress address;
    private SnapshotStream stream;

    @BeforeEach
    void openTheStream() throws IOException {
        rang = folder.resolve("rang");
        address = UnixDomainSocketAddress.of(folder.resolve("s"));
        stream = SnapshotStream.open(feed, clock, address);
        open.add(stream);
    }

    @AfterEach
    void closeAll() throws Exception {
        for (AutoCloseable one : open) {
            one.close();
        }
    }

    private NightWatch copy(String command, String quietCommand) {
        return copy(command, quietCommand, WORDS);
    }

    private NightWatch copy(String command, String quietCommand, Words words) {
        AttachedFiring firing = AttachedFiring.whenThere(
                RecorderPlace.here(() -> Optional.of(address), WORDS),
                clock,
                Snapshot.before(
                        Optional.empty(),
                        new Connection(
                                Connection.State.CONNECTING,
                                clock.monotonicMs(),
                                Optional.empty(),
                                Connection.Counts.NONE)));
        NightWatch watch = NightWatch.overCopy(firing, clock, settings(command, quietCommand), tested(), words);
        open.add(0, firing);
        open.add(0, watch);
        return watch;
    }

    private TestedAlarm tested() {
        return new TestedAlarm(folder);
    }

    private static NightSettings settings(String command, String quietCommand) {
        return new NightSettings(
                Optional.of(command),
                quietCommand.isEmpty() ? Optional.empty() : Optional.of(quietCommand),
                Duration.ofSeconds(5),
                false,
                false,
                Optional.of("bedroom"),
                QuietHours.NONE);
    }

    private NightWatch copy() {
        return copy("echo \"$KILNSIDE_GRADE $KILNSIDE_KIND $KILNSIDE_COUNT\" >> " + rang, "echo quiet >> " + rang);
    }

    private NightWatch attached() throws Exception {
        NightWatch watch = copy();
        await("the copy to attach", () -> watch.latest().kiln().isPresent());
        return watch;
    }

    private String rang() throws IOException {
        return Files.exists(rang) ? Files.readString(rang) : "";
    }

    private interface Condition {
        boolean holds() throws Exception;
    }

    private void await(String what, Condition condition) throws Exception {
        long until = System.nanoTime() + 20_000_000_000L;
        while (!condition.holds()) {
            assertThat(System.nanoTime())
                    .as("waited for %s; it rang: %s", what, rang())
                    .isLessThan(until);
            TimeUnit.MILLISECONDS.sleep(20);
        }
    }

    /** The clock goes on in steps, as the watch looks at it. */
    private void forward(Duration time) throws InterruptedException {
        for (long ms = 0; ms < time.toMillis(); ms += 5_000) {
            clock.forwardMs(5_000);
            TimeUnit.MILLISECONDS.sleep(20);
        }
    }

    private static boolean isSilentAlarmRinging(NightWatch watch) {
        return watch.latest().alarms().stream()
                .anyMatch(alarm -> alarm.kind() == AlarmKind.RECORDER_SILENT && alarm.rings());
    }

    @Test
    void whenTheRecorderIsGoneTheCopyRingsByItselfAndWhatItShowsIsOld() throws Exception {
        NightWatch watch = attached();
        stream.close();
        await("the loss", () -> watch.latest().connection().state() == Connection.State.LOST);
        forward(Duration.ofSeconds(120));
        await("the bell", () -> rang().startsWith("come-now recorder-silent 1\n"));
        assertThat(isSilentAlarmRinging(watch)).isTrue();
        assertThat(ReadingAge.isOld(watch.latest(), clock.monotonicMs())).isTrue();
    }

    @Test
    void anotherLanguageChosenInTheWindowIsWhatTheNextAlarmAndStandingTroublesAreSaidIn() throws Exception {
        Words words = Words.of(Language.ENGLISH, Preferences.of(Locale.ENGLISH));
        NightWatch watch = copy("echo \"$KILNSIDE_TITLE\" >> " + rang + "; exit 3", "", words);
        await("the copy to attach", () -> watch.latest().kiln().isPresent());
        stream.close();
        forward(Duration.ofSeconds(120));
        await("the bell", () -> rang().contains("Nothing is heard of the recording"));
        await("the trouble", () -> commandTrouble(watch).contains("failed with exit code 3"));
        words.become(Words.of(Language.DUTCH, Preferences.of(Locale.ENGLISH)));
        await("the trouble in Dutch", () -> commandTrouble(watch).contains("mislukte met code 3"));
        watch.latest().alarms().forEach(alarm -> watch.acknowledge(alarm.id()));
        forward(Duration.ofMinutes(11));
        await("the bell in Dutch", () -> rang().contains("opname wordt niets meer"));
    }

    private static String commandTrouble(NightWatch watch) {
        return watch.latest().posts().stream()
                .flatMap(post -> post.commandTrouble().stream())
                .findFirst()
                .orElse("");
    }

    @Test
    void whenItComesBackTheCopyFallsSilentAndRunsTheOtherCommand() throws Exception {
        NightWatch watch = attached();
        stream.close();
        forward(Duration.ofSeconds(120));
        await("the bell", () -> rang().contains("recorder-silent"));
        feed.show(Snapshots.bisque(clock.monotonicMs(), 101));
        open.remove(stream);
        stream = SnapshotStream.open(feed, clock, address);
        open.add(stream);
        await("the recorder", () -> watch.latest().connection().state() == Connection.State.RECEIVING);
        await("the quiet", () -> rang().endsWith("quiet\n"));
        assertThat(isSilentAlarmRinging(watch)).isFalse();
    }

    @Test
    void whoeverKnowsOfItSilencesItHereAndItRingsAgainAfterTenMinutes() throws Exception {
        NightWatch watch = attached();
        stream.close();
        forward(Duration.ofSeconds(120));
        await("the bell", () -> isSilentAlarmRinging(watch));
        watch.latest().alarms().forEach(alarm -> watch.acknowledge(alarm.id()));
        await("the quiet", () -> !isSilentAlarmRinging(watch));
        forward(Duration.ofMinutes(5));
        assertThat(isSilentAlarmRinging(watch)).isFalse();
        forward(Duration.ofMinutes(6));
        await("the second bell", () -> isSilentAlarmRinging(watch));
    }

    @Test
    void aRecorderThatStandsStillRingsThoughItsSocketIsOpen() throws Exception {
        stream.close();
        Files.deleteIfExists(address.getPath());
        try (ServerSocketChannel server = ServerSocketChannel.open(StandardProtocolFamily.UNIX)) {
            server.bind(address);
            Thread stopped = new Thread(() -> saysOneLineToEachAndNothingMore(server), "stopped-recorder");
            stopped.setDaemon(true);
            stopped.start();
            NightWatch watch = attached();
            forward(Duration.ofSeconds(30));
            await("the loss", () -> watch.latest().connection().state() == Connection.State.LOST);
            assertThat(rang()).isEmpty();
        }
        forward(Duration.ofSeconds(100));
        await("the bell", () -> rang().contains("recorder-silent"));
    }

    private void saysOneLineToEachAndNothingMore(ServerSocketChannel server) {
        List<SocketChannel> held = new ArrayList<>();
        try {
            SocketChannel one = server.accept();
            String line = new SnapshotLines.Writer().line(feed.latest(), clock.monotonicMs()) + "\n";
            one.write(ByteBuffer.wrap(line.getBytes(StandardCharsets.UTF_8)));
            held.add(one);
            while (true) {
                held.add(server.accept());
            }
        } catch (IOException e) {
            assertThat(held).isNotEmpty();
        }
    }

    @Test
    void aRecorderThatGoesOnTalkingOfAnOldReadingRingsToo() throws Exception {
        NightWatch watch = attached();
        // The stream lives and says each second what it last knew; nothing new ever comes.
        forward(Duration.ofSeconds(85));
        TimeUnit.SECONDS.sleep(1);
        assertThat(isSilentAlarmRinging(watch)).isFalse();
        forward(Duration.ofSeconds(30));
        await("the bell", () -> isSilentAlarmRinging(watch));
    }

    @Test
    void aClockThatIsSetByAnHourWakesNobody() throws Exception {
        NightWatch watch = attached();
        long lines = watch.latest().sequence();
        clock.wallJumps(Duration.ofHours(1));
        // The wire is made anew, as after a sleep; what comes over it is live again.
        TimeUnit.SECONDS.sleep(1);
        feed.show(Snapshots.bisque(clock.monotonicMs(), 101));
        await(
                "the recorder again",
                () -> watch.latest().sequence() != lines
                        && watch.latest().connection().state() == Connection.State.RECEIVING);
        clock.wallJumps(Duration.ofHours(-1));
        for (int i = 0; i < 6; i++) {
            clock.forwardMs(5_000);
            feed.show(Snapshots.bisque(clock.monotonicMs(), 102 + i));
            TimeUnit.MILLISECONDS.sleep(300);
        }
        assertThat(watch.latest().alarms()).isEmpty();
        assertThat(rang()).isEmpty();
    }

    @Test
    void afterTheFiringHasEndedItsSilenceWakesNobody() throws Exception {
        NightWatch watch = attached();
        feed.show(Snapshots.ended(clock.monotonicMs()));
        await("the end", () -> watch.latest().stage() == Snapshot.Stage.ENDED);
        stream.close();
        forward(Duration.ofMinutes(5));
        TimeUnit.SECONDS.sleep(1);
        assertThat(watch.latest().alarms()).isEmpty();
        assertThat(rang()).isEmpty();
    }

    @Test
    void aCopyThatNeverFindsItsRecorderRingsAsWell() throws Exception {
        stream.close();
        NightWatch watch = copy();
        forward(Duration.ofSeconds(120));
        await("the bell", () -> isSilentAlarmRinging(watch));
    }

    @Test
    void aWindowOpenedWhereNothingIsRecordedRingsNothingAndGoesOnSayingSo() throws Exception {
        stream.close();
        String nobody = WORDS.text("desk.nobody_records");
        AttachedFiring firing = AttachedFiring.whenThere(
                RecorderPlace.here(() -> Optional.of(address), WORDS),
                clock,
                Snapshot.before(
                        Optional.empty(),
                        new Connection(
                                Connection.State.LOST,
                                clock.monotonicMs(),
                                Optional.of(nobody),
                                Connection.Counts.NONE)));
        open.add(0, firing);
        NightWatch watch = NightWatch.overPerhaps(firing, clock, settings("echo rang >> " + rang, ""), tested(), WORDS);
        open.add(0, watch);
        forward(Duration.ofMinutes(10));
        TimeUnit.SECONDS.sleep(3);
        assertThat(watch.latest().alarms()).isEmpty();
        assertThat(watch.latest().connection().detail()).contains(nobody);
        assertThat(rang()).isEmpty();
        stream = SnapshotStream.open(feed, clock, address);
        open.add(stream);
        await("the copy to attach", () -> watch.latest().kiln().isPresent());
        stream.close();
        forward(Duration.ofSeconds(120));
        await("the bell for a recording that was there", () -> isSilentAlarmRinging(watch));
    }

    @Test
    void aCommandThatFailsStandsOnTheScreen() throws Exception {
        NightWatch watch = copy("echo 'the bell is unplugged' >&2; exit 3", "");
        stream.close();
        forward(Duration.ofSeconds(120));
        await("the trouble", () -> post(watch).commandTrouble().isPresent());
        assertThat(post(watch).commandTrouble().orElseThrow()).contains("exit code 3: the bell is unplugged");
        assertThat(post(watch).hasTrouble()).isTrue();
    }

    @Test
    void theRecordersOwnAlarmRingsHereUntilItIsSilencedHere() throws Exception {
        NightWatch watch = attached();
        Alarm alarm = Snapshots.stuckRelay();
        feed.show(Snapshots.bisque(clock.monotonicMs(), 101).withAlarms(List.of(alarm)));
        await("the bell", () -> rang().contains("come-now stuck-relay 1"));
        watch.acknowledge(alarm.id());
        await("the recorder to be told", () -> feed.said.contains("acknowledge: " + alarm.id()));
        await("the quiet", () -> rang().endsWith("quiet\n"));
    }

    private static Post post(NightWatch watch) {
        List<Post> posts = watch.latest().posts();
        return posts.get(posts.size() - 1);
    }
}

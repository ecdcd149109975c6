package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.UnixDomainSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.alarm.AlarmEntry;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.alarm.QuietHours;
import org.kilnside.book.Book;
import org.kilnside.book.BookRecorder;
import org.kilnside.files.NightSettings;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.FiringEvent.Kind;
import org.kilnside.host.StayAwake;
import org.kilnside.host.TestedAlarm;
import org.kilnside.link.AttachedFiring;
import org.kilnside.link.LockStep;
import org.kilnside.link.share.RecorderPlace;
import org.kilnside.link.share.ShareKey;
import org.kilnside.link.share.Token;
import org.kilnside.page.LanDoor;
import org.kilnside.page.SnapshotStream;
import org.kilnside.schedule.Schedule;
import org.kilnside.session.FakeFiring;
import org.kilnside.session.FiringSettings;
import org.kilnside.session.Host;
import org.kilnside.session.KilnPast;
import org.kilnside.session.LiveFiring;
import org.kilnside.session.Snapshot;
import org.kilnside.virtualkiln.Disturbance;
import org.kilnside.virtualkiln.Happenings;
import org.kilnside.virtualkiln.Load;
import org.kilnside.virtualkiln.Programs;
import org.kilnside.virtualkiln.VirtualFiring;
import org.kilnside.virtualkiln.VirtualKilns;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;

/**
 * Nights at Rook Lane Pottery from one end to the other: Tall Drum on its wire, the codec, the session, the book on disk,
 * the alarms, the door to the network with its encryption, the copy in the bedroom and its bell. The scenarios and the
 * times promised are the issue's; only the kiln's time goes faster than a night.
 */
class NightsAtRookLaneTest {
    private static final Words WORDS = Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH));
    private static final long MINUTE_MS = 60_000;

    private final List<AutoCloseable> open = new ArrayList<>();

    @TempDir
    private Path folder;

    private VirtualFiring kiln;
    private LockStep time;
    private NightWatch studio;
    private SnapshotStream stream;
    private NightWatch bedroom;
    private long happenedMs = -1;

    /** Controllers print each second or each few; where a day and more goes by, each five. */
    private int secondsALine = 5;

    @AfterEach
    void closeAll() throws Exception {
        for (AutoCloseable one : open) {
            one.close();
        }
    }

    /** Lights the kiln at a time of day, with one program keyed in and one plan told to the recorder. */
    private void light(String at, Schedule plan, Schedule keyedIn, Load load, Disturbance... what) throws IOException {
        List<Disturbance> told = new ArrayList<>();
        for (Disturbance each : what) {
            told.add(new Disturbance(each.when(), its -> {
                happenedMs = happenedMs < 0 ? time.monotonicMs() : happenedMs;
                each.what().accept(its);
            }));
        }
        kiln = VirtualFiring.of(VirtualKilns.TALL_DRUM, keyedIn)
                .load(load)
                .disturbances(told)
                .interval(secondsALine)
                .seed(4)
                .start();
        time = new LockStep(kiln, Instant.parse(at));
        BookRecorder book = BookRecorder.open(folder.resolve("firings.book"));
        LiveFiring firing = new LiveFiring(
                book,
                time,
                FiringSettings.of(Optional.of("Tall Drum"), Optional.of(plan), Optional.empty()),
                time.wire(),
                FakeFiring.noForecast(),
                Host.UNKNOWN,
                KilnPast.NONE);
        time.session(firing);
        studio = NightWatch.overRecording(
                firing,
                time,
                () -> stream == null ? 0 : stream.followers(),
                Host.UNKNOWN,
                settings("studio"),
                StayAwake.ofThisComputer(WORDS),
                new TestedAlarm(folder.resolve("studio")),
                WORDS);
        stream = SnapshotStream.open(studio, time, UnixDomainSocketAddress.of(folder.resolve("s")));
        open.addAll(0, List.of(stream, studio, firing, book));
        firing.start();
    }

    /** The bedroom follows from now on, and rings by itself. */
    private void follow() throws IOException {
        Token token = Token.random(new SecureRandom());
        LanDoor door = LanDoor.open(stream, time, ShareKey.of(token, new SecureRandom(), LocalDate.EPOCH), true, 0);
        AttachedFiring copy = AttachedFiring.now(
                        RecorderPlace.onTheNetwork("127.0.0.1", door.port(), token, WORDS), time)
                .orElseThrow();
        bedroom =
                NightWatch.overCopy(copy, time, settings("bedroom"), new TestedAlarm(folder.resolve("bedroom")), WORDS);
        open.addAll(0, List.of(bedroom, copy, door));
        time.copy(copy);
    }

    private NightSettings settings(String computer) {
        return new NightSettings(
                Optional.of("echo \"$KILNSIDE_GRADE $KILNSIDE_KIND\" >> " + folder.resolve(computer + ".bell")),
                Optional.empty(),
                Duration.ofSeconds(5),
                false,
                false,
                Optional.of(computer),
                QuietHours.NONE);
    }

    private double tipC() {
        return kiln.sensor().tipC();
    }

    private static boolean rings(Snapshot snapshot, AlarmKind kind) {
        return snapshot.alarms().stream().anyMatch(alarm -> alarm.kind() == kind && alarm.rings());
    }

    private boolean rings(AlarmKind kind) {
        return rings(studio.latest(), kind);
    }

    /** Events of alarms that the studio has written down, as the copy or the studio shows them. */
    private static List<AlarmKind> raised(List<FiringEvent> events) {
        return kinds(events, Kind.ALARM_RAISED);
    }

    private static List<AlarmKind> kinds(List<FiringEvent> events, Kind which) {
        return events.stream()
                .filter(event -> event.kind() == which)
                .map(event -> AlarmEntry.parse(event.text().orElseThrow())
                        .orElseThrow()
                        .kind())
                .toList();
    }

    /** What the book on the disk holds, once the recording has ended. */
    private List<FiringEvent> endedAndInTheBook() throws Exception {
        closeAll();
        open.clear();
        try (Book book = Book.open(folder.resolve("firings.book"))) {
            return book.firing(1).events();
        }
    }

    private boolean bellOf(String computer, String what) throws IOException {
        Path bell = folder.resolve(computer + ".bell");
        return Files.exists(bell) && Files.readAllLines(bell).contains(what);
    }

    private void awaitBell(String computer, String what) throws Exception {
        long until = System.nanoTime() + 20_000_000_000L;
        while (!bellOf(computer, what)) {
            assertThat(System.nanoTime())
                    .as("the bell of the %s: %s", computer, what)
                    .isLessThan(until);
            TimeUnit.MILLISECONDS.sleep(20);
        }
    }

    @Test
    void atTenPastTwoARelayWeldsAtTheTopAndTheBedroomRingsWithinThreeMinutes() throws Exception {
        Schedule glaze = Programs.glaze(1222, 70);
        light(
                "2026-11-25T16:54:00Z",
                glaze,
                glaze,
                Load.biscuit(18, 14),
                Disturbance.rising(1218, Happenings.allRelaysWeld()));
        assertThat(time.goesOnUntil(() -> happenedMs >= 0, 24)).isTrue();
        assertThat(time.wallClock())
                .isBetween(Instant.parse("2026-11-26T02:08:00Z"), Instant.parse("2026-11-26T02:12:00Z"));
        follow();
        assertThat(time.goesOnUntil(() -> tipC() > 1232, 1)).isTrue();
        long overMs = time.monotonicMs();
        assertThat(time.goesOnUntil(() -> rings(AlarmKind.STUCK_RELAY), 0.1)).isTrue();
        assertThat(time.monotonicMs() - overMs).isLessThanOrEqualTo(3 * MINUTE_MS);
        awaitBell("bedroom", "come-now stuck-relay");
        awaitBell("studio", "come-now stuck-relay");
        assertThat(rings(bedroom.latest(), AlarmKind.RECORDER_SILENT)).isFalse();
        assertThat(raised(endedAndInTheBook())).contains(AlarmKind.STUCK_RELAY);
    }

    @Test
    void aSensorSlipsAt640AndTheBedroomIsToldNotToTrustTheNumber() throws Exception {
        secondsALine = 1;
        Schedule bisque = Programs.bisque(1000);
        light(
                "2026-11-25T20:00:00Z",
                bisque,
                bisque,
                VirtualKilns.bisqueLoad(),
                Disturbance.rising(640, Happenings.sensorSlips(0.6)));
        assertThat(time.goesOnUntil(() -> tipC() > 639, 24)).isTrue();
        follow();
        assertThat(bedroom.latest().findings().cone()).isPresent();
        assertThat(time.goesOnUntil(() -> rings(AlarmKind.SENSOR_SLIPPED), 1)).isTrue();
        assertThat(time.monotonicMs() - happenedMs).isLessThanOrEqualTo(5 * MINUTE_MS);
        awaitBell("bedroom", "come-now sensor-slipped");
        assertThat(bedroom.latest().findings().cone()).isEmpty();
        assertThat(bedroom.latest().findings().forecast()).isEmpty();
        assertThat(raised(endedAndInTheBook())).contains(AlarmKind.SENSOR_SLIPPED);
    }

    @Test
    void aGlazeProgramOnABisquePlanIsFoundInTheFirstThreeQuartersOfAnHour() throws Exception {
        secondsALine = 1;
        light("2026-11-25T18:00:00Z", Programs.bisque(1000), Programs.glaze(1222, 70), VirtualKilns.bisqueLoad());
        assertThat(time.goesOnUntil(() -> rings(AlarmKind.NOT_THIS_PLAN), 0.75)).isTrue();
        follow();
        awaitBell("bedroom", "look-soon not-this-plan");
        assertThat(raised(endedAndInTheBook())).containsExactly(AlarmKind.NOT_THIS_PLAN);
    }

    @Test
    void theLidIsProppedAt118AndClosedAgainAndNobodyIsToldToUnload() throws Exception {
        Schedule bisque = Programs.bisque(1000);
        light(
                "2026-11-25T08:00:00Z",
                bisque,
                bisque,
                VirtualKilns.bisqueLoad(),
                Disturbance.falling(118, Happenings.lid(0.012)));
        assertThat(time.goesOnUntil(() -> happenedMs >= 0, 48)).isTrue();
        assertThat(raised(studio.latest().events())).contains(AlarmKind.BELOW_LID_THRESHOLD);
        follow();
        assertThat(time.goesOnUntil(() -> rings(AlarmKind.LID_MOVED), 0.25)).isTrue();
        awaitBell("bedroom", "look-soon lid-moved");
        time.goesOnUntil(() -> false, 0.15);
        assertThat(raised(bedroom.latest().events())).doesNotContain(AlarmKind.BELOW_UNLOAD_THRESHOLD);
        time.withoutCopy();
        kiln.kiln().propLid(0);
        assertThat(time.goesOnUntil(
                        () -> kinds(studio.latest().events(), Kind.ALARM_CLEARED)
                                .contains(AlarmKind.LID_MOVED),
                        1))
                .isTrue();
        assertThat(raised(endedAndInTheBook()))
                .contains(AlarmKind.LID_MOVED)
                .doesNotContain(AlarmKind.STUCK_RELAY, AlarmKind.BELOW_UNLOAD_THRESHOLD);
    }

    @Test
    void aSlowCoolPlanWithoutASingleStuckRelay() throws Exception {
        Schedule slow = Programs.slowCoolGlaze(1222, 70);
        light("2026-11-25T08:00:00Z", slow, slow, Load.biscuit(18, 14));
        assertThat(time.goesOnUntil(() -> kiln.controller().isOver() && tipC() < 118, 60))
                .isTrue();
        follow();
        assertThat(raised(bedroom.latest().events()))
                .doesNotContain(AlarmKind.STUCK_RELAY, AlarmKind.POWER_GONE, AlarmKind.ABOVE_PLAN_MAXIMUM)
                .contains(AlarmKind.BELOW_LID_THRESHOLD);
        assertThat(raised(endedAndInTheBook())).doesNotContain(AlarmKind.STUCK_RELAY, AlarmKind.POWER_GONE);
    }
}

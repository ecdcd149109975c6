package org.kilnside.host;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;

class AlarmCommandTest {
    private static final Words WORDS = Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH));

    private static final Duration LONG = Duration.ofSeconds(20);

    @TempDir
    private Path folder;

    private void runAndWait(AlarmCommand command, String name, Map<String, String> environment) throws Exception {
        CountDownLatch done = new CountDownLatch(1);
        command.run(name, environment, done::countDown);
        assertThat(done.await(30, TimeUnit.SECONDS)).isTrue();
    }

    @Test
    void itKnowsGradeAndTextFromItsEnvironmentWhateverIsInThem() throws Exception {
        Path said = folder.resolve("said");
        String nasty = "Tall Drum: 1012 °C \"$(touch " + folder + "/broken)\" `id` ; rm -rf x\nsecond line";
        try (AlarmCommand command =
                new AlarmCommand("printf '%s|%s' \"$KILNSIDE_GRADE\" \"$KILNSIDE_TEXT\" > " + said, LONG, WORDS)) {
            runAndWait(command, "a", Map.of("KILNSIDE_GRADE", "come-now", "KILNSIDE_TEXT", nasty));
            assertThat(command.trouble()).isEmpty();
        }
        assertThat(said).hasContent("come-now|" + nasty);
        assertThat(folder.resolve("broken")).doesNotExist();
    }

    @Test
    void oneThatFailsSaysSoWithItsOwnWords() throws Exception {
        try (AlarmCommand command = new AlarmCommand("echo 'no credit left' >&2; exit 7", LONG, WORDS)) {
            runAndWait(command, "a", Map.of());
            assertThat(command.trouble()).hasValue("it failed with exit code 7: no credit left");
        }
    }

    @Test
    void oneThatIsNotThereSaysSo() throws Exception {
        try (AlarmCommand command = new AlarmCommand("/no/such/bell", LONG, WORDS)) {
            runAndWait(command, "a", Map.of());
            assertThat(command.trouble().orElseThrow()).contains("exit code 127");
        }
    }

    @Test
    void oneThatHangsIsEndedWithAllItStartedAndTheNextOneRuns() throws Exception {
        Path pid = folder.resolve("pid");
        Path hung = folder.resolve("hung");
        String hangsOnce =
                "if [ -e " + hung + " ]; then exit 0; fi; touch " + hung + "; sleep 300 & echo $! > " + pid + "; wait";
        try (AlarmCommand command = new AlarmCommand(hangsOnce, Duration.ofSeconds(1), WORDS)) {
            runAndWait(command, "a", Map.of());
            assertThat(command.trouble()).hasValue("it did not end within 1 s and was ended");
            long child = Long.parseLong(Files.readString(pid).strip());
            // A child may be listed for a moment after its end, until somebody asks for its exit code.
            ProcessHandle.of(child)
                    .ifPresent(left ->
                            left.onExit().orTimeout(10, TimeUnit.SECONDS).join());
            runAndWait(command, "b", Map.of());
            assertThat(command.trouble()).isEmpty();
        }
    }

    @Test
    void oneThatFloodsItsOutputFillsNothing() throws Exception {
        try (AlarmCommand command = new AlarmCommand("yes flood; true", Duration.ofSeconds(1), WORDS)) {
            runAndWait(command, "out", Map.of());
            assertThat(command.trouble().orElseThrow()).contains("within 1 s");
        }
        try (AlarmCommand command = new AlarmCommand("yes flood >&2", Duration.ofSeconds(1), WORDS)) {
            runAndWait(command, "err", Map.of());
            assertThat(command.trouble().orElseThrow()).hasSizeLessThan(400);
        }
    }

    @Test
    void aFloodOfAlarmsStartsOneCommandAtATimeAndLeavesTheOldestOut() throws Exception {
        Path log = folder.resolve("log");
        Path busy = folder.resolve("busy");
        String script = "if ! mkdir " + busy + "; then echo TWO >> " + log + "; fi; echo $KILNSIDE_ALARM >> " + log
                + "; rmdir " + busy;
        CountDownLatch last = new CountDownLatch(1);
        try (AlarmCommand command = new AlarmCommand(script, LONG, WORDS)) {
            for (int i = 0; i < 1_000; i++) {
                command.run("alarm-" + i, Map.of("KILNSIDE_ALARM", "alarm-" + i));
            }
            command.run("the-last", Map.of("KILNSIDE_ALARM", "the-last"), last::countDown);
            assertThat(last.await(60, TimeUnit.SECONDS)).isTrue();
            assertThat(command.leftOut()).isGreaterThan(900);
        }
        List<String> ran = Files.readAllLines(log);
        assertThat(ran).doesNotContain("TWO").endsWith("the-last").hasSizeLessThan(100);
    }

    @Test
    void ofOneAlarmOnlyTheNewestWaits() throws Exception {
        Path log = folder.resolve("log");
        CountDownLatch done = new CountDownLatch(1);
        try (AlarmCommand command = new AlarmCommand("sleep 0.3; echo $KILNSIDE_COUNT >> " + log, LONG, WORDS)) {
            for (int i = 1; i <= 50; i++) {
                command.run("stuck-relay-1", Map.of("KILNSIDE_COUNT", Integer.toString(i)));
            }
            command.run("stuck-relay-1", Map.of("KILNSIDE_COUNT", "51"), done::countDown);
            assertThat(done.await(30, TimeUnit.SECONDS)).isTrue();
        }
        assertThat(Files.readAllLines(log)).hasSizeLessThanOrEqualTo(2).endsWith("51");
    }
}

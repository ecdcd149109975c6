package org.kilnside.host;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class TestedAlarmTest {
    private static final Instant EVENING = Instant.parse("2026-11-25T21:14:00Z");

    @TempDir
    private Path folder;

    @Test
    void whereAndWhenItWasHeardIsKnownToTheProgramThatIsStartedNext() {
        new TestedAlarm(folder).heard(EVENING);
        new TestedAlarm(folder).heard(EVENING.plusSeconds(60), "the bedroom's laptop");
        assertThat(new TestedAlarm(folder).last()).hasValue(EVENING);
        assertThat(new TestedAlarm(folder).elsewhere())
                .containsExactly(java.util.Map.entry("the bedroom's laptop", EVENING.plusSeconds(60)));
    }

    @Test
    void theEightHeardLastAreRemembered() {
        TestedAlarm tested = new TestedAlarm(folder);
        for (int i = 0; i < 12; i++) {
            tested.heard(EVENING.plusSeconds(i), "room " + i);
        }
        assertThat(tested.elsewhere().keySet())
                .hasSize(8)
                .contains("room 11", "room 4")
                .doesNotContain("room 3");
    }

    @Test
    void aFileOfTheVersionBeforeIsRead() throws Exception {
        Files.writeString(folder.resolve("alarm-tested.txt"), EVENING + "\n");
        assertThat(new TestedAlarm(folder).last()).hasValue(EVENING);
        assertThat(new TestedAlarm(folder).elsewhere()).isEmpty();
    }

    @Test
    void neverTestedOrUnreadableIsNeverTested() throws Exception {
        assertThat(new TestedAlarm(folder).last()).isEmpty();
        Files.writeString(folder.resolve("alarm-tested.txt"), "yesterday\n");
        assertThat(new TestedAlarm(folder).last()).isEmpty();
    }

    @Test
    void aNameIsOneShortLineWhateverAnotherComputerCallsItself() {
        assertThat(ComputerName.tidy("  bed\nroom\u0007 \u2028laptop  ")).isEqualTo("bed room laptop");
        assertThat(ComputerName.tidy("x".repeat(100))).hasSize(40);
        assertThat(ComputerName.ofThisComputer()).isNotBlank();
    }
}

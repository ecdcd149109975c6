package org.kilnside.host;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;

class HostWatchTest {
    private static final Words WORDS = Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH));

    @TempDir
    private Path folder;

    private Path supply(String name, String... files) throws IOException {
        Path supply = Files.createDirectories(folder.resolve(name));
        for (int i = 0; i < files.length; i += 2) {
            Files.writeString(supply.resolve(files[i]), files[i + 1] + "\n");
        }
        return folder;
    }

    @Test
    void aLaptopOnItsChargerDoesNotRunOnItsBattery() throws IOException {
        supply("AC", "type", "Mains", "online", "1");
        assertThat(Battery.inUse(supply("BAT0", "type", "Battery", "status", "Charging")))
                .hasValue(false);
    }

    @Test
    void aLaptopWithoutItDoes() throws IOException {
        supply("AC", "type", "Mains", "online", "0");
        assertThat(Battery.inUse(supply("BAT0", "type", "Battery", "status", "Discharging")))
                .hasValue(true);
    }

    @Test
    void aMouseIsNoReasonToBeWoken() throws IOException {
        assertThat(Battery.inUse(supply("mouse", "type", "Battery", "scope", "Device", "status", "Discharging")))
                .isEmpty();
    }

    @Test
    void aBoardWithoutABatterySaysNothing() throws IOException {
        assertThat(Battery.inUse(supply("AC", "type", "Mains", "online", "1"))).isEmpty();
        assertThat(Battery.inUse(folder.resolve("not there"))).isEmpty();
    }

    @Test
    void roomBatteryAndSleepAreReportedTogether() throws Exception {
        try (StayAwake awake = new StayAwake(Optional.empty(), () -> "it has no lid", WORDS);
                HostWatch watch = new HostWatch(folder.resolve("firings.book"), awake, () -> Optional.of(true))) {
            long until = System.nanoTime() + 20_000_000_000L;
            while (watch.report().diskFreeBytes().isEmpty()) {
                assertThat(System.nanoTime()).isLessThan(until);
                TimeUnit.MILLISECONDS.sleep(20);
            }
            assertThat(watch.report().onBattery()).isTrue();
            assertThat(watch.report().mayFallAsleep()).isFalse();
            assertThat(watch.report().diskFreeBytes().getAsLong())
                    .isCloseTo(
                            Files.getFileStore(folder).getUsableSpace(),
                            org.assertj.core.api.Assertions.within(1_000_000_000L));
        }
    }

    @Test
    void whenTheAlarmWasHeardIsRemembered() throws IOException {
        TestedAlarm tested = new TestedAlarm(folder.resolve("settings"));
        assertThat(tested.last()).isEmpty();
        tested.heard(Instant.parse("2026-11-25T17:00:00Z"));
        assertThat(new TestedAlarm(folder.resolve("settings")).last()).hasValue(Instant.parse("2026-11-25T17:00:00Z"));
        Files.writeString(folder.resolve("settings").resolve("alarm-tested.txt"), "yesterday");
        assertThat(tested.last()).isEmpty();
    }
}

package org.kilnside.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalTime;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.alarm.QuietHours;

class NightFilesTest {
    @TempDir
    private Path folder;

    @Test
    void whatIsWrittenIsDone() {
        NightSettings settings = NightFiles.parse("""
                alarm_command = "/home/rook/bell on"
                quiet_command = "/home/rook/bell off"
                command_limit_s = "10"
                sound = false
                notices = false
                [quiet]
                from = "22:30"
                to = "7:00"
                """, "night.toml");
        assertThat(settings.alarmCommand()).hasValue("/home/rook/bell on");
        assertThat(settings.quietCommand()).hasValue("/home/rook/bell off");
        assertThat(settings.commandLimit()).isEqualTo(Duration.ofSeconds(10));
        assertThat(settings.sound()).isFalse();
        assertThat(settings.notices()).isFalse();
        assertThat(settings.quiet()).isEqualTo(new QuietHours(LocalTime.of(22, 30), LocalTime.of(7, 0)));
    }

    @Test
    void withoutAFileAllIsAsUsual() {
        assertThat(NightFiles.in(folder)).isEqualTo(NightSettings.USUAL);
    }

    @Test
    void everythingThatIsOffIsNamedWithItsLine() {
        assertThatThrownBy(() -> NightFiles.parse("""
                        command = "bell"
                        command_limit_s = "an hour"
                        [quiet]
                        from = "half past ten"
                        """, "night.toml"))
                .isInstanceOfSatisfying(
                        FileRefusedException.class,
                        refused -> assertThat(refused.problems().toString())
                                .contains("alarm_command", "\"an hour\"", "22:30", "to = "));
    }
}

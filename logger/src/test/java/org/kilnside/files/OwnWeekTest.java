package org.kilnside.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.week.Week;

class OwnWeekTest {
    private static final String BY_HAND = """
            # the café, whatever happens
            name = "For the café"
            kiln = "tall-drum"
            due  = "Fri 09:00"

            [[load]]
            name = "Soup bowls, raw"
            plan = "bisque"
            """;

    @TempDir
    private Path folder;

    private OwnWeek own;
    private WeekFiles.Setting setting;

    @BeforeEach
    void atRookLane() {
        own = OwnWeek.in(folder);
        setting = new WeekFiles.Setting(
                ProfileLibrary.of(folder), Instant.parse("2026-11-27T17:00:00Z"), ZoneId.of("Europe/Amsterdam"));
    }

    private void byHand(String text) throws IOException {
        Files.createDirectories(own.path().getParent());
        Files.writeString(own.path(), text);
    }

    private Week week() {
        return WeekFiles.parse(BY_HAND, "", setting);
    }

    @Test
    void aWeekSavedIsTheOneACommandFinds() {
        assertThat(own.text()).isEmpty();
        OwnWeek.Saved saved = own.save(week(), "", setting);
        assertThat(saved.aside()).isEmpty();
        assertThat(ProfileLibrary.of(folder).week("my-week", setting.now(), setting.zone()))
                .isEqualTo(week());
        assertThat(own.text()).contains(saved.text());
    }

    @Test
    void savingAgainPutsNothingAside() {
        OwnWeek.Saved first = own.save(week(), "", setting);
        assertThat(own.save(week(), first.text(), setting).aside()).isEmpty();
        assertThat(ProfileLibrary.of(folder).weekNames()).containsExactly("cafe-friday", "my-week");
    }

    @Test
    void whatAPersonWroteIsPutAsideWithItsComments() throws IOException {
        byHand(BY_HAND);
        OwnWeek.Saved saved = own.save(week(), BY_HAND, setting);
        assertThat(saved.aside()).isEqualTo(Optional.of("my-week-2"));
        assertThat(own.path().resolveSibling("my-week-2.toml")).hasContent(BY_HAND);
        assertThat(own.path()).hasContent(saved.text());
    }

    @Test
    void whatAnotherWindowWroteMeanwhileIsPutAside() throws IOException {
        OwnWeek.Saved first = own.save(week(), "", setting);
        byHand(first.text().replace("For the café", "For the market"));
        OwnWeek.Saved second = own.save(week(), first.text(), setting);
        assertThat(second.aside()).isPresent();
        assertThat(Files.readString(own.path().resolveSibling("my-week-2.toml")))
                .contains("For the market");
    }

    @Test
    void whatIsNoWeekIsNotWrittenOver() throws IOException {
        byHand(BY_HAND.replace("[[load]]", "[[loud]]"));
        assertThatThrownBy(() -> own.save(week(), "", setting))
                .isInstanceOf(FileRefusedException.class)
                .hasMessageContaining("my-week.toml");
        assertThat(Files.readString(own.path())).contains("[[loud]]");
    }
}

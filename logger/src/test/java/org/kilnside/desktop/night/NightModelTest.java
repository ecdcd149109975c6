package org.kilnside.desktop.night;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.kilnside.sensor.ControllerNumbers;
import org.kilnside.session.Post;
import org.kilnside.session.Snapshot;
import org.kilnside.session.Snapshots;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;

class NightModelTest {
    private static final Words WORDS = Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH));

    private static Post post(Post.Awake awake, Optional<String> sound, Optional<String> command) {
        return new Post(
                Post.Role.RECORDER,
                awake,
                awake == Post.Awake.REFUSED ? Optional.of("access denied") : Optional.empty(),
                true,
                sound,
                true,
                command,
                Optional.of(Instant.parse("2026-11-25T17:00:00Z")),
                List.of(new Post.Heard("bedroom", Instant.parse("2026-11-25T21:14:00Z"))),
                0,
                0,
                OptionalInt.of(2));
    }

    private static NightModel model(Post... posts) {
        Snapshot snapshot = Snapshots.bisque(0, 10).withPosts(List.of(posts));
        return NightModel.of(snapshot, true, ControllerNumbers.SAME, WORDS);
    }

    @Test
    void aComputerThatIsWellSaysHowItWouldBeHeard() {
        NightModel.PostLines lines = model(post(Post.Awake.KEPT, Optional.empty(), Optional.empty()))
                .posts()
                .get(0);
        assertThat(lines.name()).isEqualTo("The computer that records");
        assertThat(lines.troubles()).isEmpty();
        assertThat(lines.lines())
                .contains(
                        "It stays awake until the firing is over.", "It sounds alarms.", "It runs your alarm command.")
                .anyMatch(line -> line.startsWith("Its alarm was last tested and heard on Wed"))
                .anyMatch(line -> line.endsWith("follow it now: 2."));
    }

    @Test
    void whateverStandsInTheWayOfAnAlarmStandsFirst() {
        NightModel.PostLines lines = model(post(
                        Post.Awake.REFUSED,
                        Optional.of("there is no sound device"),
                        Optional.of("it failed with exit code 5")))
                .posts()
                .get(0);
        assertThat(lines.lines().subList(0, 3))
                .containsExactly(
                        "It may fall asleep: access denied. Switch off sleeping in its settings.",
                        "No sound: there is no sound device.",
                        "Your alarm command: it failed with exit code 5.");
        assertThat(lines.troubles()).hasSize(3);
        assertThat(lines.lines()).doesNotContain("It sounds alarms.", "It runs your alarm command.");
    }

    @Test
    void thePlansCardIsThereToBeReadBack() {
        assertThat(model().card().orElseThrow().steps()).hasSize(1);
        assertThat(model().summary()).isEqualTo("Nothing of this is in the book yet.");
    }
}

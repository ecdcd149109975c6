package org.kilnside.desktop;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import javax.swing.JComponent;
import javax.swing.JFrame;
import javax.swing.SwingUtilities;
import org.kilnside.desktop.night.NightScreen;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.firing.Lighting;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.ControllerNumbers;
import org.kilnside.session.AlarmTrial;
import org.kilnside.session.HandFeed;
import org.kilnside.session.Post;
import org.kilnside.session.Snapshot;
import org.kilnside.session.Snapshots;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.Language;
import org.kilnside.wording.Opening;
import org.kilnside.wording.TemperatureUnit;

/**
 * Opens the Night screen in one state after the other and writes pictures of it. Each argument is one picture: {@code
 * STATE,THEME,LANGUAGE,WIDTHxHEIGHT,FILE}. For each it says what is clipped, if anything.
 */
final class NightShowcase {
    private NightShowcase() {}

    /** What the screen is shown in. */
    enum State {
        WELL(post(Post.Role.RECORDER, true), post(Post.Role.COPY, true)),
        TROUBLED(post(Post.Role.RECORDER, false), post(Post.Role.COPY, true)),
        RINGING(post(Post.Role.RECORDER, true), waiting());

        private final Post[] posts;

        State(Post... posts) {
            this.posts = posts;
        }

        private Snapshot snapshot() {
            Snapshot snapshot = Scene.HEATING.snapshot().withPosts(List.of(posts));
            return this == RINGING ? snapshot.withAlarms(List.of(Snapshots.stuckRelay())) : snapshot;
        }
    }

    /** A copy whose recorder has not taken down all that was said on it. */
    private static Post waiting() {
        Post well = post(Post.Role.COPY, true);
        return new Post(
                well.role(),
                well.awake(),
                well.sleepWhy(),
                well.sounds(),
                well.soundTrouble(),
                well.hasCommand(),
                well.commandTrouble(),
                well.testedAt(),
                well.heard(),
                2,
                0,
                well.followers());
    }

    private static Post post(Post.Role role, boolean well) {
        return new Post(
                role,
                well ? Post.Awake.KEPT : Post.Awake.REFUSED,
                well ? Optional.empty() : Optional.of("systemd-inhibit refused: Access denied"),
                true,
                well ? Optional.empty() : Optional.of("there is no sound device, or another program holds it"),
                true,
                well ? Optional.empty() : Optional.of("it failed with exit code 7: no credit left"),
                well ? Optional.of(Instant.parse("2026-11-25T17:12:00Z")) : Optional.empty(),
                well && role == Post.Role.RECORDER
                        ? List.of(new Post.Heard("bedroom", Instant.parse("2026-11-25T17:15:00Z")))
                        : List.of(),
                0,
                0,
                role == Post.Role.RECORDER ? OptionalInt.of(1) : OptionalInt.empty());
    }

    public static void main(String[] pictures) {
        int exit = 0;
        try {
            for (String picture : pictures) {
                take(picture.split(",", -1));
            }
        } catch (Exception | Error e) {
            // An open window would keep this program, and the test that waits for it.
            e.printStackTrace();
            exit = 1;
        }
        System.exit(exit);
    }

    private static void take(String[] wish) throws Exception {
        State state = State.valueOf(wish[0]);
        Showcase.Shape shape = Showcase.Shape.of(wish[3]);
        Settings settings = new Settings(
                Theme.valueOf(wish[1]),
                Language.valueOf(wish[2]),
                TemperatureUnit.CELSIUS,
                ClockStyle.TWENTY_FOUR_HOURS,
                Opening.LID,
                false,
                shape.text());
        HandClock clock = new HandClock();
        clock.set(Scene.HEATING.hostMs());
        HandFeed feed = new HandFeed(state.snapshot());
        Window.open(
                feed,
                clock,
                SettingsStore.forgetful(settings),
                HandClosing.unheard(),
                WholeBar.with(
                        "F6",
                        (words, errands) ->
                                new NightScreen(port(feed), words, errands, typed -> Temperature.ofCelsius(1260))));
        JFrame frame = Showcase.shown();
        SwingUtilities.invokeAndWait(() -> {
            frame.setSize(shape.width(), shape.height());
            ((JComponent) frame.getContentPane()).getActionMap().get("F6").actionPerformed(null);
        });
        Stillness.await();
        Showcase.shoot(frame.getContentPane(), wish[4]);
        SwingUtilities.invokeAndWait(() -> Showcase.putAway(frame));
    }

    private static NightScreen.Port port(HandFeed feed) {
        return new NightScreen.Port() {
            @Override
            public ControllerNumbers numbers(String kiln) {
                return ControllerNumbers.SAME;
            }

            @Override
            public void lighting(Lighting ticked) {
                feed.lighting(ticked);
            }

            @Override
            public boolean takesNotes() {
                return feed.takesNotes();
            }

            @Override
            public void ringTest() {
                feed.ringTest();
            }

            @Override
            public Optional<AlarmTrial> alarmTrial() {
                return feed.alarmTrial();
            }
        };
    }
}

package org.kilnside.desktop;

import java.awt.AWTException;
import java.awt.Frame;
import java.awt.Rectangle;
import java.time.Duration;
import java.util.List;
import javax.swing.JFrame;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.session.HandFeed;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.Language;
import org.kilnside.wording.Opening;
import org.kilnside.wording.SampleSnapshots;
import org.kilnside.wording.TemperatureUnit;

/** Leaves the window where no screen is any more, as one that is unplugged does, and waits for it to come back. */
final class LostScreenWalk extends Walk {
    private LostScreenWalk() throws AWTException {
        super(Duration.ofSeconds(30));
    }

    public static void main(String[] none) throws Exception {
        new LostScreenWalk().walk();
        System.exit(0);
    }

    private void walk() {
        Window.open(
                new HandFeed(SampleSnapshots.heating()),
                new HandClock(),
                SettingsStore.forgetful(new Settings(
                        Theme.DARK,
                        Language.ENGLISH,
                        TemperatureUnit.CELSIUS,
                        ClockStyle.TWENTY_FOUR_HOURS,
                        Opening.LID,
                        false,
                        100)),
                quietly(),
                List.of());
        step("the window is there", () -> {
            for (Frame candidate : Frame.getFrames()) {
                if (candidate instanceof JFrame window && window.isShowing()) {
                    frame = window;
                }
            }
            return frame != null;
        });
        Rectangle screen = frame.getGraphicsConfiguration().getBounds();
        // Put there and looked at in one go: a second later it may be back already.
        step("it lies where there is no screen", () -> {
            frame.setBounds(screen.width + 900, 60, screen.width - 200, screen.height - 100);
            return !frame.getBounds().intersects(screen);
        });
        step("and comes back, whole", () -> screen.contains(frame.getBounds()));
        onSwing(() -> frame.setLocation(100, -screen.height));
        step("also from above", () -> screen.contains(frame.getBounds()));
    }
}

package org.kilnside.app;

import static org.kilnside.app.WindowRecordings.plainly;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.kilnside.book.Book;
import org.kilnside.desktop.night.NightScreen;
import org.kilnside.firing.Lighting;
import org.kilnside.sensor.ControllerNumbers;
import org.kilnside.session.AlarmTrial;
import org.kilnside.session.HostClock;
import org.kilnside.session.LiveFeed;

/** What the Night screen asks of the recording, answered by the live feed. */
record WindowNight(LiveFeed feed, Path book, HostClock clock) implements NightScreen.Port {
    @Override
    public ControllerNumbers numbers(String kiln) {
        if (!Files.exists(book)) {
            return ControllerNumbers.SAME;
        }
        return plainly(() -> {
            try (Book open = Book.open(book)) {
                return open.history(kiln)
                        .guide(clock.wallClock())
                        .map(ControllerNumbers::of)
                        .orElse(ControllerNumbers.SAME);
            }
        });
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
}

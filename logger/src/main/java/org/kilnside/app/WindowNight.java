package org.kilnside.app;

import java.util.Optional;
import org.kilnside.desktop.night.NightScreen;
import org.kilnside.firing.Lighting;
import org.kilnside.session.AlarmTrial;
import org.kilnside.session.LiveFeed;

/** What the Night screen asks of the recording, answered by the live feed. */
record WindowNight(LiveFeed feed) implements NightScreen.Port {
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

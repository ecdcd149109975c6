package org.kilnside.desktop.week;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.kilnside.firing.Kiln;
import org.kilnside.schedule.Schedule;
import org.kilnside.week.Week;
import org.kilnside.week.WeekPlan;

/**
 * Where the person's own week is kept and what is needed to plan it; the app fills this port. All but {@link #now} may wait,
 * is never called on the Swing thread, and says what went wrong in the message of its exception.
 */
public interface WeekShelf {
    /**
     * A kiln to choose.
     *
     * @param shortName its file's name
     * @param title what it is called inside
     */
    record KilnChoice(String shortName, String title) {}

    /**
     * A plan to choose.
     *
     * @param shortName its file's name
     */
    record PlanChoice(String shortName, Schedule plan) {}

    /**
     * The own week as read.
     *
     * @param text of its file
     */
    record Opened(String text, Week week) {}

    /**
     * The own week as written.
     *
     * @param text of its file
     * @param aside the name under which what was there is kept; empty where nothing would have been lost
     */
    record Saved(String text, Optional<String> aside) {}

    /** What a week comes to, in the kiln it names. */
    record Planned(Kiln kiln, WeekPlan plan) {}

    /** The wall clock; never waits. */
    Instant now();

    /** The own week; empty where there is none yet. */
    Optional<Opened> open();

    /** The text of the own week's file as it is on disk now; empty where there is none. */
    Optional<String> textNow();

    /**
     * Saves the own week.
     *
     * @param lastRead its text when it was last read or written here; empty for none
     */
    Saved save(Week week, String lastRead);

    /** The week that comes with the program as an example. */
    Week example();

    /** The plans that can be read, the person's own and those that come with the program. */
    List<PlanChoice> plans();

    /** The kilns that can be read, the likeliest first. */
    List<KilnChoice> kilns();

    /** Plans the week from a moment on with all that is known of its kiln; takes seconds. */
    Planned plan(Week week, Instant from);
}

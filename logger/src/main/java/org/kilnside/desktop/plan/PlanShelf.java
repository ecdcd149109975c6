package org.kilnside.desktop.plan;

import java.util.List;
import java.util.Optional;
import org.kilnside.firing.Kiln;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.ControllerNumbers;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.thermal.KilnMemory;
import org.kilnside.wording.Words;

/**
 * Where plans and kilns are kept; the app fills this port. Every method may wait for the disk, is called on the errands'
 * thread, and says what went wrong in the message of its exception.
 */
public interface PlanShelf {
    /**
     * A plan in the library.
     *
     * @param shortName the name a person types for it
     * @param title what it is called inside; the short name where it cannot be read
     * @param own whether it is the person's own, and may be written
     * @param problem why it cannot be read; empty when it can
     */
    record Entry(String shortName, String title, boolean own, Optional<String> problem) {}

    /**
     * A plan taken from the library.
     *
     * @param text its file's text as read
     */
    record Opened(String shortName, boolean own, String text, Schedule plan) {}

    /**
     * A plan put into the library.
     *
     * @param text its file's text as written
     * @param aside the short name under which what somebody else wrote was kept; empty when nobody did
     */
    record Saved(String shortName, String text, Optional<String> aside) {}

    /**
     * A kiln and what its earlier firings taught.
     *
     * @param firings how many of them
     * @param sensor its guiding sensor: how far it may be off, and which numbers the controller shows
     */
    record KnownKiln(Kiln kiln, KilnMemory memory, int firings, SensorInPlace sensor) {}

    /** Own plans first, then those that come with the program. */
    List<Entry> plans();

    Opened open(String shortName);

    /** The text of an own plan as it is on disk now; empty when it is gone. */
    Optional<String> textNow(String shortName);

    /** Saves over an own plan. */
    Saved save(String shortName, Schedule plan, String lastRead);

    /** Saves as a new own plan, under a name nothing has yet. */
    Saved saveNew(Schedule plan);

    /** The names of the kilns, the person's own first. */
    List<String> kilns();

    /** The kiln with what its firings in the book taught; may take seconds. */
    KnownKiln kiln(String name);

    /** The kiln as its owner describes it now; quick. */
    Kiln described(String name);

    /**
     * Writes the card of what to key into the controller as a page to print, and shows it where the system can.
     *
     * @param numbers the controller's own, which is what has to be keyed in
     * @return where it is
     */
    String print(Schedule plan, Optional<String> kiln, ControllerNumbers numbers, Words words);
}

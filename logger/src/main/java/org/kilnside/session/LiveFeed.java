package org.kilnside.session;

import java.time.Duration;
import java.util.Optional;
import java.util.function.Consumer;
import org.kilnside.firing.Lighting;

/**
 * The live firing as a face sees it: the newest snapshot, word of each new one, and the little a person may add. The
 * recorder itself and a second Kilnside attached to it give the same.
 */
public interface LiveFeed {
    /** The newest snapshot. Never waits. */
    Snapshot latest();

    /**
     * Tells the listener of each new snapshot until the subscription is closed. Called on the session's thread: a
     * listener must return at once, and takes over to its own thread what needs time.
     */
    Subscription subscribe(Consumer<Snapshot> listener);

    /**
     * The last lines as they came over the wire, for whoever wants to look at them; asked for, not told, as there may
     * be thousands a second. From any thread; holds up nobody.
     */
    LineView lines();

    /** Whether what a person adds here is heard: another computer may only be allowed to look, or be cut off. */
    default boolean takesNotes() {
        return true;
    }

    /** Puts a person's note into the record at this moment of the firing. */
    void note(String text);

    /**
     * Puts a note into the record that a person wrote a while ago: it was on its way until now.
     *
     * @param ago how long ago, by the clock of whoever records
     */
    default void note(String text, Duration ago) {
        note(text);
    }

    /** A person knows of an alarm, named by its id; one that is not there any more changes nothing. */
    void acknowledge(String alarmId);

    /** The list before lighting, as a person ticked it or passed it over; it goes into the record with the firing. */
    void lighting(Lighting list);

    /** Tries tonight's alarm on this computer; empty where nothing keeps watch. */
    default Optional<AlarmTrial> alarmTrial() {
        return Optional.empty();
    }

    /**
     * Rings the test of tonight's alarm at the recorder and on every copy that follows it. Where nobody keeps watch, as
     * over a demo, nothing can ring.
     */
    default void ringTest() {}

    /** A person heard that test, on the computer of this name. */
    default void testHeard(String computer) {}

    /** A person says that the firing begins now, whatever the curve shows. */
    void firingBegins();

    /** A person says that the firing is over. */
    void firingEnds();

    /** Ends a subscription. */
    interface Subscription extends AutoCloseable {
        @Override
        void close();
    }
}

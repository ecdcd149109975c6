package org.kilnside.alarm;

import java.util.List;
import java.util.OptionalLong;

/**
 * The test of tonight's alarm, as an alarm that a person raises at the recorder: it goes to every copy that follows and
 * rings there like any other to come now. It ends by itself. Told the time by its caller; confined to one thread.
 */
public final class NightTest {
    /** Long enough to walk to a bed, and to hear it get louder. */
    public static final long LASTS_MS = 120_000;

    private final AlarmLedger ledger = new AlarmLedger(Long.MAX_VALUE);
    private OptionalLong untilMs = OptionalLong.empty();

    /**
     * Begins it; one that is under way goes on anew.
     *
     * @param hostMs now, ms of this computer's clock
     * @param nowMs now, ms on the recording's clock
     */
    public void begin(long hostMs, long nowMs) {
        ledger.tell(AlarmKind.TEST, Finding.since(nowMs), nowMs);
        untilMs = OptionalLong.of(hostMs + LASTS_MS);
    }

    /** Everybody has heard it. */
    public void end() {
        untilMs = OptionalLong.empty();
    }

    /** How it stands: the alarm while it lasts, else an empty list. */
    public List<Alarm> look(long hostMs) {
        if (untilMs.isEmpty() || hostMs >= untilMs.getAsLong()) {
            untilMs = OptionalLong.empty();
            return List.of();
        }
        return ledger.current();
    }
}

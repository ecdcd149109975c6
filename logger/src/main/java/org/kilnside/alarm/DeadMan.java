package org.kilnside.alarm;

import java.util.List;

/**
 * The dead man's principle, for a copy that follows a recorder: not hearing of it is an alarm by itself, whatever the
 * reason. Told the time by its caller; confined to one thread.
 */
public final class DeadMan {
    /** Half a minute inside the two minutes promised. */
    public static final long PATIENCE_MS = 90_000;

    private static final long AGAIN_AFTER_MS = 600_000;

    private final AlarmLedger ledger = new AlarmLedger(AGAIN_AFTER_MS);

    /**
     * How it stands.
     *
     * @param silentMs for how long nothing new has been heard, ms of this computer's clock
     * @param nowMs now, ms on the recording's clock
     * @param over whether the firing had ended when last heard of: silence is to be expected then
     * @return the alarm, raised, acknowledged or over; empty list when all is well
     */
    public List<Alarm> look(long silentMs, long nowMs, boolean over) {
        if (over || silentMs < PATIENCE_MS) {
            ledger.clear(AlarmKind.RECORDER_SILENT, nowMs);
        } else {
            ledger.raise(AlarmKind.RECORDER_SILENT, Finding.since(nowMs - silentMs), nowMs);
        }
        return ledger.current();
    }

    /** A person knows; an id that is none of its own changes nothing. */
    public void acknowledge(String id, long nowMs) {
        ledger.acknowledge(id, nowMs);
    }
}

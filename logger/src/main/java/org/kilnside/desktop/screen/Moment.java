package org.kilnside.desktop.screen;

import org.kilnside.session.Snapshot;
import org.kilnside.wording.Words;

/**
 * What a screen shows from.
 *
 * @param snapshot the newest of the live firing
 * @param nowMs the host's monotonic clock, ms: how old the snapshot's reading is
 * @param words the language, unit and clock of now
 * @param quartz whether charts mark 573 °C
 */
public record Moment(Snapshot snapshot, long nowMs, Words words, boolean quartz) {}

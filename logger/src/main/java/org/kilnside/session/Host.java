package org.kilnside.session;

import org.kilnside.alarm.HostReport;

/** The computer the recording runs on. The world fills this port. */
@FunctionalInterface
public interface Host {
    /** A host of which nothing is known. */
    Host UNKNOWN = () -> HostReport.UNKNOWN;

    /** What it says of itself now. Called every few seconds on the session's thread: must return at once. */
    HostReport report();
}

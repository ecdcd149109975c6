package org.kilnside.command;

import java.lang.management.ManagementFactory;
import java.time.Duration;
import org.kilnside.alarm.HostReport;
import org.kilnside.session.Post;
import org.kilnside.session.Snapshot;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** A line in the log each ten minutes: that the recording was alive, and how it was. Confined to the night watch. */
final class Health {
    private static final Logger HEALTH = LoggerFactory.getLogger("org.kilnside.health");
    private static final long EVERY_MS = 600_000;

    private long dueMs;

    Health(long now) {
        dueMs = now;
    }

    /** Writes the line when it is due. */
    void tell(Snapshot snapshot, Post post, HostReport computer, long now) {
        if (now >= dueMs) {
            dueMs = now + EVERY_MS;
            write(snapshot, post, computer, now);
        }
    }

    private static void write(Snapshot snapshot, Post post, HostReport computer, long now) {
        Runtime runtime = Runtime.getRuntime();
        HEALTH.info(
                "alive {}; {} lines, {} spoilt, {} lost; last {} ago; on disk up to {} s; room {} MB; on battery {}; {} followers; heap {} of {} MB;"
                        + " {} threads; awake {}",
                Duration.ofMillis(ManagementFactory.getRuntimeMXBean().getUptime())
                        .withNanos(0),
                snapshot.connection().counts().lines(),
                snapshot.connection().counts().badChecksum()
                        + snapshot.connection().counts().malformed(),
                snapshot.connection().counts().lost(),
                snapshot.latest()
                        .map(line -> (now - line.hostMs()) / 1000 + " s")
                        .orElse("never"),
                snapshot.disk().onDiskUpToMs().orElse(0) / 1000,
                computer.diskFreeBytes().isPresent()
                        ? String.valueOf(computer.diskFreeBytes().getAsLong() / 1_000_000)
                        : "unknown",
                computer.onBattery(),
                post.followers().orElse(0),
                (runtime.totalMemory() - runtime.freeMemory()) / 1_000_000,
                runtime.maxMemory() / 1_000_000,
                Thread.activeCount(),
                post.awake());
    }
}

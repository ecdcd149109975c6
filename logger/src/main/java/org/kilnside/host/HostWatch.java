package org.kilnside.host;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.Supplier;
import org.kilnside.alarm.HostReport;
import org.kilnside.session.Host;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Looks after this computer on a thread of its own: its battery, the room where the book lies, and its sleep. */
public final class HostWatch implements Host, AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(HostWatch.class);
    private static final long LOOK_EVERY_MS = 10_000;

    private final Path book;
    private final StayAwake awake;
    private final Supplier<Optional<Boolean>> battery;
    private final Thread thread = new Thread(this::work, "host-watch");
    private volatile HostReport report = HostReport.UNKNOWN;

    /**
     * @param book where the book lies, or will
     * @param awake what keeps this computer from sleeping
     */
    public HostWatch(Path book, StayAwake awake) {
        this(book, awake, Battery::inUse);
    }

    HostWatch(Path book, StayAwake awake, Supplier<Optional<Boolean>> battery) {
        this.book = book;
        this.awake = awake;
        this.battery = battery;
        thread.setDaemon(true);
        thread.start();
    }

    @Override
    public HostReport report() {
        HostReport now = report;
        return new HostReport(now.onBattery(), awake.answer().mayFallAsleep(), now.diskFreeBytes());
    }

    private void work() {
        try {
            while (!Thread.currentThread().isInterrupted()) {
                report = new HostReport(battery.get().orElse(false), false, room());
                Thread.sleep(LOOK_EVERY_MS);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private OptionalLong room() {
        Path folder = book.toAbsolutePath().getParent();
        try {
            return folder == null || !Files.isDirectory(folder)
                    ? OptionalLong.empty()
                    : OptionalLong.of(Files.getFileStore(folder).getUsableSpace());
        } catch (IOException e) {
            LOG.debug("no word of the disk's room", e);
            return OptionalLong.empty();
        }
    }

    @Override
    public void close() {
        thread.interrupt();
    }
}

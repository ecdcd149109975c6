package org.kilnside.host;

import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import org.kilnside.wording.Words;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A command of the user's own that makes an alarm heard: a bell, a pin, a gateway for text messages. Run by the system's
 * shell, one at a time, on a thread of its own; what it has to know stands in its environment. One that does not end in
 * time is ended with all it started. Whoever asks never waits, and however many alarms come, only the newest of each
 * name wait their turn.
 */
public final class AlarmCommand implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(AlarmCommand.class);

    /** A command that is so far behind has to leave some out. */
    private static final int MOST_WAITING = 20;

    private static final int MOST_SAID = 300;

    private final String command;
    private final Duration limit;
    private final Words words;
    private final Map<String, Wanted> waiting = new LinkedHashMap<>();
    private final Thread thread;
    private Optional<Process> running = Optional.empty();
    private volatile Optional<Supplier<String>> trouble = Optional.empty();
    private volatile boolean closed;
    private long leftOut;

    private record Wanted(Map<String, String> environment, Runnable done) {}

    /**
     * @param command as typed into the system's shell
     * @param limit how long it may take
     * @param words says what went wrong
     */
    public AlarmCommand(String command, Duration limit, Words words) {
        this.words = words;
        this.command = command;
        this.limit = limit;
        this.thread = new Thread(this::work, "alarm-command");
        thread.setDaemon(true);
        thread.start();
    }

    /**
     * Runs it, as soon as the one before has ended.
     *
     * @param name what this is about; a newer run of the same name takes the place of one that waits
     * @param environment variables for it
     */
    public void run(String name, Map<String, String> environment) {
        run(name, environment, () -> {});
    }

    /** @param done called on the command's thread when it has ended, or was left out */
    public void run(String name, Map<String, String> environment, Runnable done) {
        synchronized (waiting) {
            waiting.remove(name);
            if (waiting.size() >= MOST_WAITING) {
                Iterator<String> oldest = waiting.keySet().iterator();
                oldest.next();
                oldest.remove();
                leftOut++;
            }
            waiting.put(name, new Wanted(Map.copyOf(environment), done));
            waiting.notifyAll();
        }
    }

    /** What went wrong with the last run; empty when it went well, or none has ended yet. */
    public Optional<String> trouble() {
        return trouble.map(Supplier::get);
    }

    /** How many runs were left out because too many waited. */
    public long leftOut() {
        synchronized (waiting) {
            return leftOut;
        }
    }

    private void work() {
        while (!closed) {
            Wanted next;
            try {
                next = next();
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                return;
            }
            trouble = runToItsEnd(next.environment);
            trouble.ifPresent(what -> LOG.warn("the alarm command: {}", what.get()));
            next.done.run();
        }
    }

    private Wanted next() throws InterruptedException {
        synchronized (waiting) {
            while (waiting.isEmpty()) {
                waiting.wait();
            }
            String name = waiting.keySet().iterator().next();
            return waiting.remove(name);
        }
    }

    /** What went wrong, to be said in the language of whoever asks later. */
    private Optional<Supplier<String>> runToItsEnd(Map<String, String> environment) {
        boolean windows = System.getProperty("os.name").startsWith("Windows");
        ProcessBuilder builder =
                new ProcessBuilder(windows ? List.of("cmd", "/c", command) : List.of("/bin/sh", "-c", command));
        builder.environment().putAll(environment);
        builder.redirectInput(new File(windows ? "NUL" : "/dev/null"));
        builder.redirectOutput(ProcessBuilder.Redirect.DISCARD);
        Process process;
        try {
            process = builder.start();
        } catch (IOException e) {
            return Optional.of(() -> words.text("host.command_not_started", e.getMessage()));
        }
        synchronized (waiting) {
            running = Optional.of(process);
        }
        try {
            Complaints complaints = Complaints.of(process);
            if (!process.waitFor(limit.toMillis(), TimeUnit.MILLISECONDS)) {
                end(process);
                return Optional.of(() -> words.text("host.command_too_slow", limit.toSeconds()));
            }
            // Something it left running in the background may hold on to what it says: that is not waited for.
            if (process.exitValue() == 0) {
                return Optional.empty();
            }
            String said = complaints.said();
            return Optional.of(() -> words.text("host.command_failed", process.exitValue()) + said);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            end(process);
            return Optional.of(() -> words.text("host.command_broken_off"));
        } finally {
            synchronized (waiting) {
                running = Optional.empty();
            }
        }
    }

    private static void end(Process process) {
        process.descendants().forEach(ProcessHandle::destroyForcibly);
        process.destroyForcibly();
    }

    @Override
    public void close() {
        closed = true;
        synchronized (waiting) {
            running.ifPresent(AlarmCommand::end);
        }
        thread.interrupt();
    }

    /** What a command says on its standard error: the begin is kept, the rest read and thrown away. */
    private static final class Complaints implements Runnable {
        private final InputStream from;
        private final StringBuilder said = new StringBuilder();

        private Complaints(InputStream from) {
            this.from = from;
        }

        static Complaints of(Process process) {
            Complaints complaints = new Complaints(process.getErrorStream());
            Thread reader = new Thread(complaints, "alarm-command-says");
            reader.setDaemon(true);
            reader.start();
            return complaints;
        }

        @Override
        public void run() {
            byte[] buffer = new byte[8192];
            try {
                int count;
                while ((count = from.read(buffer)) > 0) {
                    synchronized (said) {
                        int room = Math.min(count, MOST_SAID - said.length());
                        if (room > 0) {
                            said.append(new String(buffer, 0, room, StandardCharsets.UTF_8));
                        }
                    }
                }
            } catch (IOException e) {
                LOG.debug("the alarm command was ended", e);
            }
        }

        /** In one line, after what came before it; nothing when it said nothing. */
        String said() throws InterruptedException {
            for (int i = 0; i < 10; i++) {
                synchronized (said) {
                    if (said.length() > 0) {
                        return ": " + said.toString().strip().replaceAll("\\s+", " ");
                    }
                }
                TimeUnit.MILLISECONDS.sleep(20);
            }
            return "";
        }
    }
}

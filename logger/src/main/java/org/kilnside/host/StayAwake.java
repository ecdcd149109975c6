package org.kilnside.host;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import org.kilnside.wording.Words;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Asks the system not to sleep while a firing runs, in each system's own way, through a small program that holds the
 * request as long as this process lives: its standard input is a pipe from here, which the system closes even after a
 * kill. Never waits on the caller's thread.
 */
public final class StayAwake implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(StayAwake.class);
    private static final long REFUSED_WITHIN_MS = 1_500;
    private static final long TRY_AGAIN_MS = 60_000;

    /** How the system stands to the request. */
    public enum State {
        /** Nothing is asked of it: no firing runs. */
        NOT_ASKED,
        ASKING,
        /** It was asked and holds to it. */
        KEPT,
        /** It does not sleep by itself: there is nothing to ask. */
        NEVER_SLEEPS,
        /** It refused, or there is no way to ask; it may fall asleep. */
        REFUSED
    }

    /** @param why why it was refused, or needs no asking; empty otherwise */
    public record Answer(State state, Optional<String> why) {
        public boolean mayFallAsleep() {
            return state == State.REFUSED;
        }
    }

    private final Optional<List<String>> keeper;
    private final Supplier<String> noKeeper;
    private final Words words;
    private volatile Answer answer = new Answer(State.NOT_ASKED, Optional.empty());
    private volatile boolean wanted;
    private volatile boolean closed;
    private Optional<Process> holding = Optional.empty();
    private final Thread thread = new Thread(this::work, "stay-awake");

    /** What this system wants to be asked with. */
    public static StayAwake ofThisComputer(Words words) {
        String system = System.getProperty("os.name");
        if (system.startsWith("Linux")) {
            if (!Files.isDirectory(Path.of("/run/systemd/system"))) {
                return new StayAwake(Optional.empty(), () -> words.text("host.never_sleeps"), words);
            }
            if (isMasked(Path.of("/etc/systemd/system/sleep.target"))
                    || isMasked(Path.of("/etc/systemd/system/suspend.target"))) {
                return new StayAwake(Optional.empty(), () -> words.text("host.sleep_masked"), words);
            }
            return new StayAwake(
                    Optional.of(List.of(
                            "systemd-inhibit",
                            "--what=sleep:idle",
                            "--who=Kilnside",
                            "--why=A kiln is firing",
                            "--mode=block",
                            "cat")),
                    () -> "",
                    words);
        }
        if (system.startsWith("Mac")) {
            return new StayAwake(
                    Optional.of(List.of(
                            "caffeinate",
                            "-i",
                            "-s",
                            "-w",
                            Long.toString(ProcessHandle.current().pid()))),
                    () -> "",
                    words);
        }
        if (system.startsWith("Windows")) {
            // ES_CONTINUOUS | ES_SYSTEM_REQUIRED holds as long as the thread that asked lives.
            String ask = "$k = Add-Type -PassThru -Name K -Namespace Kilnside -MemberDefinition"
                    + " '[DllImport(\"kernel32.dll\")] public static extern uint SetThreadExecutionState(uint f);';"
                    + " if ($k::SetThreadExecutionState([uint32]'0x80000001') -eq 0) { exit 1 };"
                    + " [Console]::In.ReadToEnd() | Out-Null";
            return new StayAwake(
                    Optional.of(List.of("powershell", "-NoProfile", "-NonInteractive", "-Command", ask)),
                    () -> "",
                    words);
        }
        return new StayAwake(Optional.empty(), () -> words.text("host.sleep_unknown"), words);
    }

    /** As {@code systemctl mask} leaves it. */
    static boolean isMasked(Path target) {
        try {
            return Files.isSymbolicLink(target)
                    && Files.readSymbolicLink(target).equals(Path.of("/dev/null"));
        } catch (IOException e) {
            return false;
        }
    }

    /**
     * @param keeper the program that holds the request while its input is open; empty when none is needed
     * @param noKeeper why none is needed
     * @param words says why it was refused
     */
    StayAwake(Optional<List<String>> keeper, Supplier<String> noKeeper, Words words) {
        this.words = words;
        this.keeper = keeper;
        this.noKeeper = noKeeper;
        thread.setDaemon(true);
        thread.start();
    }

    /** Asks the system to stay awake, or lets it sleep again. Returns at once; {@link #answer()} says what came of it. */
    public void keep(boolean awake) {
        if (wanted != awake) {
            synchronized (this) {
                wanted = awake;
                notifyAll();
            }
        }
    }

    /** What has come of it. */
    public Answer answer() {
        return answer;
    }

    private void work() {
        try {
            while (!closed) {
                if (!wanted) {
                    letGo();
                    answer = new Answer(State.NOT_ASKED, Optional.empty());
                    rest(TRY_AGAIN_MS, false);
                } else if (keeper.isEmpty()) {
                    answer = new Answer(State.NEVER_SLEEPS, Optional.of(noKeeper.get()));
                    rest(TRY_AGAIN_MS, true);
                } else {
                    hold(keeper.get());
                }
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } finally {
            letGo();
        }
    }

    private synchronized void rest(long ms, boolean whileWanted) throws InterruptedException {
        if (wanted == whileWanted && !closed) {
            wait(ms);
        }
    }

    private void hold(List<String> command) throws InterruptedException {
        answer = new Answer(State.ASKING, Optional.empty());
        Process process;
        try {
            process = new ProcessBuilder(command)
                    .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                    .start();
        } catch (IOException e) {
            refused(words.text("host.no_keeper", command.get(0)));
            return;
        }
        synchronized (this) {
            holding = Optional.of(process);
        }
        if (process.waitFor(REFUSED_WITHIN_MS, TimeUnit.MILLISECONDS)) {
            refused(words.text("host.keeper_refused", command.get(0), said(process)));
            return;
        }
        answer = new Answer(State.KEPT, Optional.empty());
        while (wanted && !closed) {
            rest(1_000, true);
            if (!process.isAlive()) {
                refused(words.text("host.keeper_ended", command.get(0)));
                return;
            }
        }
        letGo();
    }

    private void refused(String why) throws InterruptedException {
        LOG.warn("the system was not kept awake: {}", why);
        answer = new Answer(State.REFUSED, Optional.of(why));
        rest(TRY_AGAIN_MS, true);
    }

    private String said(Process process) {
        try (InputStream from = process.getErrorStream()) {
            String text = new String(from.readNBytes(300), StandardCharsets.UTF_8)
                    .strip()
                    .replaceAll("\\s+", " ");
            return text.isEmpty() ? words.text("host.exit_code", process.exitValue()) : text;
        } catch (IOException e) {
            return words.text("host.exit_code", process.exitValue());
        }
    }

    private synchronized void letGo() {
        holding.ifPresent(process -> {
            process.descendants().forEach(ProcessHandle::destroy);
            process.destroy();
        });
        holding = Optional.empty();
    }

    @Override
    public void close() {
        closed = true;
        synchronized (this) {
            notifyAll();
        }
        letGo();
    }
}

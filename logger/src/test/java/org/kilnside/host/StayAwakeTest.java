package org.kilnside.host;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.host.StayAwake.State;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;

class StayAwakeTest {
    private static final Words WORDS = Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH));

    @TempDir
    private Path folder;

    private StayAwake with(String script) {
        return new StayAwake(Optional.of(List.of("/bin/sh", "-c", script)), () -> "", WORDS);
    }

    private static void await(BooleanSupplier condition) throws InterruptedException {
        long until = System.nanoTime() + 20_000_000_000L;
        while (!condition.getAsBoolean()) {
            assertThat(System.nanoTime()).as("waited 20 s in vain").isLessThan(until);
            TimeUnit.MILLISECONDS.sleep(20);
        }
    }

    @Test
    void theRequestIsHeldWhileTheFiringRunsAndGivenBackAfterIt() throws Exception {
        Path pid = folder.resolve("pid");
        try (StayAwake awake = with("echo $$ > " + pid + "; exec cat")) {
            assertThat(awake.answer().state()).isEqualTo(State.NOT_ASKED);
            awake.keep(true);
            await(() -> awake.answer().state() == State.KEPT);
            ProcessHandle keeper = ProcessHandle.of(
                            Long.parseLong(Files.readString(pid).strip()))
                    .orElseThrow();
            assertThat(keeper.isAlive()).isTrue();
            awake.keep(false);
            await(() -> awake.answer().state() == State.NOT_ASKED);
            keeper.onExit().orTimeout(10, TimeUnit.SECONDS).join();
        }
    }

    @Test
    void aSystemThatRefusesIsNamedWithItsOwnWords() throws Exception {
        try (StayAwake awake = with("echo 'Access denied' >&2; exit 1")) {
            awake.keep(true);
            await(() -> awake.answer().state() == State.REFUSED);
            assertThat(awake.answer().mayFallAsleep()).isTrue();
            assertThat(awake.answer().why().orElseThrow()).contains("Access denied");
        }
    }

    @Test
    void aSystemWithoutTheProgramIsNamed() throws Exception {
        try (StayAwake awake = new StayAwake(Optional.of(List.of("/no/such/inhibitor")), () -> "", WORDS)) {
            awake.keep(true);
            await(() -> awake.answer().state() == State.REFUSED);
            assertThat(awake.answer().why()).hasValue("there is no /no/such/inhibitor on this system");
        }
    }

    @Test
    void aKeeperThatEndsByItselfIsNoticed() throws Exception {
        try (StayAwake awake = with("sleep 2.5")) {
            awake.keep(true);
            await(() -> awake.answer().state() == State.KEPT);
            await(() -> awake.answer().state() == State.REFUSED);
            assertThat(awake.answer().why().orElseThrow()).contains("ended by itself");
        }
    }

    @Test
    void aSystemThatNeverSleepsNeedsNoAsking() throws Exception {
        try (StayAwake awake = new StayAwake(Optional.empty(), () -> "it has no lid", WORDS)) {
            awake.keep(true);
            await(() -> awake.answer().state() == State.NEVER_SLEEPS);
            assertThat(awake.answer().mayFallAsleep()).isFalse();
        }
    }
}

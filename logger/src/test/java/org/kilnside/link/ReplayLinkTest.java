package org.kilnside.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.protocol.LineEncoder;
import org.kilnside.session.Connection.State;

@Timeout(30)
class ReplayLinkTest {
    @TempDir
    Path folder;

    private final HandMovedClock clock = new HandMovedClock();
    private final Heard heard = new Heard();
    private Path file;

    @BeforeEach
    void capture() throws IOException {
        Lines lines = new Lines();
        ByteArrayOutputStream stream = new ByteArrayOutputStream();
        stream.writeBytes("77 t1=5 ~0000\n".getBytes(StandardCharsets.US_ASCII));
        for (int second = 0; second < 600; second++) {
            if (second % 60 == 0) {
                stream.writeBytes(LineEncoder.encode(lines.hello(second * 1_000L + 500)));
            }
            stream.writeBytes(LineEncoder.encode(lines.reading(second * 1_000L + 600, 20 + second / 10)));
        }
        file = folder.resolve("night.txt");
        Files.write(file, stream.toByteArray());
    }

    @Test
    void itIsPacedByTheUptimesInItsLines() {
        long before = clock.monotonicMs();
        run("replay:" + file + "?speed=60");

        assertThat(heard.arrivals).hasSize(600);
        assertThat(clock.monotonicMs() - before).isBetween(9_900L, 10_200L);
        assertThat(heard.arrivals.get(300).hostMs() - before).isBetween(4_950L, 5_150L);
        assertThat(heard.states()).containsExactly(State.CONNECTING, State.RECEIVING, State.FINISHED);
    }

    @Test
    void withoutPausesNoTimePasses() {
        long before = clock.monotonicMs();
        run("replay:" + file + "?speed=max");

        assertThat(heard.arrivals).hasSize(600);
        assertThat(clock.monotonicMs()).isEqualTo(before);
    }

    @Test
    void theHalfLineWithWhichACaptureBeginsIsNotCounted() {
        run("replay:" + file + "?speed=max");

        assertThat(heard.last().counts().malformed()).isZero();
        assertThat(heard.last().counts().badChecksum()).isZero();
    }

    @Test
    void aRestartInTheStreamDoesNotStopIt() throws IOException {
        byte[] once = Files.readAllBytes(file);
        byte[] twice = new byte[2 * once.length];
        System.arraycopy(once, 0, twice, 0, once.length);
        System.arraycopy(once, 0, twice, once.length, once.length);
        Files.write(file, twice);
        long before = clock.monotonicMs();
        run("replay:" + file + "?speed=60");

        assertThat(heard.arrivals).hasSize(1_200);
        assertThat(clock.monotonicMs() - before).isBetween(19_800L, 20_400L);
    }

    @Test
    void aFileThatIsNotThereIsSaidInASentence() {
        run("replay:" + folder.resolve("no.txt"));

        assertThat(heard.last().state()).isEqualTo(State.GIVEN_UP);
        assertThat(heard.last().detail().orElseThrow())
                .startsWith("There is no file ")
                .endsWith("to replay.");
    }

    @Test
    void aFolderIsSaidToBeOne() {
        run("replay:" + folder);

        assertThat(heard.last().detail().orElseThrow()).contains("is a folder");
    }

    private void run(String notation) {
        LinkSurroundings around = new LinkSurroundings(clock, clock, ProfileLibrary.starters(), false);
        LinkNotation.Replay link = (LinkNotation.Replay) LinkNotation.parse(notation);
        new LinkReader(notation, new ReplayPort(link, around), around, ProtocolLines.saying(around.words())).run(heard);
    }
}

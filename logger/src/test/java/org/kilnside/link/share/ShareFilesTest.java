package org.kilnside.link.share;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.SecureRandom;
import java.time.LocalDate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ShareFilesTest {
    private final SecureRandom chance = new SecureRandom();

    @TempDir
    private Path folder;

    @Test
    void theKeyComesBackAsItWasKeptAndTheTokenIsNotInIt() throws IOException {
        ShareFiles files = new ShareFiles(folder);
        assertThat(files.key()).isEmpty();
        Token token = Token.random(chance);
        ShareKey key = ShareKey.of(token, chance, LocalDate.of(2026, 11, 25));
        files.save(key);
        ShareKey back = files.key().orElseThrow();
        assertThat(back.hash().matches(token)).isTrue();
        assertThat(back.fingerprint()).isEqualTo(key.fingerprint());
        assertThat(back.since()).isEqualTo("2026-11-25");
        String written = Files.readString(folder.resolve("share.properties"));
        assertThat(written).doesNotContain(token.typed()).doesNotContain(hex(token.bytes()));
    }

    @Test
    void onlyTheOwnerMayReadWhatIsKept() throws IOException {
        ShareFiles files = new ShareFiles(folder.resolve("settings"));
        files.save(ShareKey.of(Token.random(chance), chance, LocalDate.EPOCH));
        files.keep("studio.local:4417", Token.random(chance));
        for (String name : new String[] {"share.properties", "attached.properties"}) {
            assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(
                            folder.resolve("settings").resolve(name))))
                    .isEqualTo("rw-------");
        }
    }

    @Test
    void aTokenOnceTypedIsKeptForItsRecorder() throws IOException {
        ShareFiles files = new ShareFiles(folder);
        Token one = Token.random(chance);
        Token other = Token.random(chance);
        files.keep("studio.local:4417", one);
        files.keep("[fe80::1]:4417", other);
        assertThat(new ShareFiles(folder).token("studio.local:4417")).hasValue(one);
        assertThat(new ShareFiles(folder).token("[fe80::1]:4417")).hasValue(other);
        assertThat(files.token("elsewhere:4417")).isEmpty();
    }

    @Test
    void aSpoiltKeySaysWhatToDo() throws IOException {
        Files.writeString(folder.resolve("share.properties"), "token_salt=00");
        assertThatThrownBy(() -> new ShareFiles(folder).key()).hasMessageContaining("kilnside share new");
    }

    @Test
    void forgettingTakesTheKeyAway() throws IOException {
        ShareFiles files = new ShareFiles(folder);
        assertThat(files.forget()).isFalse();
        files.save(ShareKey.of(Token.random(chance), chance, LocalDate.EPOCH));
        assertThat(files.forget()).isTrue();
        assertThat(files.key()).isEmpty();
    }

    private static String hex(byte[] bytes) {
        return java.util.HexFormat.of().formatHex(bytes);
    }
}

package org.kilnside.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.files.LastRecording.Remembered;

class LastRecordingTest {
    @TempDir
    private Path folder;

    @Test
    void nothingIsRememberedBeforeTheFirstRecording() {
        assertThat(LastRecording.in(folder.resolve("not there")).read()).isEmpty();
    }

    @Test
    void whatIsRememberedIsReadBackAndTheNewerTakesTheOldersPlace() {
        LastRecording memory = LastRecording.in(folder.resolve("new"));
        memory.remember(
                new Remembered("serial:/dev/ttyUSB0?baud=115200", Optional.of("Tall \"Drum\" ☕"), Optional.empty()));
        Remembered newer = new Remembered("tcp:studio.local:4403", Optional.empty(), Optional.of("bisque"));
        memory.remember(newer);
        assertThat(memory.read()).contains(newer);
    }

    @Test
    void aFileThatIsSpoiltSaysWhatItShouldBeAndWhatToDo() throws IOException {
        for (String text : new String[] {"from = ", "from = 3", "from = \"\"", "from = \"" + "x".repeat(600) + "\""}) {
            Files.writeString(folder.resolve("last-recording.toml"), text);
            assertThatThrownBy(() -> LastRecording.in(folder).read())
                    .as(text)
                    .isInstanceOf(FileRefusedException.class)
                    .hasMessageContaining("delete it and choose the port anew");
        }
    }
}

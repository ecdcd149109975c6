package org.kilnside.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.files.PortNotes.Note;
import org.kilnside.files.PortNotes.Opening;

class PortNotesTest {
    private static final LocalDate DAY = LocalDate.of(2026, 11, 25);

    @TempDir
    private Path folder;

    @Test
    void whatIsRememberedIsThereForTheNextRun() {
        Path settings = folder.resolve("kilnside");
        PortNotes.in(settings).remember("/dev/ttyUSB0", new Note(Opening.RESTARTS, DAY));
        PortNotes.in(settings).remember("COM3", new Note(Opening.GOES_ON, DAY));
        PortNotes.in(settings).remember("odd \"name\" \\ here", new Note(Opening.GOES_ON, DAY));

        assertThat(PortNotes.in(settings).of("/dev/ttyUSB0")).hasValue(new Note(Opening.RESTARTS, DAY));
        assertThat(PortNotes.in(settings).of("COM3")).hasValue(new Note(Opening.GOES_ON, DAY));
        assertThat(PortNotes.in(settings).of("odd \"name\" \\ here")).hasValue(new Note(Opening.GOES_ON, DAY));
        assertThat(PortNotes.in(settings).of("/dev/ttyUSB1")).isEmpty();
    }

    @Test
    void aLaterTrialTakesThePlaceOfAnEarlierOne() {
        PortNotes.in(folder).remember("COM3", new Note(Opening.RESTARTS, DAY));
        PortNotes.in(folder).remember("COM3", new Note(Opening.GOES_ON, DAY.plusDays(1)));
        assertThat(PortNotes.in(folder).of("COM3")).hasValue(new Note(Opening.GOES_ON, DAY.plusDays(1)));
    }

    @Test
    void withoutAFolderNothingIsRemembered() {
        PortNotes.none().remember("COM3", new Note(Opening.RESTARTS, DAY));
        assertThat(PortNotes.none().of("COM3")).isEmpty();
    }

    @Test
    void aSpoiltFileIsRefusedWithASentence() throws IOException {
        for (String text : new String[] {
            "[[",
            "x = 3\n",
            "[COM3]\nopening = \"maybe\"\nseen = \"2026-11-25\"\n",
            "[COM3]\nopening = \"restarts\"\nseen = \"yesterday\"\n"
        }) {
            Files.writeString(folder.resolve("ports.toml"), text);
            assertThatThrownBy(() -> PortNotes.in(folder).of("COM3"))
                    .isInstanceOf(FileRefusedException.class)
                    .hasMessageContaining("ports.toml")
                    .hasMessageContaining("try the ports anew");
        }
    }
}

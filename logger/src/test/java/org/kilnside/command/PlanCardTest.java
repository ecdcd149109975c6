package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.book.NewBook;

class PlanCardTest {
    @TempDir
    private Path folder;

    @Test
    void aNameForTheHeadOfACardMayBeAnyWhereNoBookIsAsked() {
        Line said = Line.run("plan", new PlanCommand(), "card", "bisque", "--kiln", "My kiln", "--language", "en");
        assertThat(said.exit()).isZero();
        assertThat(said.out()).contains("My kiln");
    }

    @Test
    void refusesAThermocoupleThatNeverGetsThere() {
        Line said = Line.run("plan", new PlanCommand(), "card", "bisque", "--sensor", "T");
        assertThat(said.exit()).isEqualTo(2);
        assertThat(said.err()).contains("a thermocouple of type T goes to 400 °C");
        assertThat(said.out()).isEmpty();
    }

    @Test
    void aKilnThatNeitherAFileNorTheBookKnowsIsRefusedWhereTheBookIsToSayWhatItsControllerShows() {
        Path book = folder.resolve("firings.kilnside");
        NewBook.openOrMake(book).close();
        Line said = Line.run(
                "plan",
                new PlanCommand(),
                "card",
                "bisque",
                "--book",
                book.toString(),
                "--kiln",
                "Tal Drum",
                "--language",
                "en");
        assertThat(said.exit()).isNotZero();
        assertThat(said.err()).contains("Tal Drum").doesNotContain("Exception");
        assertThat(said.out()).isEmpty();
    }
}

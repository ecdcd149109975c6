package org.kilnside.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.command.WeekCommand;
import org.kilnside.desktop.HandClock;
import org.kilnside.desktop.week.WeekShelf;
import org.kilnside.files.FileRefusedException;
import org.kilnside.week.PlannedFiring;
import org.kilnside.week.Week;
import picocli.CommandLine;

class DeskWeekTest {
    @TempDir
    private Path folder;

    private DeskWeek desk() {
        return new DeskWeek(folder, folder.resolve("firings.book"), new HandClock(), Optional::empty);
    }

    @Test
    void theCommandAndTheWindowGiveOneAnswer() {
        DeskWeek desk = desk();
        Week week = desk.example();
        desk.save(week, "");
        WeekShelf.Planned planned = desk.plan(desk.open().orElseThrow().week(), desk.now());
        String from = DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm")
                .format(desk.now().atZone(ZoneId.systemDefault()));
        StringWriter said = new StringWriter();
        CommandLine command = new CommandLine(new WeekCommand()).setOut(new PrintWriter(said));
        assertThat(command.execute(folder.resolve("weeks/my-week.toml").toString(), "--json", "--from", from))
                .isZero();
        assertThat(planned.plan().firings()).hasSize(3);
        for (PlannedFiring firing : planned.plan().firings()) {
            String light =
                    DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(firing.light().atZone(ZoneId.systemDefault()));
            String out =
                    DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(firing.out().atZone(ZoneId.systemDefault()));
            assertThat(said.toString()).contains("\"" + light + "\"").contains("\"" + out + "\"");
        }
    }

    @Test
    void aKilnNobodyKnowsIsRefusedAsTheCommandRefusesIt() {
        DeskWeek desk = desk();
        Week week = desk.example();
        Week elsewhere = new Week(
                week.name(),
                "low-barn",
                week.room(),
                week.due(),
                week.kilnFree(),
                week.there(),
                week.topAlone(),
                week.packing(),
                week.zone(),
                week.loads());
        assertThatThrownBy(() -> desk.plan(elsewhere, desk.now()))
                .isInstanceOf(FileRefusedException.class)
                .hasMessageContaining("low-barn");
    }

    @Test
    void kilnsAndPlansToChooseAreThoseOfTheLibrary() {
        assertThat(desk().kilns()).contains(new WeekShelf.KilnChoice("tall-drum", "Tall Drum"));
        assertThat(desk().plans()).extracting(WeekShelf.PlanChoice::shortName).contains("bisque", "slow-bisque");
    }
}

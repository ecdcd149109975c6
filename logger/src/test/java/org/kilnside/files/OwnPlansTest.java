package org.kilnside.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;

class OwnPlansTest {
    private static final String WRITTEN = """
            # Rook Lane Pottery: the planters.
            # Slow, they are thick.
            name     = "Planters"   # not the bowls
            aims_for = "cone 06"

            # the last damp
            [[segment]]
            rate = "40 °C/h"        # never faster
            to   = "80 °C"
            hold = "8 h"

            [[segment]]             # through the steam
            rate = "60 °C/h"
            to   = "992 °C"

            [[segment]]
            cool = "free"
            """;

    @TempDir
    private Path folder;

    private static Schedule with(Schedule plan, int index, Segment other) {
        List<Segment> segments = new ArrayList<>(plan.segments());
        segments.set(index, other);
        return new Schedule(plan.name(), plan.aimsFor(), plan.clay(), plan.notes(), segments);
    }

    private static Segment ramp(double rate, double to, long minutes) {
        return new Segment.Ramp(
                HeatingRate.ofKelvinPerHour(rate), Temperature.ofCelsius(to), Duration.ofMinutes(minutes));
    }

    @Test
    void anUnchangedPlanIsWrittenLetterByLetter() {
        Schedule plan = PlanFiles.parse(WRITTEN, "");
        assertThat(PlanFiles.text(plan, WRITTEN)).isEqualTo(WRITTEN);
    }

    @Test
    void aChangedSegmentKeepsItsCommentsAndTheOthersStayAsTheyAre() {
        Schedule changed = with(PlanFiles.parse(WRITTEN, ""), 0, ramp(35, 82, 600));
        String text = PlanFiles.text(changed, WRITTEN);
        assertThat(PlanFiles.parse(text, "")).isEqualTo(changed);
        assertThat(text)
                .startsWith("# Rook Lane Pottery: the planters.\n# Slow, they are thick.\nname     = \"Planters\"")
                .contains("# the last damp\n[[segment]]\nrate = \"35 °C/h\"   # never faster")
                .contains("[[segment]]             # through the steam\nrate = \"60 °C/h\"\nto   = \"992 °C\"");
    }

    @Test
    void everyChangeReadsBackAsWhatWasMeant() {
        Random random = new Random(7);
        Schedule plan = PlanFiles.parse(WRITTEN, "");
        String text = WRITTEN;
        for (int i = 0; i < 400; i++) {
            List<Segment> segments = new ArrayList<>(plan.segments());
            int at = random.nextInt(segments.size() - 1);
            switch (random.nextInt(4)) {
                case 0 -> segments.set(at, ramp(1 + random.nextInt(300), random.nextInt(1300), random.nextInt(90)));
                case 1 -> segments.add(at, ramp(1 + random.nextInt(300), random.nextInt(1300), random.nextInt(90)));
                case 2 -> {
                    if (segments.size() > 2) {
                        segments.remove(at);
                    }
                }
                default -> segments.add(at, segments.remove(0));
            }
            if (!(segments.get(0) instanceof Segment.Ramp) || segments.size() > 30) {
                continue;
            }
            String name = random.nextInt(5) == 0 ? "Planters # " + i + " \"big\"" : plan.name();
            Optional<String> notes = random.nextInt(6) == 0 ? Optional.of("line\n# no comment\n" + i) : plan.notes();
            plan = new Schedule(name, plan.aimsFor(), plan.clay(), notes, segments);
            text = PlanFiles.text(plan, text);
            assertThat(PlanFiles.parse(text, "")).as(text).isEqualTo(plan);
            assertThat(text).contains("# Slow, they are thick.");
        }
    }

    @Test
    void aNewPlanNeverTakesTheNameOfAnotherNorOfAStarterPlan() throws IOException {
        OwnPlans own = OwnPlans.in(folder);
        Schedule plan = PlanFiles.parse(WRITTEN, "");
        Schedule bisque = new Schedule("Bisque", plan.segments());
        assertThat(own.saveNew(bisque)).isEqualTo("bisque-2");
        assertThat(own.saveNew(bisque)).isEqualTo("bisque-3");
        assertThat(own.saveNew(new Schedule("Ofen Größe 3/4 …", plan.segments())))
                .isEqualTo("ofen-grosse-3-4");
        assertThat(own.saveNew(new Schedule("../../etc/passwd", plan.segments())))
                .isEqualTo("etc-passwd");
        assertThat(own.saveNew(new Schedule("皿", plan.segments()))).isEqualTo("plan");
        assertThat(own.saveNew(new Schedule("CON", plan.segments()))).isEqualTo("plan-con");
        try (var files = Files.list(folder.resolve("schedules"))) {
            assertThat(files).hasSize(6).allMatch(file -> file.toString().endsWith(".toml"));
        }
    }

    @Test
    void whatSomebodyElseWroteIsPutAside() throws IOException {
        OwnPlans own = OwnPlans.in(folder);
        Schedule plan = PlanFiles.parse(WRITTEN, "");
        String name = own.saveNew(plan);
        String read = own.text(name).orElseThrow();
        String theirs = read.replace("992", "985");
        Files.writeString(own.path(name), theirs);
        OwnPlans.Saved saved = own.save(name, with(plan, 1, ramp(60, 1000, 0)), read);
        assertThat(saved.aside()).contains("planters-2");
        assertThat(own.text("planters-2")).contains(theirs);
        assertThat(own.text(name).orElseThrow()).contains("1000 °C").isEqualTo(saved.text());
        assertThat(own.save(name, plan, saved.text()).aside()).isEmpty();
    }

    @Test
    void aFolderThatCannotBeMadeIsSaidInOneSentence() throws IOException {
        Path file = Files.writeString(folder.resolve("taken"), "no folder");
        OwnPlans own = OwnPlans.in(file);
        assertThatThrownBy(() -> own.saveNew(PlanFiles.parse(WRITTEN, "")))
                .isInstanceOf(FileRefusedException.class)
                .hasMessageContaining("cannot be made");
    }

    @Test
    void aPlanThatIsGoneIsNotThere() {
        assertThat(OwnPlans.in(folder).text("nothing")).isEmpty();
    }
}

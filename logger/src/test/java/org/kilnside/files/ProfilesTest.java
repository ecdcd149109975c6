package org.kilnside.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Kiln;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConePosition;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.PlanHeat;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.sensor.SensorUncertainty;

/** Every file of profiles/ is loaded here, as it lies in the folder and as it lies in the program. */
class ProfilesTest {
    private static final Path PROFILES = Path.of("..", "profiles");

    @TempDir
    Path own;

    @Test
    void everyScheduleOfTheFolderIsAPlanAndAStarter() throws IOException {
        assertThat(filesIn("schedules")).containsExactlyInAnyOrderElementsOf(StarterProfiles.PLANS);
        for (String name : StarterProfiles.PLANS) {
            Schedule plan = PlanFiles.read(PROFILES.resolve("schedules/" + name + ".toml"));
            assertThat(ProfileLibrary.starters().plan(name).schedule()).isEqualTo(plan);
            assertThat(plan.endsInFreeCooling()).as(name).isTrue();
        }
    }

    @Test
    void everyKilnOfTheFolderIsAKilnAndAStarter() throws IOException {
        assertThat(filesIn("kilns")).containsExactlyInAnyOrderElementsOf(StarterProfiles.KILNS);
        for (String name : StarterProfiles.KILNS) {
            Kiln kiln = KilnFiles.read(PROFILES.resolve("kilns/" + name + ".toml"));
            assertThat(ProfileLibrary.starters().kiln(name)).isEqualTo(kiln);
            assertThat(ProfileLibrary.starters().kiln(kiln.name())).isEqualTo(kiln);
        }
    }

    /** Rates and temperatures: common practice, several sources agree on each (see the comments in the files). */
    @Test
    void theStarterPlansKeepToThePracticeOfTheTrade() {
        for (String name : StarterProfiles.PLANS) {
            Schedule plan = ProfileLibrary.starters().plan(name).schedule();
            Segment.Ramp first = (Segment.Ramp) plan.segments().get(0);
            assertThat(first.rate().kelvinPerHour())
                    .as(name + " through the damp")
                    .isBetween(30.0, 100.0);
            if (name.contains("bisque") || name.equals("candling")) {
                assertThat(first.to().celsius())
                        .as(name + " candles well below 100 °C")
                        .isBetween(75.0, 85.0);
                assertThat(first.hold().toHours()).isBetween(2L, 12L);
            }
            if (!name.equals("candling")) {
                assertThat(plan.aimsFor()).as(name).isPresent();
            }
        }
        assertThat(top("bisque")).isBetween(Temperature.ofCelsius(980), Temperature.ofCelsius(998));
        assertThat(top("low-fire-glaze")).isBetween(Temperature.ofCelsius(1045), Temperature.ofCelsius(1063));
        assertThat(top("mid-range-glaze")).isBetween(Temperature.ofCelsius(1195), Temperature.ofCelsius(1222));
        assertThat(top("slow-cool-glaze")).isLessThan(top("mid-range-glaze"));
    }

    /** Independent of the files: the heat-work integral, itself fitted to the published wall chart. */
    @Test
    void aStarterPlanComesToTheConeItAimsFor() {
        for (String name : StarterProfiles.PLANS) {
            Schedule plan = ProfileLibrary.starters().plan(name).schedule();
            plan.aimsFor().ifPresent(aim -> {
                ConePosition reached = PlanHeat.of(
                                ConeTable.of(ConeSeries.SELF_SUPPORTING),
                                plan.curveFrom(Temperature.ofCelsius(15)),
                                SensorUncertainty.UNKNOWN)
                        .atEndOfTop();
                double steps = ConePosition.at(Cone.parse(aim)).stepsTo(reached).orElseThrow();
                assertThat(steps).as(name + " against " + aim).isCloseTo(0, within(0.3));
            });
        }
    }

    @Test
    void thePublishedTablesLieInTheProgram() throws IOException {
        for (String file : List.of("cones/cone-equivalents.csv", "thermocouples/its90-forward.csv")) {
            try (var stream = ProfilesTest.class.getResourceAsStream("/org/kilnside/profiles/" + file)) {
                assertThat(stream).as(file).isNotNull();
                assertThat(new String(stream.readAllBytes(), StandardCharsets.UTF_8))
                        .startsWith("# source:");
            }
        }
    }

    @Test
    void anOwnFileStandsBeforeAStarterOfTheSameName() throws IOException {
        Files.createDirectories(own.resolve("schedules"));
        Schedule mine = new Schedule(
                "My bisque", ProfileLibrary.starters().plan("bisque").schedule().segments());
        PlanFiles.write(own.resolve("schedules/bisque.toml"), mine);
        PlanFiles.write(own.resolve("schedules/tiles.toml"), mine);
        ProfileLibrary library = ProfileLibrary.of(own);
        assertThat(library.plan("bisque").schedule().name()).isEqualTo("My bisque");
        assertThat(library.plan("candling").path()).isEmpty();
        assertThat(library.plan(own.resolve("schedules/tiles.toml").toString()).shortName())
                .isEqualTo("tiles");
        assertThat(library.planNames()).contains("tiles", "candling").isSorted();
    }

    @Test
    void anUnknownNameIsAnsweredWithTheNearestOne() {
        assertThatThrownBy(() -> ProfileLibrary.starters().plan("bisqe"))
                .isInstanceOf(FileRefusedException.class)
                .hasMessageContaining("there is neither a file nor a plan of this name; did you mean \"bisque\"?");
        assertThatThrownBy(() -> ProfileLibrary.of(own).plan("raku"))
                .hasMessageContaining("there are bisque, candling");
        assertThatThrownBy(() -> ProfileLibrary.starters().kiln("nowhere/kiln.toml"))
                .hasMessageContaining("there is no such file, expected a kiln");
        assertThatThrownBy(() -> ProfileLibrary.starters().plan("a\u0000b/c")).isInstanceOf(FileRefusedException.class);
    }

    private static Temperature top(String plan) {
        return ProfileLibrary.starters().plan(plan).schedule().top();
    }

    private static List<String> filesIn(String folder) throws IOException {
        try (Stream<Path> files = Files.list(PROFILES.resolve(folder))) {
            return files.map(file -> file.getFileName().toString().replace(".toml", ""))
                    .toList();
        }
    }
}

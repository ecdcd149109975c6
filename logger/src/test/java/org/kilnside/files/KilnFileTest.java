package org.kilnside.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.firing.Kiln;
import org.kilnside.quantity.Temperature;

class KilnFileTest {
    @TempDir
    private Path folder;

    private KilnFile tallDrum() {
        return ProfileLibrary.of(folder).kilnFile("Tall Drum");
    }

    @Test
    void aStarterKilnBecomesOnesOwnWhenItIsChangedAndItsCommentsStay() throws IOException {
        KilnFile before = tallDrum();
        KilnFile after = before.with(KilnSetting.CRACK, Optional.of("100 °C"))
                .with(KilnSetting.ISOLATOR, Optional.of("the \"red\" switch # 2"));
        after.write();
        Path own = folder.resolve("kilns").resolve("tall-drum.toml");
        String written = Files.readString(own);
        assertThat(written)
                .contains("crack  = \"100 °C\"".replace("crack  =", "crack ="))
                .contains("# named in every alarm that asks to turn the kiln off")
                .contains("# From the maker's sheet.");
        Kiln kiln = ProfileLibrary.of(folder).kiln("tall-drum");
        assertThat(kiln.thresholds().crack()).isEqualTo(Temperature.ofCelsius(100));
        assertThat(kiln.thresholds().source()).isEqualTo(Kiln.Thresholds.Source.POTTER);
        assertThat(kiln.isolator()).hasValue("the \"red\" switch # 2");
        assertThat(kiln.sensors()).isEqualTo(before.kiln().sensors());
    }

    @Test
    void theFileBeforeIsTheUndo() {
        KilnFile before = tallDrum();
        before.write();
        before.with(KilnSetting.POWER, Optional.of("7 kW")).write();
        tallDrum();
        before.write();
        assertThat(tallDrum().text()).isEqualTo(before.text());
    }

    @Test
    void everySettingCanBeSaidTakenOutAndSaidAgain() {
        for (KilnSetting setting : KilnSetting.values()) {
            Optional<String> value = setting.of(tallDrum().kiln());
            KilnFile again = tallDrum();
            if (setting != KilnSetting.NAME) {
                again = again.with(setting, Optional.empty());
            }
            again = again.with(setting, value);
            assertThat(again.kiln()).as(setting.word()).isEqualTo(tallDrum().kiln());
        }
    }

    @Test
    void aTableThatIsNotThereIsMadeBeforeTheSensors() throws IOException {
        Files.createDirectories(folder.resolve("kilns"));
        Files.writeString(
                folder.resolve("kilns").resolve("small.toml"),
                "name = \"Small\"\n\n# the only one\n[[sensor]]\ntype = \"K\"\namplifier = \"MAX31855\"\n");
        KilnFile after = ProfileLibrary.of(folder)
                .kilnFile("small")
                .with(KilnSetting.TOP, Optional.of("1300 °C"))
                .with(KilnSetting.WALL, Optional.of("fibre"));
        assertThat(after.kiln().limits().temperature()).hasValue(Temperature.ofCelsius(1300));
        assertThat(after.kiln().wall()).hasValue(Kiln.Wall.FIBRE);
        assertThat(after.kiln().sensors()).hasSize(1);
        assertThat(after.text()).contains("# the only one\n[[sensor]]");
    }

    @Test
    void aKilnNobodyDescribedBeginsAFileOfItsOwn() {
        KilnFile fresh = ProfileLibrary.of(folder).kilnFile("Ünser kleiner");
        fresh.with(KilnSetting.VOLUME, Optional.of("20 l")).write();
        assertThat(ProfileLibrary.of(folder).kiln("Ünser kleiner").name()).isEqualTo("Ünser kleiner");
        assertThatThrownBy(() -> ProfileLibrary.of(folder).kilnFile("a*b?")).hasMessageContaining("letters, digits");
    }

    @Test
    void whatWouldMakeItNoKilnIsRefusedAndNothingIsWritten() {
        KilnFile before = tallDrum();
        assertThatThrownBy(() -> before.with(KilnSetting.UNLOAD, Optional.of("300 °C")))
                .isInstanceOf(FileRefusedException.class)
                .hasMessageContaining("expected below");
        assertThatThrownBy(() -> before.with(KilnSetting.POWER, Optional.of("much")))
                .hasMessageContaining("power");
        assertThat(folder.resolve("kilns")).doesNotExist();
    }
}

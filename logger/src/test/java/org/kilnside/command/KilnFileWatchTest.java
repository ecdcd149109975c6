package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.alarm.AlarmLimits;
import org.kilnside.files.KilnSetting;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.firing.ConeSeries;
import org.kilnside.quantity.Temperature;
import org.kilnside.session.FiringSettings;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;

/** The kiln's own file, changed as the Kiln screen, {@code kiln set} or a hand does it, while a firing is recorded. */
class KilnFileWatchTest {
    @TempDir
    Path folder;

    private final List<FiringSettings> followed = new ArrayList<>();
    private final List<String> noted = new ArrayList<>();
    private ProfileLibrary library;
    private FiredIn fired;

    @BeforeEach
    void aKilnWithAFileOfItsOwn() {
        library = ProfileLibrary.of(folder);
        set("crack", "130 °C");
        fired = WhatIsFired.in(library, Optional.of("Tall Drum"), Optional.of("bisque"))
                .saying(settings ->
                        settings.withAlarmLimits(settings.alarmLimits().forWare(Temperature.ofCelsius(1240))));
    }

    private void set(String word, String value) {
        library.kilnFile("Tall Drum")
                .with(KilnSetting.ofWord(word).orElseThrow(), Optional.of(value))
                .write();
    }

    private KilnFileWatch watch(Locale locale) {
        return new KilnFileWatch(
                fired, fired.file().get(), followed::add, noted::add, Words.of(locale, Preferences.of(locale)));
    }

    @Test
    void nothingIsSaidWhileNothingChanges() {
        KilnFileWatch watch = watch(Locale.UK);
        watch.look();
        set("crack", "130 °C");
        set("tariff", "0.31 EUR/kWh");
        watch.look();
        assertThat(noted).isEmpty();
    }

    @Test
    void whatIsSetIsFollowedOnceAndNotedInThePottersLanguage() {
        KilnFileWatch watch = watch(Locale.UK);
        KilnFileWatch dutch = watch(new Locale("nl", "NL"));
        set("crack", "100 °C");
        set("isolator", "the red switch by the door");
        watch.look();
        watch.look();
        assertThat(followed).hasSize(1);
        FiringSettings now = followed.get(0);
        assertThat(now.thresholds().crack()).isEqualTo(Temperature.ofCelsius(100));
        assertThat(now.alarmLimits().lid()).isEqualTo(Temperature.ofCelsius(100));
        assertThat(now.isolator()).hasValue("the red switch by the door");
        assertThat(noted)
                .singleElement()
                .asString()
                .startsWith("Set while firing: ")
                .contains("Crack the lid below: 130 °C → 100 °C")
                .contains("the red switch by the door");
        dutch.look();
        assertThat(noted.get(1)).startsWith("Tijdens het stoken ingesteld: ");
    }

    @Test
    void whatTheCommandLineSaidGoesBeforeTheFileStill() {
        KilnFileWatch watch = watch(Locale.UK);
        set("top", "1300 °C");
        watch.look();
        AlarmLimits limits = followed.get(0).alarmLimits();
        assertThat(limits.wareMaximum()).hasValue(Temperature.ofCelsius(1240));
        assertThat(limits.kilnMaximum()).hasValue(Temperature.ofCelsius(1300));
    }

    @Test
    void aLimitTakenOutOfTheFileIsTheUsualOneAgain() throws IOException {
        Path file = library.kilnFile("Tall Drum").path();
        String before = Files.readString(file);
        Files.writeString(file, before + "\n[alarms]\nover_top = \"30 °C\"\n");
        KilnFileWatch watch = watch(Locale.UK);
        Files.writeString(file, before);
        watch.look();
        assertThat(followed.get(0).alarmLimits().overTop()).isEqualTo(AlarmLimits.USUAL.overTop());
        assertThat(noted).singleElement().asString().contains("from where on it is an alarm");
    }

    @Test
    void theKindOfConeIsSaidToHoldFromTheNextFiringOn() {
        KilnFileWatch watch = watch(Locale.UK);
        set("series", "large");
        watch.look();
        assertThat(followed.get(0).series()).isEqualTo(ConeSeries.LARGE);
        assertThat(noted).singleElement().asString().contains("from the next firing on", "keeps its own");
    }

    @Test
    void aFileThatCannotBeReadOrIsGoneChangesNothingAndIsSaidOnce() throws IOException {
        KilnFileWatch watch = watch(Locale.UK);
        Path file = library.kilnFile("Tall Drum").path();
        String good = Files.readString(file);
        Files.writeString(file, good.replace("130 °C", "warm"));
        watch.look();
        watch.look();
        assertThat(followed).isEmpty();
        assertThat(noted).singleElement().asString().contains("cannot be read", "warm");
        Files.writeString(file, good.replace("130 °C", "110 °C"));
        watch.look();
        assertThat(followed.get(0).thresholds().crack()).isEqualTo(Temperature.ofCelsius(110));
    }

    @Test
    void aKilnThatGetsItsFileInMidFiringIsKnownFromThenOn() {
        fired = WhatIsFired.in(library, Optional.of("Short Drum"), Optional.empty());
        KilnFileWatch watch = watch(Locale.UK);
        watch.look();
        assertThat(followed).isEmpty();
        library.kilnFile("Short Drum")
                .with(KilnSetting.CRACK, Optional.of("90 °C"))
                .write();
        watch.look();
        assertThat(followed.get(0).thresholds().crack()).isEqualTo(Temperature.ofCelsius(90));
        assertThat(followed.get(0).kiln()).hasValue("Short Drum");
    }
}

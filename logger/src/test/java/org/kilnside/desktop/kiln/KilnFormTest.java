package org.kilnside.desktop.kiln;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.files.KilnSetting;
import org.kilnside.wording.Language;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.TemperatureUnit;
import org.kilnside.wording.Words;

/** The kiln's form against real files, without a display. */
class KilnFormTest {
    private static final Words CELSIUS = Words.of(Locale.UK, Preferences.of(Locale.UK));
    private static final Words FAHRENHEIT = Words.of(
            Language.ENGLISH,
            new Preferences(
                    TemperatureUnit.FAHRENHEIT,
                    CELSIUS.preferences().clock(),
                    CELSIUS.preferences().zone(),
                    CELSIUS.preferences().opening()));

    @TempDir
    private Path folder;

    private KilnForm form;

    @BeforeEach
    void openTheKilnThatIsRecorded() {
        form = new KilnForm(new HandShelf(folder), new AtOnce());
        form.look(Optional.of("Small Test"), CELSIUS);
    }

    @Test
    void aKilnNobodyHasDescribedHasItsNameAndTheCommonPracticeMarkedAsSuch() {
        assertThat(form.kilns()).containsExactly("Small Test", "Tall Drum");
        assertThat(text(KilnSetting.NAME)).isEqualTo("Small Test");
        assertThat(text(KilnSetting.POWER)).isEmpty();
        assertThat(field(KilnSetting.CRACK, CELSIUS).text()).isEqualTo("120 °C");
        assertThat(field(KilnSetting.CRACK, CELSIUS).remark()).contains("common practice, until you set your own");
    }

    @Test
    void aChangeIsWrittenAtOnceAndUndoneWithOneKey() {
        form.change(KilnSetting.CRACK, "100", CELSIUS);
        assertThat(text(KilnSetting.CRACK)).isEqualTo("100 °C");
        assertThat(field(KilnSetting.CRACK, CELSIUS).remark()).isEmpty();
        assertThat(folder.resolve("kilns/small-test.toml")).content().contains("crack = \"100 °C\"");
        form.undo(CELSIUS);
        assertThat(text(KilnSetting.CRACK)).isEqualTo("120 °C");
        assertThat(form.canUndo()).isFalse();
    }

    @Test
    void anyTextThatNoKilnCanHaveGivesOneSentenceInPlaceAndStaysToBeMended() {
        for (String nonsense : new String[] {"café ☕", "12 bananas", "-5", "\"", "1e99", "=", "[limits]", "\u0000"}) {
            form.change(KilnSetting.POWER, nonsense, CELSIUS);
            KilnForm.Field field = field(KilnSetting.POWER, CELSIUS);
            assertThat(field.problem())
                    .as(nonsense)
                    .isNotEmpty()
                    .doesNotContain("Exception")
                    .doesNotContain("\n");
            assertThat(field.text()).isEqualTo(nonsense);
        }
        assertThat(folder.resolve("kilns/small-test.toml")).doesNotExist();
        form.change(KilnSetting.POWER, "5.6", CELSIUS);
        assertThat(field(KilnSetting.POWER, CELSIUS).problem()).isEmpty();
        assertThat(text(KilnSetting.POWER)).isEqualTo("5.6 kW");
    }

    @Test
    void temperaturesAreReadAndTypedInTheUnitOfTheWindow() {
        form.change(KilnSetting.TOP, "2300", FAHRENHEIT);
        assertThat(field(KilnSetting.TOP, FAHRENHEIT).text()).isEqualTo("2300 °F");
        assertThat(field(KilnSetting.TOP, CELSIUS).text()).isEqualTo("1260 °C");
        form.change(KilnSetting.CUT_OUT, "1290 °C", FAHRENHEIT);
        assertThat(field(KilnSetting.CUT_OUT, CELSIUS).text()).isEqualTo("1290 °C");
        assertThat(field(KilnSetting.CUT_OUT, FAHRENHEIT).text()).isEqualTo("2354 °F");
    }

    @Test
    void leavingAFieldAsItIsWritesNothing() {
        form.change(KilnSetting.CRACK, "120 °C", CELSIUS);
        form.change(KilnSetting.CRACK, " 120 °C ", CELSIUS);
        assertThat(form.canUndo()).isFalse();
        assertThat(folder.resolve("kilns/small-test.toml")).doesNotExist();
    }

    @Test
    void theKindOfConeIsChosenAndSaysForWhichFirings() {
        assertThat(text(KilnSetting.SERIES)).isEqualTo("self-supporting");
        assertThat(field(KilnSetting.SERIES, CELSIUS).options()).containsExactly("self-supporting", "large", "small");
        assertThat(field(KilnSetting.SERIES, CELSIUS).remark()).contains("begin from now on", "keeps the cones");
        form.change(KilnSetting.SERIES, "small", CELSIUS);
        assertThat(text(KilnSetting.SERIES)).isEqualTo("small");
        form.undo(CELSIUS);
        assertThat(text(KilnSetting.SERIES)).isEqualTo("self-supporting");
    }

    @Test
    void anEmptiedFieldIsTakenOut() {
        form.change(KilnSetting.ISOLATOR, "grey box by the door", CELSIUS);
        assertThat(text(KilnSetting.ISOLATOR)).isEqualTo("grey box by the door");
        form.change(KilnSetting.ISOLATOR, "", CELSIUS);
        assertThat(text(KilnSetting.ISOLATOR)).isEmpty();
        form.undo(CELSIUS);
        assertThat(text(KilnSetting.ISOLATOR)).isEqualTo("grey box by the door");
    }

    @Test
    void theRateMayBeWrittenWithTheHourOfTheLanguage() {
        Words dutch = Words.of(Language.DUTCH, CELSIUS.preferences());
        form.change(KilnSetting.RATE, "250 °C/" + dutch.text("unit.hour"), dutch);
        assertThat(field(KilnSetting.RATE, dutch).problem()).isEmpty();
        assertThat(field(KilnSetting.RATE, CELSIUS).text()).isEqualTo("250 °C/h");
    }

    @Test
    void leavingWaitsUntilWhatWasTypedIsInTheFileAndStaysWhereItCannotBe() {
        Later later = new Later();
        KilnForm slow = new KilnForm(new HandShelf(folder), later);
        slow.look(Optional.of("Small Test"), CELSIUS);
        later.runAll();
        List<String> left = new ArrayList<>();
        slow.change(KilnSetting.POWER, "5.6", CELSIUS);
        assertThat(slow.isSettled(() -> left.add("left"))).isFalse();
        assertThat(left).isEmpty();
        later.runAll();
        assertThat(left).containsExactly("left");
        slow.change(KilnSetting.POWER, "much", CELSIUS);
        assertThat(slow.isSettled(() -> left.add("again"))).isFalse();
        later.runAll();
        assertThat(left).containsExactly("left");
        assertThat(slow.isSettled(() -> left.add("again"))).isTrue();
    }

    @Test
    void numbersHaveTheDecimalMarkOfTheLanguage() {
        Words german = Words.of(Language.GERMAN, CELSIUS.preferences());
        form.change(KilnSetting.POWER, "5,6", german);
        form.change(KilnSetting.TARIFF, "0.32 EUR/kWh", german);
        assertThat(field(KilnSetting.POWER, german).text()).isEqualTo("5,6 kW");
        assertThat(field(KilnSetting.TARIFF, german).text()).isEqualTo("0,32 EUR/kWh");
        assertThat(text(KilnSetting.POWER)).isEqualTo("5.6 kW");
    }

    @Test
    void aRefusalIsInThePersonsLanguageAndUnitWhateverWasTyped() {
        Words dutch = Words.of(Language.DUTCH, FAHRENHEIT.preferences());
        String[] nonsense = {
            "café ☕",
            "12 bananas",
            "-5",
            "-5 °C",
            "0",
            "\"",
            "1e99",
            "=",
            "[limits]",
            "\u0000",
            "1.200",
            "5000 °C",
            "1,234 EUR/kWh",
            "°C",
            "x".repeat(200),
            "12 °C/h/h",
            "1 2 3",
            "\\",
            "99999999999",
            "-300"
        };
        int refused = 0;
        for (KilnSetting setting : KilnSetting.values()) {
            if (!field(setting, dutch).options().isEmpty()) {
                continue;
            }
            for (String text : nonsense) {
                form.change(setting, text, dutch);
                String problem = field(setting, dutch).problem();
                refused += problem.isEmpty() ? 0 : 1;
                // What the file says of itself is English: it is only passed on where the file is what is wrong.
                assertThat(problem).as(setting + " " + text).doesNotContain("expected", "found", "bestand");
                assertThat(field(setting, CELSIUS).problem().isEmpty()).isEqualTo(problem.isEmpty());
            }
        }
        assertThat(refused).isGreaterThan(100);
        form.change(KilnSetting.TOP, "5000", dutch);
        assertThat(field(KilnSetting.TOP, dutch).problem())
                .isEqualTo("“5000” kan niet: schrijf een temperatuur van 212 °F tot 3272 °F.");
    }

    @Test
    void theTwoTemperaturesOfOpeningAreRefusedTogetherInThePersonsLanguage() {
        Words german = Words.of(Language.GERMAN, CELSIUS.preferences());
        form.change(KilnSetting.UNLOAD, "130", german);
        assertThat(field(KilnSetting.UNLOAD, german).problem())
                .isEqualTo(
                        "Ausgeräumt würde bei 130 °C, bevor der Ofen bei 120 °C einen Spalt aufgeht: sieh beide an.");
        form.change(KilnSetting.FROM_MAKER, "yes", german);
        assertThat(field(KilnSetting.FROM_MAKER, german).problem())
                .startsWith("Vom Hersteller stehen noch nicht beide");
        form.change(KilnSetting.NAME, "", german);
        assertThat(field(KilnSetting.NAME, german).problem()).isEqualTo("Ein Ofen hat einen Namen: schreibe einen.");
    }

    @Test
    void whetherThereIsACutOutIsSaidInTheLanguageOfTheWindow() {
        Words german = Words.of(Language.GERMAN, CELSIUS.preferences());
        form.change(KilnSetting.CUT_OUT, "vorhanden", german);
        assertThat(text(KilnSetting.CUT_OUT)).isEqualTo("fitted");
        assertThat(field(KilnSetting.CUT_OUT, german).text()).isEqualTo("vorhanden");
        form.change(KilnSetting.CUT_OUT, "Keine", german);
        assertThat(text(KilnSetting.CUT_OUT)).isEqualTo("none");
    }

    private String text(KilnSetting setting) {
        return field(setting, CELSIUS).text();
    }

    private KilnForm.Field field(KilnSetting setting, Words words) {
        return form.fields(words).stream()
                .filter(field -> field.setting() == setting)
                .findFirst()
                .orElseThrow();
    }

    /** Runs what it was given when told to. */
    private static final class Later implements Chores {
        private final Deque<Runnable> waiting = new ArrayDeque<>();

        @Override
        public <T> void run(Callable<T> work, Consumer<T> found, Consumer<Exception> failed) {
            waiting.add(() -> new AtOnce().run(work, found, failed));
        }

        void runAll() {
            while (!waiting.isEmpty()) {
                waiting.remove().run();
            }
        }
    }

    private static final class AtOnce implements Chores {
        @Override
        public <T> void run(Callable<T> work, Consumer<T> found, Consumer<Exception> failed) {
            T result;
            try {
                result = work.call();
            } catch (Exception e) {
                failed.accept(e);
                return;
            }
            found.accept(result);
        }
    }
}

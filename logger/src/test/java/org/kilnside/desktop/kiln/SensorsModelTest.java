package org.kilnside.desktop.kiln;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.desktop.kiln.SensorForm.Field;
import org.kilnside.sensor.Calibration;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.Language;
import org.kilnside.wording.Opening;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.TemperatureUnit;
import org.kilnside.wording.Words;

/** The sensors' screen against a real book, without a display. */
class SensorsModelTest {
    private static final Words CELSIUS = words(Language.ENGLISH, TemperatureUnit.CELSIUS);
    private static final Words FAHRENHEIT = words(Language.ENGLISH, TemperatureUnit.FAHRENHEIT);
    private static final Words GERMAN = words(Language.GERMAN, TemperatureUnit.CELSIUS);

    @TempDir
    private Path folder;

    private HandSensors shelf;
    private SensorsModel model;

    @BeforeEach
    void openAKilnTheBookKnowsNoSensorOf() {
        shelf = new HandSensors(folder.resolve("book.db"));
        model = new SensorsModel(shelf, new AtOnce());
        model.open("Tall Drum");
    }

    @Test
    void aSensorIsFittedWithItsPlaceAndItsDay() {
        model.fit(CELSIUS);
        type(Field.NAME, "new in autumn");
        type(Field.PLACE, "left wall, middle");
        type(Field.SINCE, "20 March");
        model.note(CELSIUS);
        assertThat(list(CELSIUS))
                .containsExactly("new in autumn · left wall, middle. Type K, class 2; MAX31855 codes; channel 1; since"
                        + " 20 Mar 2026.\nThe controller shows the MAX31855's number as it is; it is corrected here.\n"
                        + "Not compared with anything yet: how far it may be off only its class 2 says.");
        assertThat(shelf.sensors("Tall Drum").get(0).fitted().fittedAt())
                .isEqualTo(Instant.parse("2026-03-20T00:00:00Z"));
        assertThat(model.form()).isEmpty();
    }

    @Test
    void aNoteThatIsHalfWrittenIsKnownAndNotLostToAnotherKiln() {
        model.fit(CELSIUS);
        assertThat(model.isHalfWritten()).isFalse();
        type(Field.NAME, "new in autumn");
        assertThat(model.isHalfWritten()).isTrue();
        model.turnTo("Small Test", GERMAN);
        assertThat(model.kiln()).contains("Tall Drum");
        assertThat(model.form().orElseThrow().text(Field.NAME)).isEqualTo("new in autumn");
        assertThat(model.said().orElseThrow().text()).contains("Tall Drum", "halb geschrieben");
        model.fit(CELSIUS);
        model.undo(CELSIUS);
        assertThat(model.form().orElseThrow().text(Field.NAME)).isEqualTo("new in autumn");
        List<String> left = new ArrayList<>();
        type(Field.SINCE, "the other day");
        model.note(CELSIUS, () -> left.add("left"));
        assertThat(left).isEmpty();
        assertThat(model.isHalfWritten()).isTrue();
        type(Field.SINCE, "20 March");
        model.note(CELSIUS, () -> left.add("left"));
        assertThat(left).containsExactly("left");
        assertThat(model.isHalfWritten()).isFalse();
        model.turnTo("Small Test", CELSIUS);
        assertThat(model.kiln()).contains("Small Test");
    }

    @Test
    void aNewSensorEndsTheOneBeforeAndUndoingBringsItBack() {
        fitted();
        model.fit(CELSIUS);
        assertThat(model.form().orElseThrow().text(Field.PLACE)).isEqualTo("left wall, low");
        type(Field.NAME, "the second");
        model.note(CELSIUS);
        assertThat(list(CELSIUS)).hasSize(2).first().asString().startsWith("the second");
        assertThat(list(CELSIUS).get(1))
                .contains("from 2 Mar 2026 to 26 Nov 2026")
                .contains("ended with that");
        model.undo(CELSIUS);
        assertThat(list(CELSIUS))
                .singleElement()
                .asString()
                .startsWith("the first")
                .contains("since 2 Mar 2026");
        assertThat(model.said().orElseThrow().text()).isEqualTo("Undone.");
    }

    @Test
    void aMoveEndsWhatWasKnown() {
        fitted();
        compared("1000", "1011", "3", CELSIUS);
        model.choose(0);
        model.move(CELSIUS);
        model.note(CELSIUS);
        assertThat(problem(Field.PLACE)).contains("That is where it is");
        type(Field.PLACE, "lid");
        model.note(CELSIUS);
        assertThat(list(CELSIUS).get(0)).startsWith("the first · lid").contains("Not compared with anything yet");
        assertThat(list(CELSIUS)).hasSize(3);
        assertThat(list(CELSIUS).get(2)).contains("at 1000 °C add +11 °C, give or take 3 °C");
    }

    @Test
    void aComparisonIsNotedAndStruckOutAndUndone() {
        fitted();
        compared("1000", "1011", "3", CELSIUS);
        assertThat(list(CELSIUS).get(1))
                .isEqualTo("Comparison 1: at 1000 °C add +11 °C, give or take 3 °C (against a thermometer).");
        model.choose(1);
        model.strike(CELSIUS);
        assertThat(list(CELSIUS)).hasSize(1);
        model.undo(CELSIUS);
        assertThat(list(CELSIUS)).hasSize(2);
    }

    @Test
    void severalThingsKnownAreTakenTogether() {
        fitted();
        compared("0", "-0.4", "0.5", CELSIUS);
        compared("1000", "1011", "3", CELSIUS);
        assertThat(list(CELSIUS).get(0)).contains("Taken together: at 1000 °C add +11 °C, give or take 3 °C.");
        model.choose(0);
        model.compare(CELSIUS);
        type(Field.READS, "1000 °C");
        type(Field.TRUTH, "1003 °C");
        model.note(CELSIUS);
        assertThat(problem(Field.READS)).contains("strike that out first");
    }

    @Test
    void anOffsetEverywhereMayBeTypedInFahrenheitOrWithADecimalComma() {
        fitted();
        model.compare(FAHRENHEIT);
        assertThat(model.form().orElseThrow().text(Field.WITHIN)).isEqualTo("9 °F");
        type(Field.OFFSET, "18");
        model.note(FAHRENHEIT);
        Calibration known = shelf.sensors("Tall Drum").get(0).sensor().calibration();
        assertThat(known.correctedC(1000)).isEqualTo(1010);
        assertThat(known.halfWidthC(1000)).isEqualTo(5);
        assertThat(list(FAHRENHEIT).get(1)).contains("add +18 °F everywhere, give or take 9 °F");
        model.undo(FAHRENHEIT);
        model.compare(GERMAN);
        type(Field.OFFSET, "2,5");
        model.note(GERMAN);
        assertThat(list(GERMAN).get(1)).contains("überall +2,5 °C dazu");
    }

    @Test
    void whatWasNotedWronglyIsMendedAndItsComparisonsStay() {
        fitted();
        compared("1000", "1011", "3", CELSIUS);
        model.choose(0);
        model.mend(CELSIUS);
        assertThat(model.form().orElseThrow().text(Field.SINCE)).isEqualTo("2 Mar 2026");
        type(Field.NAME, "the very first");
        type(Field.TOLERANCE, "1");
        model.note(CELSIUS);
        assertThat(list(CELSIUS))
                .hasSize(2)
                .first()
                .asString()
                .startsWith("the very first")
                .contains("class 1");
        assertThat(shelf.sensors("Tall Drum").get(0).fitted().fittedAt())
                .isEqualTo(Instant.parse("2026-03-02T00:00:00Z"));
    }

    @Test
    void aSensorNotedByMistakeIsStruckOutWithItsComparisonsAndTheOneBeforeIsThereAgain() {
        fitted();
        model.fit(CELSIUS);
        type(Field.NAME, "a mistake");
        type(Field.SINCE, "3 March");
        model.note(CELSIUS);
        model.choose(0);
        compared("1000", "1011", "3", CELSIUS);
        model.choose(0);
        model.strike(CELSIUS);
        assertThat(list(CELSIUS))
                .singleElement()
                .asString()
                .startsWith("the first")
                .contains("since 2 Mar 2026");
        model.undo(CELSIUS);
        assertThat(list(CELSIUS)).hasSize(3).first().asString().startsWith("a mistake");
    }

    @Test
    void anotherWindowsChangeIsSaidAndShownAndNothingIsLost() {
        fitted();
        compared("1000", "1011", "3", CELSIUS);
        SensorsModel other = new SensorsModel(shelf, new AtOnce());
        other.open("Tall Drum");
        other.choose(1);
        other.strike(CELSIUS);
        model.choose(1);
        model.strike(CELSIUS);
        assertThat(model.said().orElseThrow().text()).startsWith("Another window has changed this meanwhile");
        assertThat(list(CELSIUS)).hasSize(1);
    }

    @Test
    void anyTextInAnyFieldGivesASentenceBesideItOrIsTaken() {
        fitted();
        List<String> texts = List.of(
                "",
                " ",
                "☕",
                "\u0000",
                "-300",
                "1e9",
                "1.000.000",
                "tomorrow",
                "31 April",
                "2027-01-01",
                "x".repeat(10_000),
                "\u202Eabc",
                "a\nb",
                "12 bananas",
                "\"; DROP TABLE sensor; --",
                "+",
                ",",
                "°C");
        for (String text : texts) {
            model.choose(0);
            model.compare(GERMAN);
            for (Field field : List.of(Field.READS, Field.TRUTH, Field.WITHIN, Field.OFFSET)) {
                type(field, text);
            }
            model.note(GERMAN);
            assertThat(problems()).as(text).isNotEmpty().allMatch(said -> said.length() < 200);
            model.leaveForm();
            model.fit(GERMAN);
            type(Field.NAME, text);
            type(Field.PLACE, text);
            type(Field.SINCE, text.isBlank() ? "-" : text);
            model.note(GERMAN);
            assertThat(problems()).as(text).isNotEmpty();
            model.leaveForm();
        }
        assertThat(list(GERMAN)).hasSize(1);
        model.fit(CELSIUS);
        type(Field.NAME, "a\nb\u0000 ☕ \u202Eabc");
        model.note(CELSIUS);
        assertThat(list(CELSIUS).get(0)).startsWith("a b ☕ \u202Eabc");
    }

    @Test
    void whatNoSensorCanBeIsRefused() {
        fitted();
        model.fit(CELSIUS);
        type(Field.AMPLIFIER, "MAX6675");
        assertThat(model.form().orElseThrow().text(Field.SHOWS)).isEqualTo("MAX6675");
        type(Field.TYPE, "S");
        model.note(CELSIUS);
        assertThat(problem(Field.TYPE)).contains("There is no MAX6675 for type S.");
        type(Field.TYPE, "K");
        type(Field.SHOWS, "MAX31855");
        model.note(CELSIUS);
        assertThat(problem(Field.SHOWS)).contains("MAX6675");
        type(Field.SHOWS, "TRUTH");
        type(Field.SINCE, "1 March");
        model.note(CELSIUS);
        assertThat(problem(Field.SINCE)).contains("since 2 Mar 2026");
        model.leaveForm();
        compared("1000", "1500", "3", CELSIUS);
        assertThat(problem(Field.TRUTH)).contains("500 °C is more than a sensor can be off, 100 °C at most");
    }

    @Test
    void whatConesSayIsChangedInTheBook() {
        SensorsModel lane = new SensorsModel(HandSensors.rookLane(), new AtOnce());
        lane.open("Tall Drum");
        lane.choose(3);
        lane.strike(CELSIUS);
        assertThat(lane.said().orElseThrow().text()).contains("firing 31").contains("Book");
    }

    private void fitted() {
        model.fit(CELSIUS);
        type(Field.NAME, "the first");
        type(Field.PLACE, "left wall, low");
        type(Field.SINCE, "2 March");
        model.note(CELSIUS);
        model.choose(0);
    }

    private void compared(String reads, String truth, String within, Words words) {
        model.choose(0);
        model.compare(words);
        type(Field.READS, reads);
        type(Field.TRUTH, truth);
        type(Field.WITHIN, within);
        model.note(words);
    }

    private void type(Field field, String text) {
        model.form().orElseThrow().type(field, text);
    }

    private String problem(Field field) {
        return model.form().orElseThrow().problem(field).orElse("");
    }

    private List<String> problems() {
        SensorForm form = model.form().orElseThrow();
        return form.deed().fields().stream()
                .map(form::problem)
                .flatMap(Optional::stream)
                .toList();
    }

    private List<String> list(Words words) {
        return model.entries().stream()
                .map(entry -> SensorEntries.of(entry, words).spoken())
                .toList();
    }

    private static Words words(Language language, TemperatureUnit unit) {
        return Words.of(language, new Preferences(unit, ClockStyle.TWENTY_FOUR_HOURS, ZoneOffset.UTC, Opening.LID));
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

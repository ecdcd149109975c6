package org.kilnside.desktop.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.kilnside.desktop.plan.PlansModel.Field;
import org.kilnside.desktop.plan.PlansModel.Place;
import org.kilnside.firing.Kiln;
import org.kilnside.heatwork.Cone;
import org.kilnside.outlook.Ware;
import org.kilnside.quantity.Power;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.Volume;
import org.kilnside.schedule.Segment;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.TemperatureUnit;
import org.kilnside.wording.Words;

class PlansModelTest {
    private static final String BOWLS = """
            name     = "Bisque for bowls"
            aims_for = "cone 06"

            [[segment]]   # until the last damp is out
            rate = "60 °C/h"
            to   = "80 °C"
            hold = "2 h"

            [[segment]]
            rate = "120 °C/h"
            to   = "992 °C"
            hold = "10 min"

            [[segment]]
            cool = "free"
            """;

    private final HandShelf shelf = new HandShelf();
    private final Deque<Runnable> waiting = new ArrayDeque<>();
    private boolean atOnce = true;
    private PlansModel model;

    @BeforeEach
    void opensOnTheFirstPlan() {
        shelf.own.put("bowls", BOWLS);
        shelf.starters.put("bisque", BOWLS.replace("Bisque for bowls", "Bisque"));
        model = new PlansModel(shelf, runner(), words(TemperatureUnit.CELSIUS), () -> {});
        model.start();
    }

    private static Words words(TemperatureUnit unit) {
        return Words.of(Locale.ENGLISH, Preferences.of(Locale.UK).withUnit(unit));
    }

    /** Runs at once, or when told to. */
    private PlansModel.Runner runner() {
        return new PlansModel.Runner() {
            @Override
            public <T> void run(Callable<T> work, Consumer<T> found, Consumer<Exception> failed) {
                Runnable errand = () -> {
                    T result;
                    try {
                        result = work.call();
                    } catch (Exception e) {
                        failed.accept(e);
                        return;
                    }
                    found.accept(result);
                };
                if (atOnce) {
                    errand.run();
                } else {
                    waiting.add(errand);
                }
            }
        };
    }

    private void type(Field field, int segment, String text) {
        model.typed(new Place(field, segment), text);
    }

    private Segment.Ramp ramp(int number) {
        return (Segment.Ramp) model.plan().segments().get(number - 1);
    }

    @Test
    void ownPlansComeFirstAndTheFirstIsOpen() {
        assertThat(model.keeping().plans())
                .extracting(PlanShelf.Entry::shortName)
                .containsExactly("bowls", "bisque");
        assertThat(model.plan().name()).isEqualTo("Bisque for bowls");
        assertThat(model.isUnsaved()).isFalse();
    }

    @Test
    void whatIsTypedChangesThePlanAndIsOneStepBack() {
        type(Field.RATE, 2, "1");
        type(Field.RATE, 2, "10");
        type(Field.RATE, 2, "105");
        assertThat(ramp(2).rate().kelvinPerHour()).isEqualTo(105);
        model.left();
        type(Field.TARGET, 2, "1000");
        model.undo();
        assertThat(ramp(2).to().celsius()).isEqualTo(992);
        assertThat(ramp(2).rate().kelvinPerHour()).isEqualTo(105);
        model.undo();
        assertThat(ramp(2).rate().kelvinPerHour()).isEqualTo(120);
        assertThat(model.isUnsaved()).isFalse();
        model.redo();
        model.redo();
        assertThat(ramp(2).to().celsius()).isEqualTo(1000);
    }

    @Test
    void aTextThatIsNoValueIsSaidInPlaceAndChangesNothing() {
        for (String text : new String[] {"warm", "", "-5", "0", "1e9", "12 bananas", "1,200", "☃", "9".repeat(500)}) {
            type(Field.RATE, 2, text);
            assertThat(model.rejected(new Place(Field.RATE, 2)))
                    .as(text)
                    .hasValueSatisfying(
                            rejected -> assertThat(rejected.sentence()).isNotBlank());
            assertThat(ramp(2).rate().kelvinPerHour()).as(text).isEqualTo(120);
        }
        type(Field.RATE, 2, "90");
        assertThat(model.rejected(new Place(Field.RATE, 2))).isEmpty();
    }

    @Test
    void undoFirstPutsBackWhatWasTypedWrong() {
        type(Field.RATE, 2, "105");
        model.left();
        type(Field.RATE, 2, "warm");
        model.undo();
        assertThat(model.rejected(new Place(Field.RATE, 2))).isEmpty();
        assertThat(ramp(2).rate().kelvinPerHour()).isEqualTo(105);
        model.undo();
        assertThat(ramp(2).rate().kelvinPerHour()).isEqualTo(120);
    }

    @Test
    void nothingIsSavedWhileSomethingTypedIsNoValue() {
        type(Field.TARGET, 2, "hot");
        model.keeping().save();
        assertThat(shelf.own.get("bowls")).isEqualTo(BOWLS);
        assertThat(model.notice()).hasValueSatisfying(notice -> {
            assertThat(notice.isTrouble()).isTrue();
            assertThat(notice.text(words(TemperatureUnit.CELSIUS)))
                    .contains("Not saved")
                    .contains("\"hot\" is no temperature");
        });
        assertThat(model.keeping().saveToLeave()).isFalse();
    }

    @Test
    void aSavedPlanIsReadBackTheSameWithItsCommentsKept() {
        type(Field.HOLD, 2, "25");
        model.keeping().save();
        assertThat(shelf.own.get("bowls"))
                .contains("# until the last damp is out")
                .contains("hold = \"25 min\"")
                .contains("rate = \"60 °C/h\"");
        assertThat(model.isUnsaved()).isFalse();
        model.keeping().open("bowls");
        assertThat(ramp(2).hold()).isEqualTo(Duration.ofMinutes(25));
    }

    @Test
    void aStarterPlanIsNeverOverwrittenButCopied() {
        model.keeping().open("bisque");
        type(Field.TARGET, 2, "1000");
        model.keeping().save();
        assertThat(shelf.starters.get("bisque")).doesNotContain("1000");
        assertThat(shelf.own).containsKey("own-2");
        assertThat(model.editor().source().shortName()).contains("own-2");
        assertThat(model.editor().source().own()).isTrue();
    }

    @Test
    void aPlanChangedOnDiskIsAskedAboutAndTakingItCanBeUndone() {
        type(Field.TARGET, 2, "1001");
        shelf.own.put("bowls", BOWLS.replace("992", "985"));
        model.keeping().lookOnDisk();
        assertThat(model.keeping().isOtherOnDisk()).isTrue();
        model.keeping().takeFromDisk();
        assertThat(ramp(2).to().celsius()).isEqualTo(985);
        assertThat(model.keeping().isOtherOnDisk()).isFalse();
        assertThat(model.isUnsaved()).isFalse();
        model.undo();
        assertThat(ramp(2).to().celsius()).isEqualTo(1001);
    }

    @Test
    void keepingMineKeepsWhatWasOnDiskBesideIt() {
        type(Field.TARGET, 2, "1001");
        shelf.own.put("bowls", BOWLS.replace("992", "985"));
        model.keeping().lookOnDisk();
        model.keeping().keepMine();
        assertThat(shelf.own.get("bowls")).contains("1001");
        assertThat(shelf.own.get("bowls-2")).contains("985");
        assertThat(model.keeping().isOtherOnDisk()).isFalse();
    }

    @Test
    void aFileThatIsGoneIsWrittenAgain() {
        shelf.own.remove("bowls");
        model.keeping().lookOnDisk();
        assertThat(model.keeping().isOtherOnDisk()).isFalse();
        type(Field.TARGET, 2, "1001");
        model.keeping().save();
        assertThat(shelf.own.get("bowls")).contains("1001");
    }

    @Test
    void whatIsTypedWhileASaveIsUnderWayIsStillUnsaved() {
        atOnce = false;
        type(Field.TARGET, 2, "1001");
        model.keeping().save();
        type(Field.TARGET, 2, "1002");
        drain();
        assertThat(shelf.own.get("bowls")).contains("1001");
        assertThat(model.isUnsaved()).isTrue();
        assertThat(ramp(2).to().celsius()).isEqualTo(1002);
    }

    @Test
    void aSaveThatEndsLateDoesNotSpeakForTheNextPlan() {
        atOnce = false;
        type(Field.TARGET, 2, "1001");
        model.keeping().save();
        model.keeping().createNew();
        drain();
        assertThat(shelf.own.get("bowls")).contains("1001");
        assertThat(model.editor().source()).isEqualTo(PlanEditor.Source.NEW);
    }

    @Test
    void aDiskThatRefusesIsSaidAndNothingIsLost() {
        type(Field.TARGET, 2, "1001");
        shelf.broken = Optional.of("the disk is full; make room");
        model.keeping().save();
        assertThat(model.notice())
                .hasValueSatisfying(notice -> assertThat(notice.text(words(TemperatureUnit.CELSIUS)))
                        .isEqualTo("It did not work: the disk is full; make room"));
        assertThat(model.isUnsaved()).isTrue();
        assertThat(ramp(2).to().celsius()).isEqualTo(1001);
    }

    @Test
    void segmentsAreAddedMovedAndTakenOutAndAllOfItUndone() {
        model.select(1);
        model.insert();
        assertThat(model.plan().segments()).hasSize(4);
        assertThat(model.selected()).isEqualTo(2);
        assertThat(ramp(2).to().celsius()).isBetween(80.0, 992.0);
        model.move(1);
        assertThat(ramp(2).to().celsius()).isEqualTo(992);
        model.remove();
        model.remove();
        assertThat(model.plan().segments()).hasSize(2);
        for (int i = 0; i < 4; i++) {
            model.undo();
        }
        assertThat(model.isUnsaved()).isFalse();
    }

    @Test
    void theLastRampStaysAndNothingComesBehindFreeCooling() {
        model.select(3);
        model.insert();
        assertThat(model.plan().segments().get(3)).isInstanceOf(Segment.FreeCooling.class);
        model.undo();
        model.select(2);
        model.remove();
        model.select(1);
        model.remove();
        assertThat(model.plan().segments().get(0)).isInstanceOf(Segment.Ramp.class);
        model.toggleFreeCooling();
        assertThat(model.plan().endsInFreeCooling()).isFalse();
        model.toggleFreeCooling();
        assertThat(model.plan().endsInFreeCooling()).isTrue();
    }

    @Test
    void fieldsAreInThePersonsUnitAndRatesAreDifferences() {
        model.speak(words(TemperatureUnit.FAHRENHEIT));
        type(Field.RATE, 2, "180");
        type(Field.TARGET, 2, "1832");
        // Independent: 180 °F/h is 100 °C/h without any 32; 1832 °F is 1000 °C.
        assertThat(ramp(2).rate().kelvinPerHour()).isEqualTo(100);
        assertThat(ramp(2).to().celsius()).isEqualTo(1000);
        type(Field.TARGET, 2, "995 °C");
        assertThat(ramp(2).to().celsius()).isEqualTo(995);
    }

    @Test
    void thePlanIsAnsweredWhileItIsTypedTheNewestOnly() {
        assertThat(model.outlook().answer()).isPresent();
        atOnce = false;
        type(Field.TARGET, 2, "9");
        type(Field.TARGET, 2, "99");
        type(Field.TARGET, 2, "990");
        assertThat(waiting).hasSize(1);
        assertThat(model.outlook().isUpToDate()).isFalse();
        drain();
        assertThat(model.outlook().isUpToDate()).isTrue();
        assertThat(model.outlook()
                        .answer()
                        .orElseThrow()
                        .question()
                        .plan()
                        .top()
                        .celsius())
                .isEqualTo(990);
    }

    @Test
    void theWantedTopAndHoldAreTakenAsStepsBack() {
        type(Field.WANTED, 0, "04");
        assertThat(model.outlook().wanted()).contains(Cone.parse("04"));
        model.takeTop();
        // Published: cone 04 goes down at 1070 °C at 150 °C/h, 1063 °C at 60 °C/h; ten minutes of hold take some off.
        assertThat(model.plan().top().celsius()).isBetween(1045.0, 1075.0);
        model.undo();
        assertThat(model.plan().top()).isEqualTo(Temperature.ofCelsius(992));
    }

    @Test
    void whatTheLoadIsChangesTheWarnings() {
        assertThat(model.outlook().answer().orElseThrow().outlook().warnings()).isEmpty();
        model.outlook().state(Optional.of(Ware.State.RAW));
        type(Field.THICKNESS, 0, "25");
        assertThat(model.outlook().answer().orElseThrow().outlook().warnings())
                .first()
                .satisfies(warning -> assertThat(warning.segment()).isEqualTo(1));
        type(Field.THICKNESS, 0, "as a brick");
        assertThat(model.rejected(Place.of(Field.THICKNESS))).isPresent();
        assertThat(model.isUnsaved()).isFalse();
    }

    @Test
    void aKilnDescribedAnewElsewhereCountsWhenOneComesBack() {
        assertThat(model.outlook().answer().orElseThrow().outlook().energy()).isEmpty();
        Kiln plain = Kiln.named("Tall Drum");
        shelf.kiln = Optional.of(new Kiln(
                "Tall Drum",
                Optional.of(Volume.ofLitres(68)),
                Optional.of(Power.ofKilowatts(5.6)),
                Optional.of(Kiln.Wall.BRICK),
                plain.opening(),
                plain.isolator(),
                plain.tariff(),
                plain.limits(),
                plain.thresholds(),
                plain.sensors()));
        shelf.own.put("tiles", BOWLS.replace("Bisque for bowls", "Tiles"));
        model.cameBack();
        assertThat(model.outlook().answer().orElseThrow().outlook().energy()).isPresent();
        assertThat(model.keeping().plans()).extracting(PlanShelf.Entry::title).contains("Tiles");
    }

    @Test
    void aNewPlanIsNamedAndSavedUnderANameOfItsOwn() {
        model.keeping().createNew();
        type(Field.NAME, 0, "");
        assertThat(model.rejected(Place.of(Field.NAME))).isPresent();
        type(Field.NAME, 0, "Tiles");
        type(Field.AIM, 0, "66");
        assertThat(model.rejected(Place.of(Field.AIM)).orElseThrow().sentence()).contains("\"66\" is no cone");
        type(Field.AIM, 0, "04");
        model.keeping().save();
        assertThat(shelf.own.get("own-2")).contains("name = \"Tiles\"").contains("aims_for = \"cone 04\"");
    }

    @Test
    void throwingTheChangesAwayCanBeUndoneToo() {
        type(Field.TARGET, 2, "1001");
        model.keeping().discard();
        assertThat(model.isUnsaved()).isFalse();
        model.undo();
        assertThat(ramp(2).to().celsius()).isEqualTo(1001);
    }

    @Test
    void theCardIsPrinted() {
        model.keeping().print();
        assertThat(shelf.printed).containsExactly("Bisque for bowls");
        assertThat(model.notice())
                .hasValueSatisfying(notice ->
                        assertThat(notice.text(words(TemperatureUnit.CELSIUS))).contains("card.html"));
    }

    private void drain() {
        while (!waiting.isEmpty()) {
            waiting.poll().run();
        }
    }
}

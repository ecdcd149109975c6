package org.kilnside.desktop.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.desktop.plan.PlansModel.Field;
import org.kilnside.desktop.plan.PlansModel.Place;
import org.kilnside.files.KilnFiles;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Kiln;
import org.kilnside.heatwork.Cone;
import org.kilnside.outlook.Ware;
import org.kilnside.quantity.Power;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.Volume;
import org.kilnside.schedule.Segment;
import org.kilnside.wording.TemperatureUnit;

/** Editing a plan and asking what it comes to, without a display. */
class PlansModelTest {
    private final PlansDesk desk = new PlansDesk();

    @Test
    void ownPlansComeFirstAndTheFirstIsOpen() {
        assertThat(desk.model.keeping().plans())
                .extracting(PlanShelf.Entry::shortName)
                .containsExactly("bowls", "bisque");
        assertThat(desk.model.plan().name()).isEqualTo("Bisque for bowls");
        assertThat(desk.model.isUnsaved()).isFalse();
    }

    @Test
    void whatIsTypedChangesThePlanAndIsOneStepBack() {
        desk.type(Field.RATE, 2, "1");
        desk.type(Field.RATE, 2, "10");
        desk.type(Field.RATE, 2, "105");
        assertThat(desk.ramp(2).rate().kelvinPerHour()).isEqualTo(105);
        desk.model.left();
        desk.type(Field.TARGET, 2, "1000");
        desk.model.undo();
        assertThat(desk.ramp(2).to().celsius()).isEqualTo(992);
        assertThat(desk.ramp(2).rate().kelvinPerHour()).isEqualTo(105);
        desk.model.undo();
        assertThat(desk.ramp(2).rate().kelvinPerHour()).isEqualTo(120);
        assertThat(desk.model.isUnsaved()).isFalse();
        desk.model.redo();
        desk.model.redo();
        assertThat(desk.ramp(2).to().celsius()).isEqualTo(1000);
    }

    @Test
    void aTextThatIsNoValueIsSaidInPlaceAndChangesNothing() {
        for (String text : new String[] {"warm", "", "-5", "0", "1e9", "12 bananas", "1,200", "☃", "9".repeat(500)}) {
            desk.type(Field.RATE, 2, text);
            assertThat(desk.model.rejected(new Place(Field.RATE, 2)))
                    .as(text)
                    .hasValueSatisfying(
                            rejected -> assertThat(rejected.sentence()).isNotBlank());
            assertThat(desk.ramp(2).rate().kelvinPerHour()).as(text).isEqualTo(120);
        }
        desk.type(Field.RATE, 2, "90");
        assertThat(desk.model.rejected(new Place(Field.RATE, 2))).isEmpty();
    }

    @Test
    void undoFirstPutsBackWhatWasTypedWrong() {
        desk.type(Field.RATE, 2, "105");
        desk.model.left();
        desk.type(Field.RATE, 2, "warm");
        desk.model.undo();
        assertThat(desk.model.rejected(new Place(Field.RATE, 2))).isEmpty();
        assertThat(desk.ramp(2).rate().kelvinPerHour()).isEqualTo(105);
        desk.model.undo();
        assertThat(desk.ramp(2).rate().kelvinPerHour()).isEqualTo(120);
    }

    @Test
    void segmentsAreAddedMovedAndTakenOutAndAllOfItUndone() {
        desk.model.select(1);
        desk.model.insert();
        assertThat(desk.model.plan().segments()).hasSize(4);
        assertThat(desk.model.selected()).isEqualTo(2);
        assertThat(desk.ramp(2).to().celsius()).isBetween(80.0, 992.0);
        desk.model.move(1);
        assertThat(desk.ramp(2).to().celsius()).isEqualTo(992);
        desk.model.remove();
        desk.model.remove();
        assertThat(desk.model.plan().segments()).hasSize(2);
        for (int i = 0; i < 4; i++) {
            desk.model.undo();
        }
        assertThat(desk.model.isUnsaved()).isFalse();
    }

    @Test
    void theLastRampStaysAndNothingComesBehindFreeCooling() {
        desk.model.select(3);
        desk.model.insert();
        assertThat(desk.model.plan().segments().get(3)).isInstanceOf(Segment.FreeCooling.class);
        desk.model.undo();
        desk.model.select(2);
        desk.model.remove();
        desk.model.select(1);
        desk.model.remove();
        assertThat(desk.model.plan().segments().get(0)).isInstanceOf(Segment.Ramp.class);
        desk.model.toggleFreeCooling();
        assertThat(desk.model.plan().endsInFreeCooling()).isFalse();
        desk.model.toggleFreeCooling();
        assertThat(desk.model.plan().endsInFreeCooling()).isTrue();
    }

    @Test
    void fieldsAreInThePersonsUnitAndRatesAreDifferences() {
        desk.model.speak(PlansDesk.words(TemperatureUnit.FAHRENHEIT));
        desk.type(Field.RATE, 2, "180");
        desk.type(Field.TARGET, 2, "1832");
        // Independent: 180 °F/h is 100 °C/h without any 32; 1832 °F is 1000 °C.
        assertThat(desk.ramp(2).rate().kelvinPerHour()).isEqualTo(100);
        assertThat(desk.ramp(2).to().celsius()).isEqualTo(1000);
        desk.type(Field.TARGET, 2, "995 °C");
        assertThat(desk.ramp(2).to().celsius()).isEqualTo(995);
    }

    @Test
    void thePlanIsAnsweredWhileItIsTypedTheNewestOnly() {
        assertThat(desk.model.outlook().answer()).isPresent();
        desk.atOnce = false;
        desk.type(Field.TARGET, 2, "9");
        desk.type(Field.TARGET, 2, "99");
        desk.type(Field.TARGET, 2, "990");
        assertThat(desk.waiting).hasSize(1);
        assertThat(desk.model.outlook().isUpToDate()).isFalse();
        desk.drain();
        assertThat(desk.model.outlook().isUpToDate()).isTrue();
        assertThat(desk.model
                        .outlook()
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
        desk.type(Field.WANTED, 0, "04");
        assertThat(desk.model.outlook().wanted()).contains(Cone.parse("04"));
        desk.model.takeTop();
        // Published: cone 04 goes down at 1070 °C at 150 °C/h, 1063 °C at 60 °C/h; ten minutes of hold take some off.
        assertThat(desk.model.plan().top().celsius()).isBetween(1045.0, 1075.0);
        desk.model.undo();
        assertThat(desk.model.plan().top()).isEqualTo(Temperature.ofCelsius(992));
    }

    @Test
    void whatTheLoadIsChangesTheWarnings() {
        assertThat(desk.model.outlook().answer().orElseThrow().outlook().warnings())
                .isEmpty();
        desk.model.outlook().state(Optional.of(Ware.State.RAW));
        desk.type(Field.THICKNESS, 0, "25");
        assertThat(desk.model.outlook().answer().orElseThrow().outlook().warnings())
                .first()
                .satisfies(warning -> assertThat(warning.segment()).isEqualTo(1));
        desk.type(Field.THICKNESS, 0, "as a brick");
        assertThat(desk.model.rejected(Place.of(Field.THICKNESS))).isPresent();
        assertThat(desk.model.isUnsaved()).isFalse();
    }

    @Test
    void aKilnDescribedAnewElsewhereCountsWhenOneComesBack() {
        assertThat(desk.model.outlook().answer().orElseThrow().outlook().energy())
                .isEmpty();
        Kiln plain = Kiln.named("Tall Drum");
        desk.shelf.kiln = Optional.of(new Kiln(
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
        desk.shelf.own.put("tiles", PlansDesk.BOWLS.replace("Bisque for bowls", "Tiles"));
        desk.model.cameBack();
        assertThat(desk.model.outlook().answer().orElseThrow().outlook().energy())
                .isPresent();
        assertThat(desk.model.keeping().plans())
                .extracting(PlanShelf.Entry::title)
                .contains("Tiles");
    }

    @Test
    void theKilnThatIsFiredIsMeantUntilAnotherIsChosen() {
        desk.shelf.kilns = List.of("Small Test", "Tall Drum");
        desk.model.start();
        desk.model.cameBack();
        desk.model.fired("Tall Drum");
        assertThat(desk.model.outlook().kilnName()).contains("Tall Drum");
        desk.model.chooseKiln("Small Test");
        desk.model.fired("Tall Drum");
        assertThat(desk.model.outlook().kilnName()).contains("Small Test");
    }

    @Test
    void theConesAreThoseOfTheKilnUntilAPersonSaysOtherwiseOfIt() {
        desk.shelf.kilns = List.of("Small Test", "Tall Drum");
        desk.shelf.kiln = Optional.of(KilnFiles.parse("name = \"Tall Drum\"\nseries = \"large\"", "k"));
        desk.model.start();
        desk.model.chooseKiln("Tall Drum");
        assertThat(desk.model.outlook().answer().orElseThrow().question().series())
                .isEqualTo(ConeSeries.LARGE);
        desk.model.outlook().series(ConeSeries.SMALL);
        assertThat(desk.model.outlook().answer().orElseThrow().question().series())
                .isEqualTo(ConeSeries.SMALL);
        desk.model.chooseKiln("Small Test");
        assertThat(desk.model.outlook().series()).isEqualTo(ConeSeries.LARGE);
    }

    @Test
    void whatTheWareBearsTheRoomAndTheConesSeriesAreAsked() {
        desk.type(Field.LIMIT, 0, "980");
        assertThat(desk.model.outlook().answer().orElseThrow().outlook().warnings())
                .anySatisfy(warning -> assertThat(warning.toString()).contains("980"));
        desk.type(Field.LIMIT, 0, "hot");
        assertThat(desk.model.rejected(Place.of(Field.LIMIT)).orElseThrow().sentence())
                .isEqualTo("\"hot\" is none: write a temperature from 100 °C to 1500 °C, or nothing");
        desk.type(Field.LIMIT, 0, "");
        assertThat(desk.model.outlook().ware().limit()).isEmpty();
        desk.type(Field.ROOM, 0, "-5");
        assertThat(desk.model.outlook().answer().orElseThrow().question().room().celsius())
                .isEqualTo(-5);
        desk.type(Field.ROOM, 0, "80");
        assertThat(desk.model.rejected(Place.of(Field.ROOM))).isPresent();
        desk.model.outlook().series(ConeSeries.SMALL);
        assertThat(desk.model.outlook().answer().orElseThrow().question().series())
                .isEqualTo(ConeSeries.SMALL);
        assertThat(desk.model.isUnsaved()).isFalse();
    }
}

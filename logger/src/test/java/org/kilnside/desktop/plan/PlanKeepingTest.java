package org.kilnside.desktop.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.desktop.plan.PlansModel.Field;
import org.kilnside.desktop.plan.PlansModel.Place;
import org.kilnside.wording.TemperatureUnit;

/** Saving, leaving, and what somebody else does to a plan's file, without a display. */
class PlanKeepingTest {
    private final PlansDesk desk = new PlansDesk();

    @Test
    void nothingIsSavedWhileSomethingTypedIsNoValue() {
        desk.type(Field.TARGET, 2, "hot");
        desk.model.keeping().save();
        assertThat(desk.shelf.own.get("bowls")).isEqualTo(PlansDesk.BOWLS);
        assertThat(desk.model.notice()).hasValueSatisfying(notice -> {
            assertThat(notice.isTrouble()).isTrue();
            assertThat(notice.text(PlansDesk.words(TemperatureUnit.CELSIUS)))
                    .contains("Not saved")
                    .contains("\"hot\" is no temperature");
        });
        boolean[] left = new boolean[1];
        desk.model.keeping().save(() -> left[0] = true);
        assertThat(left).containsExactly(false);
    }

    @Test
    void aSavedPlanIsReadBackTheSameWithItsCommentsKept() {
        desk.type(Field.HOLD, 2, "25");
        desk.model.keeping().save();
        assertThat(desk.shelf.own.get("bowls"))
                .contains("# until the last damp is out")
                .contains("hold = \"25 min\"")
                .contains("rate = \"60 °C/h\"");
        assertThat(desk.model.isUnsaved()).isFalse();
        desk.model.keeping().open("bowls");
        assertThat(desk.ramp(2).hold()).isEqualTo(Duration.ofMinutes(25));
    }

    @Test
    void aStarterPlanIsNeverOverwrittenButCopied() {
        desk.model.keeping().open("bisque");
        desk.type(Field.TARGET, 2, "1000");
        desk.model.keeping().save();
        assertThat(desk.shelf.starters.get("bisque")).doesNotContain("1000");
        assertThat(desk.shelf.own).containsKey("own-2");
        assertThat(desk.model.editor().source().shortName()).contains("own-2");
        assertThat(desk.model.editor().source().own()).isTrue();
    }

    @Test
    void aPlanChangedOnDiskIsAskedAboutAndTakingItCanBeUndone() {
        desk.type(Field.TARGET, 2, "1001");
        desk.shelf.own.put("bowls", PlansDesk.BOWLS.replace("992", "985"));
        desk.model.keeping().lookOnDisk();
        assertThat(desk.model.keeping().isOtherOnDisk()).isTrue();
        desk.model.keeping().takeFromDisk();
        assertThat(desk.ramp(2).to().celsius()).isEqualTo(985);
        assertThat(desk.model.keeping().isOtherOnDisk()).isFalse();
        assertThat(desk.model.isUnsaved()).isFalse();
        desk.model.undo();
        assertThat(desk.ramp(2).to().celsius()).isEqualTo(1001);
    }

    @Test
    void keepingMineKeepsWhatWasOnDiskBesideIt() {
        desk.type(Field.TARGET, 2, "1001");
        desk.shelf.own.put("bowls", PlansDesk.BOWLS.replace("992", "985"));
        desk.model.keeping().lookOnDisk();
        desk.model.keeping().keepMine();
        assertThat(desk.shelf.own.get("bowls")).contains("1001");
        assertThat(desk.shelf.own.get("bowls-2")).contains("985");
        assertThat(desk.model.keeping().isOtherOnDisk()).isFalse();
    }

    @Test
    void aFileThatIsGoneIsWrittenAgain() {
        desk.shelf.own.remove("bowls");
        desk.model.keeping().lookOnDisk();
        assertThat(desk.model.keeping().isOtherOnDisk()).isFalse();
        desk.type(Field.TARGET, 2, "1001");
        desk.model.keeping().save();
        assertThat(desk.shelf.own.get("bowls")).contains("1001");
    }

    @Test
    void whatIsTypedWhileASaveIsUnderWayIsStillUnsaved() {
        desk.atOnce = false;
        desk.type(Field.TARGET, 2, "1001");
        desk.model.keeping().save();
        desk.type(Field.TARGET, 2, "1002");
        desk.drain();
        assertThat(desk.shelf.own.get("bowls")).contains("1001");
        assertThat(desk.model.isUnsaved()).isTrue();
        assertThat(desk.ramp(2).to().celsius()).isEqualTo(1002);
    }

    @Test
    void aSaveThatEndsLateDoesNotSpeakForTheNextPlan() {
        desk.atOnce = false;
        desk.type(Field.TARGET, 2, "1001");
        desk.model.keeping().save();
        desk.model.keeping().createNew();
        desk.drain();
        assertThat(desk.shelf.own.get("bowls")).contains("1001");
        assertThat(desk.model.editor().source()).isEqualTo(PlanEditor.Source.NEW);
    }

    @Test
    void aDiskThatRefusesIsSaidAndNothingIsLost() {
        desk.type(Field.TARGET, 2, "1001");
        desk.shelf.broken = Optional.of("the disk is full; make room");
        desk.model.keeping().save();
        assertThat(desk.model.notice())
                .hasValueSatisfying(notice -> assertThat(notice.text(PlansDesk.words(TemperatureUnit.CELSIUS)))
                        .isEqualTo("It did not work: the disk is full; make room"));
        assertThat(desk.model.isUnsaved()).isTrue();
        assertThat(desk.ramp(2).to().celsius()).isEqualTo(1001);
    }

    @Test
    void aNewPlanIsNamedAndSavedUnderANameOfItsOwn() {
        desk.model.keeping().createNew();
        desk.type(Field.NAME, 0, "");
        assertThat(desk.model.rejected(Place.of(Field.NAME))).isPresent();
        desk.type(Field.NAME, 0, "Tiles");
        desk.type(Field.AIM, 0, "66");
        assertThat(desk.model.rejected(Place.of(Field.AIM)).orElseThrow().sentence())
                .contains("\"66\" is no cone");
        desk.type(Field.AIM, 0, "04");
        desk.model.keeping().save();
        assertThat(desk.shelf.own.get("own-2")).contains("name = \"Tiles\"").contains("aims_for = \"cone 04\"");
    }

    @Test
    void throwingTheChangesAwayCanBeUndoneToo() {
        desk.type(Field.TARGET, 2, "1001");
        desk.model.keeping().discard();
        assertThat(desk.model.isUnsaved()).isFalse();
        desk.model.undo();
        assertThat(desk.ramp(2).to().celsius()).isEqualTo(1001);
    }

    @Test
    void theCardIsPrinted() {
        desk.model.keeping().print();
        assertThat(desk.shelf.printed).containsExactly("Bisque for bowls");
        assertThat(desk.model.notice())
                .hasValueSatisfying(notice -> assertThat(notice.text(PlansDesk.words(TemperatureUnit.CELSIUS)))
                        .contains("card.html"));
    }

    @Test
    void goingOnWaitsForTheDiskAndStaysWhereItRefuses() {
        List<String> left = new ArrayList<>();
        desk.type(Field.TARGET, 2, "1001");
        desk.shelf.broken = Optional.of("the disk is full; make room");
        desk.model.keeping().save(() -> left.add("closed"));
        assertThat(left).isEmpty();
        assertThat(desk.model.isUnsaved()).isTrue();
        assertThat(desk.model.notice().orElseThrow().isTrouble()).isTrue();
        desk.shelf.broken = Optional.empty();
        desk.atOnce = false;
        desk.model.keeping().save(() -> left.add("closed"));
        assertThat(left).isEmpty();
        desk.drain();
        assertThat(left).containsExactly("closed");
        assertThat(desk.shelf.own.get("bowls")).contains("1001");
    }

    @Test
    void eachPlanHasItsOwnWayBack() {
        desk.type(Field.TARGET, 2, "1001");
        desk.model.keeping().save();
        desk.model.keeping().open("bisque");
        desk.model.undo();
        assertThat(desk.ramp(2).to().celsius()).isEqualTo(992);
        desk.model.keeping().open("bowls");
        assertThat(desk.ramp(2).to().celsius()).isEqualTo(1001);
        desk.model.undo();
        assertThat(desk.ramp(2).to().celsius()).isEqualTo(992);
        desk.model.redo();
        desk.model.keeping().open("bisque");
        desk.shelf.own.put("bowls", desk.shelf.own.get("bowls").replace("1001", "985"));
        desk.model.keeping().open("bowls");
        desk.model.undo();
        assertThat(desk.ramp(2).to().celsius()).isEqualTo(985);
    }
}

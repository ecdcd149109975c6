package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.FiringEvent.Kind;
import org.kilnside.thermal.Ventilated;
import org.kilnside.thermal.Ventilated.How;

class OpeningNotesTest {
    /** The first of each language are the window's own buttons. */
    @ParameterizedTest
    @CsvSource({
        "Bung out, BUNG_OUT",
        "Vent on, VENT_ON",
        "Lid propped, LID_PROPPED",
        "Door ajar, LID_PROPPED",
        "Prop eruit, BUNG_OUT",
        "Afzuiging aan, VENT_ON",
        "Deksel op kier, LID_PROPPED",
        "Deur op kier, LID_PROPPED",
        "Stopfen raus, BUNG_OUT",
        "Abzug an, VENT_ON",
        "Deckel hoch, LID_PROPPED",
        "Tür angelehnt, LID_PROPPED",
        "pulled both bungs, BUNG_OUT",
        "cracked the lid 2 cm, LID_PROPPED",
        "lid shut again, SHUT",
        "bung back in, SHUT",
        "deksel dicht, SHUT",
        "Deckel wieder zu, SHUT",
        "fan off, SHUT",
    })
    void whatThePotterDidIsHeardInThreeLanguages(String note, How how) {
        assertThat(OpeningNotes.how(note)).hasValue(how);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "Cone seen: 6 at three o'clock",
                "did not open the lid",
                "will crack the lid tomorrow",
                "no bung out yet",
                "the cat is on the kiln",
                "invented a glaze",
                "Noch nicht: Deckel hoch",
            })
    void whatSaysNoSuchThingOrThatItWasNotDoneIsNotTakenForIt(String note) {
        assertThat(OpeningNotes.how(note)).isEmpty();
    }

    @Test
    void onlyNotesCountAndTheyKeepTheirTime() {
        assertThat(OpeningNotes.in(List.of(
                        FiringEvent.of(60_000, Kind.NOTE, "Bung out"),
                        FiringEvent.of(70_000, Kind.SENSOR_FAULT, "lid propped"),
                        FiringEvent.of(90_000, Kind.NOTE, "Lid propped"))))
                .containsExactly(new Ventilated(60, How.BUNG_OUT), new Ventilated(90, How.LID_PROPPED));
    }
}

package org.kilnside.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.kilnside.files.SaidByCopy;
import org.kilnside.files.SaidByCopy.What;

class OutboxTest {
    private final Outbox outbox = new Outbox("bedroom");

    private void says(What what, String text, long nowMs) {
        outbox.add(what, Optional.of(text), OptionalInt.empty(), nowMs);
    }

    private List<String> goes(int wire, long nowMs) {
        List<String> gone = new ArrayList<>();
        Optional<SaidByCopy> next;
        while ((next = outbox.next(wire, nowMs)).isPresent()) {
            gone.add(next.get().number() + " " + next.get().text().orElseThrow() + " "
                    + next.get().ageMs());
        }
        return gone;
    }

    @Test
    void whatIsSaidGoesOverAWireOnceAndOverTheNextAgainUntilItIsTakenDown() {
        says(What.NOTE, "bung in", 1_000);
        says(What.NOTE, "vent off", 2_000);
        assertThat(goes(1, 2_000)).containsExactly("1 bung in 1000", "2 vent off 0");
        assertThat(goes(1, 3_000)).isEmpty();
        outbox.taken(1);
        assertThat(goes(2, 62_000)).containsExactly("2 vent off 60000");
        outbox.taken(2);
        assertThat(goes(3, 63_000)).isEmpty();
    }

    @Test
    void whatHasNotArrivedAfterAMomentIsSaidToWait() {
        says(What.NOTE, "bung in", 0);
        assertThat(outbox.waiting(1_000)).isZero();
        assertThat(outbox.waiting(5_000)).isEqualTo(1);
        outbox.taken(1);
        assertThat(outbox.waiting(5_000)).isZero();
    }

    @Test
    void aNoteWaitsTheWholeNightButThatTheFiringEndsIsNotSaidAnHourLater() {
        says(What.NOTE, "bung in", 0);
        says(What.FIRING_ENDS, "", 0);
        assertThat(goes(1, 3_600_000)).containsExactly("1 bung in 3600000");
        assertThat(outbox.tooLate(3_600_000)).isEqualTo(1);
        assertThat(outbox.tooLate(3_600_000 + 700_000)).as("told long enough").isZero();
    }

    @Test
    void aRecorderThatTakesNothingMoreLeavesItUnsaidAndThatIsTold() {
        says(What.NOTE, "bung in", 0);
        says(What.NOTE, "vent off", 0);
        outbox.giveUp(10_000);
        assertThat(outbox.waiting(10_000)).isZero();
        assertThat(outbox.tooLate(10_000)).isEqualTo(2);
    }
}

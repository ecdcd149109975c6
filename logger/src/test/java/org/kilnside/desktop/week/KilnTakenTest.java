package org.kilnside.desktop.week;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.kilnside.session.Connection;
import org.kilnside.wording.SampleSnapshots;

class KilnTakenTest {
    private static final List<WeekShelf.KilnChoice> KILNS = List.of(new WeekShelf.KilnChoice("tall-drum", "Tall Drum"));

    @Test
    void aKilnThatCoolsIsTakenUntilTheLateEndOfItsForecast() {
        KilnTaken taken = KilnTaken.of(SampleSnapshots.coolingForecast(), "tall-drum", KILNS);
        assertThat(taken.isFired()).isTrue();
        assertThat(taken.until().orElseThrow()).isAfter(SampleSnapshots.BEGAN);
    }

    @Test
    void anotherKilnIsFree() {
        assertThat(KilnTaken.of(SampleSnapshots.coolingForecast(), "small-box", KILNS))
                .isEqualTo(KilnTaken.FREE);
    }

    @Test
    void soIsOneThatIsNotLit() {
        assertThat(KilnTaken.of(SampleSnapshots.nothingYet(Connection.State.CONNECTING), "tall-drum", KILNS))
                .isEqualTo(KilnTaken.FREE);
    }

    @Test
    void aKilnWhoseTimeRunsFasterIsNoRealOne() {
        SampleSnapshots.Moment moment = new SampleSnapshots.Moment();
        moment.speed = 600;
        assertThat(KilnTaken.of(moment.build(), "tall-drum", KILNS)).isEqualTo(KilnTaken.FREE);
    }

    @Test
    void whereNobodyCanSayWhenItIsCoolThatIsLeftOpen() {
        KilnTaken taken = KilnTaken.of(SampleSnapshots.heating(), "Tall Drum", KILNS);
        assertThat(taken.isFired()).isTrue();
        assertThat(taken.until()).isEmpty();
        assertThat(taken.isOtherThan(KilnTaken.FREE)).isTrue();
    }
}

package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.kilnside.thermal.Ventilated;

/** When the kiln model is asked, and what it is told of bung and lid. */
class ForecastsTest {
    private final HandFiring firing = new HandFiring();
    private final FiringWatch watch = firing.watch;
    private double nowC = 20;

    private void go(double toC, int seconds) {
        firing.ramp(nowC, toC, seconds);
        nowC = toC;
    }

    @Test
    void aMinuteAfterTheLastItIsAskedAgainAndNotBefore() {
        go(900, 6_000);
        assertThat(watch.takeForecastRequest()).isPresent();
        go(902, 30);
        assertThat(watch.takeForecastRequest()).isEmpty();
        go(905, 31);
        assertThat(watch.takeForecastRequest()).isPresent();
    }

    @Test
    void aNoteThatTheBungIsOutIsTakenIntoTheForecastAtOnce() {
        go(1000, 8_000);
        go(400, 9_000);
        assertThat(watch.takeForecastRequest().orElseThrow().ventilated()).isEmpty();
        go(399, 10);
        watch.note("Bung out", Duration.ZERO);
        List<Ventilated> told = watch.takeForecastRequest().orElseThrow().ventilated();
        assertThat(told).hasSize(1);
        assertThat(told.get(0).how()).isEqualTo(Ventilated.How.BUNG_OUT);
        assertThat(told.get(0).sinceS()).isBetween(17_005.0, 17_012.0);
        go(398, 10);
        watch.note("looked at the cones", Duration.ZERO);
        assertThat(watch.takeForecastRequest())
                .as("a note that says no such thing")
                .isEmpty();
    }
}

package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.thermal.Ventilated;

/** When the kiln model is asked, and what it is told of bung and lid. */
class ForecastsTest {
    private final HandClock clock = new HandClock();
    private final FiringWatch watch = new FiringWatch(
            new BookInMemory(),
            clock,
            FiringSettings.of(Optional.of("Tall Drum"), Optional.empty(), Optional.empty()),
            "serial:/dev/ttyUSB0",
            1,
            Host.UNKNOWN);
    private long uptimeMs = 1_000;
    private double nowC = 20;

    private void go(double toC, int seconds) {
        double fromC = nowC;
        for (int i = 1; i <= seconds; i++) {
            clock.forwardMs(1_000);
            uptimeMs += 1_000;
            nowC = fromC + (toC - fromC) * i / seconds;
            watch.reading(Arrivals.measured(uptimeMs, clock.monotonicMs(), nowC));
        }
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

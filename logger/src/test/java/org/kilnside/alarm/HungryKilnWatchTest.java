package org.kilnside.alarm;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.ControllerReport;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;

class HungryKilnWatchTest {
    private static final long MINUTE_MS = 60_000;

    /** A line a minute, full output told on each, a set-point that climbs by 100 K/h. */
    private static boolean rings(double kPerHour) {
        Beats beats = new Beats();
        HungryKilnWatch watch = new HungryKilnWatch();
        boolean rang = false;
        for (int minute = 0; minute < 60; minute++) {
            double wantedC = 16 + minute * 100 / 60.0;
            ControllerReport report = new ControllerReport(
                    Optional.of(Share.ALL), Optional.of(Temperature.ofCelsius(wantedC)), OptionalInt.empty());
            if (beats.add(minute * MINUTE_MS, 15 + minute * kPerHour / 60, report)) {
                rang |= watch.look(beats, Optional.empty()).isPresent();
            }
        }
        return rang;
    }

    @Test
    void aNumberThatKeepsToItsSetPointIsRightHoweverFullTheOutputReads() {
        assertThat(rings(100)).isFalse();
    }

    @Test
    void aNumberThatLagsBehindAtFullOutputIsDoubted() {
        assertThat(rings(40)).isTrue();
    }
}

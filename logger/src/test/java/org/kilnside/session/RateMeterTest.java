package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;

class RateMeterTest {
    @Test
    void aStraightRampGivesItsRateOverEveryWindow() {
        Trace.Builder curve = new Trace.Builder();
        RateMeter meter = new RateMeter();
        Snapshot.Rates rates = Snapshot.Rates.UNKNOWN;
        for (int s = 0; s <= 3_700; s++) {
            curve.add(s * 1_000L, 20 + s * 150 / 3_600.0);
            rates = meter.after(curve.view());
        }
        assertThat(rates.oneMinute().orElseThrow().kelvinPerHour()).isCloseTo(150, within(1e-6));
        assertThat(rates.tenMinutes().orElseThrow().kelvinPerHour()).isCloseTo(150, within(1e-6));
        assertThat(rates.sixtyMinutes().orElseThrow().kelvinPerHour()).isCloseTo(150, within(1e-6));
    }

    @Test
    void aWindowThatIsNotFullYetHasNoRate() {
        Trace.Builder curve = new Trace.Builder();
        for (int s = 0; s <= 120; s++) {
            curve.add(s * 1_000L, 20);
        }
        Snapshot.Rates rates = new RateMeter().after(curve.view());
        assertThat(rates.oneMinute()).isPresent();
        assertThat(rates.tenMinutes()).isEmpty();
        assertThat(rates.sixtyMinutes()).isEmpty();
    }

    @Test
    void quantisationAndNoiseDoNotShowInTheTenMinuteRate() {
        Random random = new Random(5);
        Trace.Builder curve = new Trace.Builder();
        for (int s = 0; s <= 900; s++) {
            double noisy = 500 + s * 100 / 3_600.0 + random.nextGaussian();
            curve.add(s * 1_000L, Math.rint(noisy * 4) / 4);
        }
        double rate =
                new RateMeter().after(curve.view()).tenMinutes().orElseThrow().kelvinPerHour();
        // Slope error of 600 readings with 1 °C noise: sqrt(12/600)/600 s ≈ 0.85 °C/h (independent: least squares
        // theory).
        assertThat(rate).isCloseTo(100, within(4.0));
    }
}

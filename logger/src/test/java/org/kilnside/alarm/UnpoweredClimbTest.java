package org.kilnside.alarm;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.ControllerReport;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;

/** Heat that goes on against heat that is on its way; curves and outputs drawn by hand. */
class UnpoweredClimbTest {
    private static final double OFF_FROM_S = 1800;

    /** Seconds after the output came to nothing at which it is seen; −1 = never within a quarter of an hour. */
    private static long seenAfterS(DoubleUnaryOperator celsiusAfterS, DoubleUnaryOperator output) {
        Beats beats = new Beats();
        UnpoweredClimb climb = new UnpoweredClimb();
        for (long s = 0; s < OFF_FROM_S + 900; s += 2) {
            double celsius = s < OFF_FROM_S ? 500 + s / 36.0 : 550 + celsiusAfterS.applyAsDouble(s - OFF_FROM_S);
            ControllerReport report = new ControllerReport(
                    Optional.of(new Share(output.applyAsDouble(s))),
                    Optional.of(Temperature.ofCelsius(550)),
                    OptionalInt.empty());
            if (beats.add(s * 1000, celsius + 0.1 * Math.sin(s), report) && climb.look(beats, 0)) {
                return Math.round(s - OFF_FROM_S);
            }
        }
        return -1;
    }

    private static double half(double s) {
        return s < OFF_FROM_S ? 0.5 : 0;
    }

    @Test
    void aClimbThatGoesOnWithoutPowerIsSeenInThreeMinutes() {
        assertThat(seenAfterS(s -> s / 36.0, UnpoweredClimbTest::half)).isBetween(100L, 230L);
        assertThat(seenAfterS(s -> s / 9.0, UnpoweredClimbTest::half)).isBetween(100L, 180L);
    }

    @Test
    void anOvershootDiesAway() {
        assertThat(seenAfterS(s -> 8 * (1 - Math.exp(-s / 60)), UnpoweredClimbTest::half))
                .isEqualTo(-1);
        assertThat(seenAfterS(s -> 12 * Math.exp(-s / 200) - 12, UnpoweredClimbTest::half))
                .isEqualTo(-1);
    }

    @Test
    void pausesOfARelayThatIsReportedAsItStandsAreNone() {
        // On for half a minute in each three, all along, while the kiln climbs as planned.
        assertThat(seenAfterS(s -> s / 36.0, s -> s % 180 < 30 ? 1 : 0)).isEqualTo(-1);
    }
}

package org.kilnside.virtualkiln;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class AirTest {
    /** Published: air at 20 °C and 1013 hPa weighs 1.204 kg/m³ (any handbook). */
    @Test
    void airWeighsWhatHandbooksSay() {
        assertThat(Air.density(20)).isCloseTo(1.204, within(0.001));
    }

    /**
     * Independent: Churchill and Chu's equation for a vertical plate (Int. J. Heat Mass Transfer 18, 1975), air at the
     * film temperature of 60 °C: k 0.0285 W/(m K), ν 1.9e-5 m²/s, Pr 0.71. The simplified equations are good to 15 %.
     */
    @Test
    void freeConvectionAgreesWithTheFullEquation() {
        double rayleigh = 9.81 / 333 * 80 * Math.pow(0.5, 3) / (1.9e-5 * 1.9e-5) * 0.71;
        double nusselt = Math.pow(
                0.825 + 0.387 * Math.pow(rayleigh, 1 / 6.0) / Math.pow(1 + Math.pow(0.492 / 0.71, 9 / 16.0), 8 / 27.0),
                2);
        double full = nusselt * 0.0285 / 0.5;
        assertThat(Air.Attitude.VERTICAL.freeConvection(100, 20, 0.5) / full).isCloseTo(1, within(0.15));
    }

    /** Independent: Bernoulli through one narrow hole, the other being so wide that it does not count. */
    @Test
    void aDraughtObeysBernoulliAtTheNarrowHole() {
        double pressure = 9.80665 * 0.5 * (Air.density(10) - Air.density(800));
        double expected = 0.6 * 1e-4 * Math.sqrt(2 * Air.density(10) * pressure);
        assertThat(Air.draught(800, 10, 0.5, 1e-4, 1)).isCloseTo(expected, within(1e-4 * expected));
    }

    @Test
    void nothingDrawsInAColdKiln() {
        assertThat(Air.draught(10, 10, 0.5, 1e-4, 1e-4)).isZero();
        assertThat(Air.draught(5, 10, 0.5, 1e-4, 1e-4)).isZero();
        assertThat(Air.exchange(5, 10, 0.01, 0.02)).isZero();
    }

    /** Published: steam tables: 2.339 kPa at 20 °C, 47.39 at 80, 101.33 at 100, 476.1 at 150 °C. */
    @Test
    void waterBoilsWhereSteamTablesSay() {
        assertThat(Moisture.saturationPa(20)).isCloseTo(2339, within(30.0));
        assertThat(Moisture.saturationPa(80)).isCloseTo(47_390, within(300.0));
        assertThat(Moisture.saturationPa(100)).isCloseTo(101_330, within(300.0));
        assertThat(Moisture.saturationPa(150)).isCloseTo(476_100, within(5000.0));
    }

    /** Independent: h (T₁ − T₂) with the exact coefficient is σ (T₁⁴ − T₂⁴). */
    @Test
    void radiationIsStefansLaw() {
        double expected = 5.670374419e-8 * (Math.pow(1273.15, 4) - Math.pow(293.15, 4));
        assertThat(Radiation.coefficient(1000, 20) * 980).isCloseTo(expected, within(1e-6 * expected));
        assertThat(Radiation.greyGap(1, 1)).isEqualTo(1);
        assertThat(Radiation.greyGap(0.8, 0.8)).isCloseTo(2 / 3.0, within(1e-12));
    }
}

package org.kilnside.sensor;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kilnside.quantity.Temperature;

class ThermometerTest {
    private static final Probe K_31855 = new Probe(ThermocoupleType.K, Amplifier.MAX31855);
    private static final Temperature ROOM = Temperature.ofCelsius(25);

    /** Independent: worked out by hand from the printed tables: 1222 °C shown with the board at 25 °C is about 1243 °C. */
    @Test
    void aMax31855ShowingTwelveTwentyTwoIsTrulyACompleteConeHotter() {
        assertThat(celsius(K_31855, 1222, 25)).isCloseTo(1243, within(0.6));
        assertThat(celsius(K_31855, 1060, 25)).isCloseTo(1063, within(0.6));
        assertThat(celsius(K_31855, 600, 25)).isCloseTo(596, within(0.6));
    }

    /** Published: 41.276 µV/°C and 25 °C at the board: V = 0.041276 · (1000 − 25), plus the printed 1.000 mV. */
    @Test
    void addsTheColdJunctionsEmfAndNotItsTemperature() {
        double emfMv = 0.041276 * (1000 - 25) + 1.000;
        assertThat(celsius(K_31855, 1000, 25))
                .isCloseTo(ReferenceFunction.of(ThermocoupleType.K).temperatureC(emfMv), within(0.02));
    }

    /** Published: the data sheet's raw word 0x01501790 reads 21.00 °C with the chip at 23.5625 °C. */
    @Test
    void atTheBoardsOwnTemperatureThereIsNothingToCorrect() {
        assertThat(celsius(new Probe(ThermocoupleType.N, Amplifier.MAX31855), 23.5, 23.5))
                .isCloseTo(23.5, within(1e-9));
    }

    @ParameterizedTest
    @EnumSource(
            value = ThermocoupleType.class,
            names = {"B"},
            mode = EnumSource.Mode.EXCLUDE)
    void whatTheChipSaysOfATemperatureIsTurnedBackIntoIt(ThermocoupleType type) {
        Probe probe = new Probe(type, Amplifier.MAX31855);
        Thermometer thermometer = Thermometer.of(probe);
        ChipModel chip = ChipModel.of(probe);
        double stepMv = probe.amplifier().nominalMvPerK(type).orElseThrow() * 0.25;
        ReferenceFunction function = ReferenceFunction.of(type);
        for (double tip = 0; tip < function.highest().celsius() - 20; tip += 13) {
            for (double board : new double[] {-10, 0, 25, 60.25}) {
                RawSignal signal = chip.signal(Temperature.ofCelsius(tip), Temperature.ofCelsius(board));
                if (signal.thermocouple().getAsInt() == 7200) {
                    continue; // types S and R end where the chip does, at a shown 1800 °C
                }
                double halfAStepC = 0.51 * stepMv / function.sensitivityMvPerK(tip) + 0.06;
                assertThat(thermometer.temperature(signal).orElseThrow().celsius())
                        .as("type %s, tip %s °C, board %s °C", type, tip, board)
                        .isCloseTo(tip, within(halfAStepC));
            }
        }
    }

    @Test
    void aLinearisingChipsNumberIsTakenAsItIs() {
        Probe probe = new Probe(ThermocoupleType.S, Amplifier.MAX31856);
        RawSignal signal = ChipModel.of(probe).signal(Temperature.ofCelsius(1222), ROOM);
        assertThat(signal.thermocouple()).hasValue(1222 * 128);
        assertThat(Thermometer.of(probe).temperature(signal)).contains(Temperature.ofCelsius(1222));
        assertThat(Thermometer.of(probe).coldJunction(signal)).contains(ROOM);
    }

    /** Maxim 19-2235: full scale 4095 × 0.25 °C = 1023.75 °C; no cold junction in the frame. */
    @Test
    void aMax6675IsCorrectedForAnAssumedBoardTemperatureAndSaturates() {
        Probe probe = new Probe(ThermocoupleType.K, Amplifier.MAX6675);
        RawSignal hot = ChipModel.of(probe).signal(Temperature.ofCelsius(1200), ROOM);
        assertThat(hot.thermocouple()).hasValue(4095);
        assertThat(hot.coldJunction()).isEmpty();
        RawSignal signal = ChipModel.of(probe).signal(Temperature.ofCelsius(900), ROOM);
        assertThat(Thermometer.of(probe).temperature(signal).orElseThrow().celsius())
                .isCloseTo(900, within(0.15));
        assertThat(Thermometer.of(probe).coldJunction(signal)).isEmpty();
        assertThat(Thermometer.of(probe, Temperature.ofCelsius(45))
                        .temperature(signal)
                        .orElseThrow()
                        .celsius())
                .isCloseTo(900, within(0.2));
    }

    @Test
    void givesNothingWhereTheSignalIsUnknownFaultedOrImpossible() {
        Thermometer thermometer = Thermometer.of(K_31855);
        assertThat(thermometer.temperature(new RawSignal(OptionalInt.empty(), OptionalInt.of(400), 0)))
                .isEmpty();
        assertThat(thermometer.temperature(new RawSignal(OptionalInt.of(4000), OptionalInt.of(400), 1)))
                .isEmpty();
        assertThat(thermometer.temperature(RawSignal.of(4 * 1700, 400))).isEmpty();
        assertThat(thermometer.temperature(RawSignal.of(4 * -260, 400))).isEmpty();
        assertThat(thermometer.temperature(RawSignal.of(4000, 16 * 3000))).isEmpty();
    }

    @Test
    void noSuchChipIsMadeForTypeB() {
        Probe probe = new Probe(ThermocoupleType.B, Amplifier.MAX31855);
        assertThat(Thermometer.of(probe).temperature(RawSignal.of(4000, 400))).isEmpty();
        assertThatThrownBy(() -> ChipModel.of(probe))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("no MAX31855 is made for type B");
    }

    @Test
    void knowsWhatAControllerShowsThatDoesNotCorrect() {
        Thermometer thermometer = Thermometer.of(K_31855);
        Temperature shown =
                thermometer.shownAt(Temperature.ofCelsius(1222), ROOM).orElseThrow();
        assertThat(shown.celsius()).isCloseTo(1203, within(1.0));
        assertThat(thermometer.behind(shown, ROOM).orElseThrow().celsius()).isCloseTo(1222, within(1e-9));
        assertThat(thermometer.shown(RawSignal.of(4888, 400))).contains(Temperature.ofCelsius(1222));
        assertThat(thermometer.shownAt(Temperature.ofCelsius(1400), ROOM)).isEmpty();
    }

    @Test
    void whereTheControllerGivesDegreesTheWireIsNotAsked() {
        assertThat(Thermometer.of(Probe.UNKNOWN)
                        .temperature(new RawSignal(OptionalInt.of(140_000), OptionalInt.empty(), 0)))
                .isEqualTo(Optional.of(Temperature.ofCelsius(1400)));
    }

    private static double celsius(Probe probe, double shownC, double boardC) {
        return Thermometer.of(probe)
                .temperature(RawSignal.of((int) (shownC * 4), (int) (boardC * 16)))
                .orElseThrow()
                .celsius();
    }
}

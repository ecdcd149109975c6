package org.kilnside.sensor;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class ReferenceFunctionTest {
    /** Published: NIST Monograph 175 tables, printed to 0.001 mV, so half a unit of the last digit. */
    @Test
    void reproducesEveryPrintedCellWithinHalfItsLastDigit() {
        List<PrintedTables.Cell> cells = PrintedTables.cells();
        assertThat(cells).hasSize(12_026);
        for (PrintedTables.Cell cell : cells) {
            assertThat(ReferenceFunction.of(cell.type()).emfMv(cell.temperatureC()))
                    .as("type %s at %d °C", cell.type(), cell.temperatureC())
                    .isCloseTo(cell.emfMv(), within(0.000_500_1));
        }
    }

    /** Published: the error bands printed beside the approximate inverse functions of NIST Monograph 175. */
    @Test
    void theExactInverseLiesWithinThePrintedErrorBandOfThePublishedOne() {
        for (PrintedTables.Inverse printed : PrintedTables.inverses()) {
            ReferenceFunction function = ReferenceFunction.of(printed.type());
            for (int i = 0; i <= 500; i++) {
                double fromC =
                        Math.max(printed.fromC(), function.lowestInvertible().celsius());
                double trueC = fromC + (printed.toC() - fromC) * i / 500;
                double error = printed.temperatureC(function.emfMv(trueC)) - trueC;
                assertThat(error)
                        .as("type %s piece %d at %.2f °C", printed.type(), printed.segment(), trueC)
                        .isBetween(roundedDown(printed.lowestErrorC()), roundedUp(printed.highestErrorC()));
            }
        }
    }

    /** Independent: the way there and back closes; no source is needed. */
    @ParameterizedTest
    @EnumSource(ThermocoupleType.class)
    void thereAndBackClosesToABillionthOfADegree(ThermocoupleType type) {
        ReferenceFunction function = ReferenceFunction.of(type);
        double lowest = function.lowestInvertible().celsius();
        double highest = function.highest().celsius();
        Random random = new Random(90);
        for (int i = 0; i < 100_000; i++) {
            double trueC = lowest + (highest - lowest) * random.nextDouble();
            assertThat(function.temperatureC(function.emfMv(trueC)))
                    .as("type %s at %s °C", type, trueC)
                    .isCloseTo(trueC, within(1e-9));
        }
    }

    /** Independent: the published pieces jump by up to 8e-8 mV at a join, 1.2e-6 °C on type J at 760 °C. */
    @Test
    void nearAJoinTheWayBackIsOffByNoMoreThanThePublishedPiecesDisagree() {
        for (ThermocoupleType type : ThermocoupleType.values()) {
            ReferenceFunction function = ReferenceFunction.of(type);
            for (double join : new double[] {0, 630.615, 760, 1064.18, 1664.5}) {
                if (join < function.lowestInvertible().celsius()
                        || join > function.highest().celsius() - 1) {
                    continue;
                }
                for (int i = -50; i <= 50; i++) {
                    double trueC = join + i * 1e-7;
                    assertThat(function.temperatureC(function.emfMv(trueC)))
                            .as("type %s at %s °C", type, trueC)
                            .isCloseTo(trueC, within(2e-6));
                }
                assertThat(function.temperatureC(function.emfMv(join))).isCloseTo(join, within(1e-9));
            }
        }
    }

    @ParameterizedTest
    @EnumSource(ThermocoupleType.class)
    void theInverseRisesWithTheVoltageAllTheWay(ThermocoupleType type) {
        ReferenceFunction function = ReferenceFunction.of(type);
        double from = function.lowestInvertibleMv();
        double to = function.highestMv();
        double last = Double.NEGATIVE_INFINITY;
        for (int i = 0; i <= 50_000; i++) {
            double temperatureC = function.temperatureC(from + (to - from) * i / 50_000);
            assertThat(temperatureC).isGreaterThanOrEqualTo(last);
            last = temperatureC;
        }
    }

    /** Independent: the slope against a central difference. */
    @ParameterizedTest
    @EnumSource(ThermocoupleType.class)
    void theSensitivityIsTheSlope(ThermocoupleType type) {
        ReferenceFunction function = ReferenceFunction.of(type);
        for (double at = function.lowest().celsius() + 1;
                at < function.highest().celsius() - 1;
                at += 7.3) {
            double difference = (function.emfMv(at + 0.01) - function.emfMv(at - 0.01)) / 0.02;
            assertThat(function.sensitivityMvPerK(at)).isCloseTo(difference, within(2e-7));
        }
    }

    /** Published: K 41.276 mV at 1000 °C, S 9.587 mV, B 4.834 mV (NIST Monograph 175). */
    @Test
    void turnsAPrintedVoltageBackIntoItsDegree() {
        assertThat(ReferenceFunction.of(ThermocoupleType.K).temperatureC(41.276))
                .isCloseTo(1000, within(0.013));
        assertThat(ReferenceFunction.of(ThermocoupleType.S).temperatureC(9.587)).isCloseTo(1000, within(0.044));
        assertThat(ReferenceFunction.of(ThermocoupleType.B).temperatureC(4.834)).isCloseTo(1000, within(0.055));
    }

    /** Published: the last cells, K 54.886 mV at 1372 °C and −6.458 mV at −270 °C, are rounded outside the function. */
    @Test
    void takesThePrintedRangeEndsThoughTheyAreRoundedOutsideTheFunction() {
        for (PrintedTables.Cell cell : PrintedTables.cells()) {
            ReferenceFunction function = ReferenceFunction.of(cell.type());
            if (cell.temperatureC() >= function.lowestInvertible().celsius()) {
                assertThat(function.coversEmf(cell.emfMv()))
                        .as("type %s %s mV", cell.type(), cell.emfMv())
                        .isTrue();
                assertThat(function.temperatureC(cell.emfMv()))
                        .isBetween(
                                function.lowestInvertible().celsius(),
                                function.highest().celsius());
            }
        }
    }

    @Test
    void saysWhatItsRangeIsWhenAskedBeyondIt() {
        ReferenceFunction k = ReferenceFunction.of(ThermocoupleType.K);
        assertThatThrownBy(() -> k.emfMv(1400))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("type K is defined from -270 to 1372 °C, found 1400 °C");
        assertThatThrownBy(() -> k.temperatureC(60))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("type K gives -6.458 to 54.886 mV (-270 to 1372 °C), found 60 mV");
        assertThatThrownBy(() -> k.emfMv(Double.NaN)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> k.temperatureC(Double.NaN)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void refusesAVoltageOfTypeBThatTwoTemperaturesGive() {
        ReferenceFunction b = ReferenceFunction.of(ThermocoupleType.B);
        assertThat(b.lowestInvertible().celsius()).isEqualTo(50);
        assertThat(b.emfMv(20)).isCloseTo(-0.003, within(0.0005));
        assertThatThrownBy(() -> b.temperatureC(-0.002)).isInstanceOf(IllegalArgumentException.class);
        assertThat(b.temperatureC(b.emfMv(50.5))).isCloseTo(50.5, within(1e-9));
    }

    private static double roundedDown(double printed) {
        return printed - halfUnit(printed);
    }

    private static double roundedUp(double printed) {
        return printed + halfUnit(printed);
    }

    /** Half of the last digit the band is printed with: 0.02 → 0.005, 0.0002 → 0.00005. */
    private static double halfUnit(double printed) {
        double unit = 1;
        while (Math.abs(printed / unit - Math.rint(printed / unit)) > 1e-9) {
            unit /= 10;
        }
        return unit / 2;
    }
}

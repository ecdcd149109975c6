package org.kilnside.files;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.StringReader;
import java.time.ZoneOffset;
import java.util.function.IntToDoubleFunction;
import org.junit.jupiter.api.Test;

class OutputScaleTest {
    @Test
    void anOutputUpTo255IsNoPercentageAlsoWhileTheKilnStillClimbs() {
        Log log = climbing(800, minute -> Math.min(255, 10 + minute * 0.4));
        assertThat(log.trace().output(100)).isEmpty();
        assertThat(log.report().ignoredCells()).isZero();
        assertThat(log.report().sentence().orElseThrow())
                .contains("the column output_pct (")
                .contains(" of 391 numbers above 100, the highest 166 in line 392; expected per cent from 0 to 100;"
                        + " write it in per cent) was not used");
    }

    @Test
    void anOutputUpTo1000IsNoPercentage() {
        Log log = climbing(1200, minute -> Math.min(1000, 20 + minute * 2));
        assertThat(log.trace().output(10)).isEmpty();
        assertThat(log.report().sentence().orElseThrow()).contains("the highest 1000 in line ");
    }

    @Test
    void anOutputNeverAboveTenWhileTheKilnBecomesHotIsNoPercentage() {
        Log log = climbing(900, minute -> Math.min(10, 1 + minute * 0.03));
        assertThat(log.trace().output(10)).isEmpty();
        assertThat(log.report().sentence().orElseThrow())
                .contains("the column output_pct (never above 10 while the kiln climbs to 896 °C; expected per cent"
                        + " from 0 to 100; write it in per cent, or, if it is, check the sensor) was not used");
    }

    @Test
    void aBrokenCellDoesNotHideAnotherScale() {
        assertThat(climbing(900, minute -> minute == 50 ? 6553.5 : Math.min(10, 1 + minute * 0.03))
                        .trace()
                        .output(10))
                .isEmpty();
    }

    @Test
    void aSoftStartOnLittleIsPerCent() {
        Log log = climbing(400, minute -> Math.min(10, 1 + minute * 0.05));
        assertThat(log.trace().output(0)).hasValue(0.01);
        assertThat(log.report().sentence()).isEmpty();
    }

    @Test
    void theOddBrokenCellDoesNotCostTheColumn() {
        Log log = climbing(1200, minute -> minute == 100 || minute == 300 ? 6553.5 : 40);
        assertThat(log.trace().output(99)).hasValue(0.4);
        assertThat(log.trace().output(100)).isEmpty();
        assertThat(log.report().sentence().orElseThrow())
                .contains("2 cells count as not given: the first is output_pct in line 102, found \"6553.5\"");
    }

    @Test
    void aControllerThatRoundsFullOutputUpStillWritesPerCent() {
        Log log = climbing(1200, minute -> minute < 300 ? 40 : 100.4);
        assertThat(log.trace().output(99)).hasValue(0.4);
    }

    /** From 20 °C, two kelvin a minute. */
    private static Log climbing(int toC, IntToDoubleFunction percent) {
        StringBuilder text = new StringBuilder("elapsed_s,temp_c,output_pct\n");
        for (int minute = 0; 20 + 2 * minute <= toC; minute++) {
            text.append(minute * 60).append(',').append(20 + 2 * minute).append(',');
            text.append(percent.applyAsDouble(minute)).append('\n');
        }
        try {
            return CsvLogs.read(new StringReader(text.toString()), "log.csv", ZoneOffset.UTC);
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }
}

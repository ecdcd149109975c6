package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.kilnside.firing.Kiln;
import org.kilnside.quantity.Temperature;
import org.kilnside.session.LiveForecast;
import org.kilnside.session.Snapshot;
import org.kilnside.thermal.Forecast;
import org.kilnside.thermal.Forecast.Reaches;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.Language;
import org.kilnside.wording.Opening;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.SampleSnapshots;
import org.kilnside.wording.TemperatureUnit;
import org.kilnside.wording.Words;

/** The line in a terminal that is too narrow for all of it: no time stands there without its doubt or its interval. */
class StatusLineTest {
    private static final Words WORDS = Words.of(
            Language.ENGLISH,
            new Preferences(
                    TemperatureUnit.CELSIUS, ClockStyle.TWENTY_FOUR_HOURS, ZoneId.of("Europe/Amsterdam"), Opening.LID));

    /** At 6:17 h of a firing begun at 7:30: the top is foreseen for 18:18, 18:06 to 18:30. */
    private static String line(Reaches reaches, int columns) {
        Snapshot heating = SampleSnapshots.heating();
        Forecast answer = new Forecast(
                22_608,
                Forecast.Stage.HEATING,
                Temperature.ofCelsius(12),
                List.of(),
                Optional.of(new Forecast.Arrival(
                        Temperature.ofCelsius(998),
                        reaches,
                        Optional.of(new Forecast.When(38_880, 38_160, 39_600)),
                        Optional.empty())),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                List.of());
        LiveForecast live = new LiveForecast(
                heating.curve().elapsedMs(heating.curve().size() - 1),
                Kiln.Thresholds.COMMON_PRACTICE,
                Optional.of(answer),
                List.of(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty());
        Snapshot snapshot = heating.with(
                heating.connection(),
                heating.latest(),
                heating.curve(),
                heating.findings().with(Optional.of(live)));
        StringWriter out = new StringWriter();
        PrintWriter printer = new PrintWriter(out);
        new StatusLine(printer, WORDS, true, columns).show(snapshot, SampleSnapshots.HOST_MS);
        printer.flush();
        String all = out.toString();
        return all.substring(all.lastIndexOf('\r') + 1).stripTrailing().replace('\u00a0', ' ');
    }

    @ParameterizedTest
    @ValueSource(ints = {40, 60, 80, 100, 120, 140, 200})
    void aTopInDoubtIsNeverToldWithoutItsDoubt(int columns) {
        String line = line(Reaches.CANNOT_SAY_YET, columns);
        assertThat(line).hasSizeLessThan(columns);
        assertThat(line.contains("18:18")).isEqualTo(line.contains("that cannot be said yet."));
    }

    @Test
    void whereThereIsRoomTheDoubtedTopStandsThere() {
        assertThat(line(Reaches.CANNOT_SAY_YET, 200)).contains("998 °C expected at 18:18");
    }

    @Test
    void inEightyColumnsTheNumberIsLeftWhole() {
        assertThat(line(Reaches.CANNOT_SAY_YET, 80)).contains("°C (").doesNotContain("…");
    }

    @Test
    void whereTheSentenceDoesNotFitATopThatIsSureHasItsIntervalInstead() {
        int whole = line(Reaches.YES, 200).length();
        assertThat(line(Reaches.YES, whole + 1)).endsWith("998 °C expected at 18:18.");
        assertThat(line(Reaches.YES, whole)).endsWith("Top, 998 °C 18:06–18:30").doesNotContain("…");
    }
}

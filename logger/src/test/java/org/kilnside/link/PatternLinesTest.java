package org.kilnside.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.kilnside.files.LinePattern;
import org.kilnside.files.LinePatternFiles;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.firing.Reading;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.session.Connection.State;
import org.kilnside.session.ReadingSource.Arrival;

class PatternLinesTest {
    private static final Path PATTERN = Path.of("..", "profiles", "line-patterns", "columns.toml");

    private final HandMovedClock clock = new HandMovedClock();
    private final Heard heard = new Heard();
    private final ScriptedPort port = new ScriptedPort(clock);

    private void run() {
        run(LinePatternFiles.read(PATTERN));
    }

    private void run(LinePattern pattern) {
        LinkSurroundings around = new LinkSurroundings(clock, clock, ProfileLibrary.starters(), false);
        LinkReader link = new LinkReader(
                "serial:/dev/ttyTEST?lines=columns.toml",
                port,
                around,
                (ears, lines) -> new PatternLines(pattern, ears, lines));
        port.afterTheLastStep = link::close;
        link.run(heard);
    }

    @Test
    void aControllersOwnLinesBecomeReadings() {
        port.says("0,20,20\n").says("5234,1043.2,1050,87\r\n5235,10").says("43.4,1050,80\r\n");
        run();

        assertThat(heard.arrivals).hasSize(2);
        Arrival first = heard.arrivals.get(0);
        assertThat(first.channels().get(0).temperature().orElseThrow().celsius())
                .isEqualTo(1043.2);
        assertThat(first.channels().get(0).raw().thermocouple()).isEqualTo(OptionalInt.of(104_320));
        assertThat(first.controller().output().orElseThrow().percent()).isEqualTo(87);
        assertThat(first.uptimeMs()).isEqualTo(OptionalLong.of(5_234_000));
        assertThat(heard.hellos).hasSize(1);
        assertThat(heard.states()).contains(State.RECEIVING);
    }

    /** Published: Maxim 19-5793, table 1, 41.276 µV/°C; IEC 60584-1, type K, 50.633 mV at 1250 °C and 1.000 mV at 25 °C. */
    @Test
    void theNumberOfAChipThatDoesNotLineariseIsCorrectedAndStandsInTheBookAsTheChipsCode() {
        double shown = 25 + (50.633 - 1.000) / 0.041276;
        port.says("0,20,20\n").says(String.format(java.util.Locale.ROOT, "5234,%.2f,1250,87%n", shown));
        run(LinePatternFiles.read(PATTERN).from(new Probe(ThermocoupleType.K, Amplifier.MAX31855)));

        Arrival arrival = heard.arrivals.get(0);
        assertThat(arrival.channels().get(0).raw().thermocouple())
                .isEqualTo(OptionalInt.of((int) Math.round(shown / 0.25)));
        assertThat(arrival.channels().get(0).temperature().orElseThrow().celsius())
                .isCloseTo(1250, within(0.3));
        assertThat(heard.hellos.get(0).probes()).containsExactly(new Probe(ThermocoupleType.K, Amplifier.MAX31855));
    }

    @Test
    void theFirstLineMayBeHalfAndIsNotTrusted() {
        port.says("43.2,1050,87\n").says("5235,1043.4,1050,80\n");
        run();

        assertThat(heard.arrivals).hasSize(1);
        assertThat(heard.last().counts().malformed()).isZero();
    }

    @Test
    void linesOfAnotherKindAreCountedAndAMegabyteWithoutAnEndIsOneOfThem() {
        port.says("\n").says("x\n").says("door open\n");
        for (int i = 0; i < 20; i++) {
            port.says("7".repeat(50_000));
        }
        port.says("\n").says("5235,1043.4,1050,80\n");
        run();

        assertThat(heard.arrivals).hasSize(1);
        assertThat(heard.last().counts().malformed()).isEqualTo(2);
    }

    @Test
    void aTornThermocoupleIsAMissingReading() {
        port.says("0,20,20,0\n").says("5235,nan,1050,80\n");
        run();

        assertThat(heard.arrivals.get(0).at(0)).isInstanceOf(Reading.Missing.class);
    }

    @Test
    void aClockThatFallsAfterAReopeningIsARestart() {
        port.says("0,20,20,0\n")
                .says("18000,800,1050,80\n")
                .ends()
                .silentFor(2_000)
                .says("0,799,1050,80\n")
                .says("1,799,1050,80\n")
                .ends();
        run();

        assertThat(heard.last().state()).isEqualTo(State.GIVEN_UP);
    }
}

package org.kilnside.files;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.StringReader;
import java.io.StringWriter;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Channel;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.Origin;
import org.kilnside.firing.Reading;
import org.kilnside.firing.Trace;
import org.kilnside.firing.WallClockLine;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.RawSignal;

class CsvLogWriterTest {
    @Test
    void whatIsWrittenReadsBackTheSame() throws IOException {
        Random random = new Random(3);
        Trace.Builder builder = new Trace.Builder();
        long at = 0;
        for (int i = 0; i < 2000; i++) {
            at += 1 + random.nextInt(5000);
            builder.add(
                    at,
                    random.nextBoolean() ? random.nextInt(5000) / 4.0 : 1300 * random.nextDouble(),
                    random.nextBoolean() ? OptionalDouble.of(random.nextInt(1001) / 1000.0) : OptionalDouble.empty(),
                    random.nextBoolean() ? OptionalDouble.of(random.nextInt(13000) / 10.0) : OptionalDouble.empty());
        }
        Trace trace = builder.view();
        for (Optional<Instant> start :
                List.of(Optional.<Instant>empty(), Optional.of(Instant.parse("2026-11-25T06:30:00.125Z")))) {
            StringWriter text = new StringWriter();
            try (CsvLogWriter writer = new CsvLogWriter(text, start.map(WallClockLine::from))) {
                writer.comment("Tall Drum\nbisque");
                writer.write(trace);
            }
            Log log = CsvLogs.read(new StringReader(text.toString()), "log", ZoneOffset.UTC);
            assertThat(log.startedAt()).isEqualTo(start);
            assertThat(log.trace().size()).isEqualTo(trace.size());
            for (int i = 0; i < trace.size(); i++) {
                assertThat(log.trace().elapsedMs(i)).isEqualTo(trace.elapsedMs(i));
                assertThat(log.trace().temperatureC(i)).isEqualTo(trace.temperatureC(i));
                assertThat(log.trace().output(i)).isEqualTo(trace.output(i));
                assertThat(log.trace().setpointC(i)).isEqualTo(trace.setpointC(i));
            }
        }
    }

    @Test
    void theTimeOfDayFollowsTheWallClockWhereTheControllersClockDrifts() throws IOException {
        StringWriter text = new StringWriter();
        WallClockLine line = new WallClockLine(Instant.parse("2026-11-25T06:30:00Z"), 1.005);
        try (CsvLogWriter writer = new CsvLogWriter(text, Optional.of(line))) {
            writer.write(new Trace.Builder().add(0, 20).add(36_000_000, 900).view());
        }
        // Ten hours by a clock that runs 0.5 % slow are 10 h 3 min (arithmetic).
        assertThat(text.toString())
                .contains("\n0,2026-11-25T06:30:00.000Z,20,")
                .contains("\n36000,2026-11-25T16:33:00.000Z,900,");
    }

    @Test
    void aFaultedReadingIsWrittenAsAHoleWithItsFaults() throws IOException {
        StringWriter text = new StringWriter();
        Channel good = new Channel(
                1,
                RawSignal.of(100, 400),
                Optional.of(Temperature.ofCelsius(25)),
                Optional.of(Temperature.ofCelsius(8.5)));
        Channel open = new Channel(
                1, new RawSignal(OptionalInt.empty(), OptionalInt.empty(), 5), Optional.empty(), Optional.empty());
        ControllerReport says = new ControllerReport(
                Optional.of(new Share(0.5)), Optional.of(Temperature.ofCelsius(600)), OptionalInt.of(2));
        try (CsvLogWriter writer = new CsvLogWriter(text, Optional.empty())) {
            writer.write(Reading.of(0, List.of(good), says, Origin.LIVE));
            writer.write(Reading.of(1250, List.of(open), ControllerReport.NONE, Origin.LIVE));
        }
        assertThat(text).hasToString("""
                elapsed_s,temp_c,output_pct,setpoint_c,cold_junction_c,segment,fault
                0,25,50,600,8.5,2,
                1.25,,,,,,open_circuit+short_to_supply
                """);
    }
}

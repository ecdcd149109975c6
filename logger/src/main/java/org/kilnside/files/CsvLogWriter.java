package org.kilnside.files;

import java.io.Closeable;
import java.io.IOException;
import java.io.Writer;
import java.math.BigDecimal;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeFormatterBuilder;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;
import org.kilnside.firing.Reading;
import org.kilnside.firing.Trace;
import org.kilnside.firing.WallClockLine;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.SensorFault;

/**
 * Writes a log as CSV that {@link CsvLogs} reads back to the last bit. A reading without a good temperature has an empty
 * one and, in the column {@code fault}, what the sensor reported.
 */
public final class CsvLogWriter implements Closeable {
    private static final DateTimeFormatter MILLISECONDS =
            new DateTimeFormatterBuilder().appendInstant(3).toFormatter(Locale.ROOT);

    private final Writer writer;
    private final Optional<WallClockLine> wallClock;
    private final StringBuilder row = new StringBuilder(96);

    /**
     * Writes the header.
     *
     * @param wallClock gives the instant of an elapsed time; empty leaves the column {@code time} out
     */
    public CsvLogWriter(Writer writer, Optional<WallClockLine> wallClock) throws IOException {
        this.writer = writer;
        this.wallClock = wallClock;
        writer.write(wallClock.isPresent() ? "elapsed_s,time," : "elapsed_s,");
        writer.write("temp_c,output_pct,setpoint_c,cold_junction_c,segment,fault\n");
    }

    /** Writes a comment line, which readers skip. */
    public void comment(String text) throws IOException {
        writer.write("# " + text.replaceAll("\\R", " ") + "\n");
    }

    /** Writes a reading's guiding channel. */
    public void write(Reading reading) throws IOException {
        Set<SensorFault> faults =
                reading instanceof Reading.Faulted faulted ? new TreeSet<>(faulted.faults()) : Set.of();
        write(
                reading.elapsedMs(),
                reading instanceof Reading.Measured ? celsius(reading.first().temperature()) : OptionalDouble.empty(),
                reading.controller().output().map(Share::fraction),
                celsius(reading.controller().setpoint()),
                celsius(reading.first().coldJunction()),
                reading.controller().segment(),
                faults);
    }

    /** Writes a whole curve. */
    public void write(Trace trace) throws IOException {
        for (int i = 0; i < trace.size(); i++) {
            OptionalDouble output = trace.output(i);
            write(
                    trace.elapsedMs(i),
                    OptionalDouble.of(trace.temperatureC(i)),
                    output.isPresent() ? Optional.of(output.getAsDouble()) : Optional.empty(),
                    trace.setpointC(i),
                    OptionalDouble.empty(),
                    OptionalInt.empty(),
                    Set.of());
        }
    }

    private void write(
            long elapsedMs,
            OptionalDouble temperatureC,
            Optional<Double> output,
            OptionalDouble setpointC,
            OptionalDouble coldJunctionC,
            OptionalInt segment,
            Set<SensorFault> faults)
            throws IOException {
        row.setLength(0);
        row.append(plain(BigDecimal.valueOf(elapsedMs, 3)));
        wallClock.ifPresent(line -> {
            row.append(',');
            MILLISECONDS.formatTo(line.at(elapsedMs), row);
        });
        append(temperatureC);
        row.append(',');
        // 0.333 of full output is 33.3 %, not 33.300000000000004.
        output.ifPresent(share -> row.append(plain(BigDecimal.valueOf(share).movePointRight(2))));
        append(setpointC);
        append(coldJunctionC);
        row.append(',');
        segment.ifPresent(row::append);
        row.append(',');
        String plus = "";
        for (SensorFault fault : faults) {
            row.append(plus).append(fault.name().toLowerCase(Locale.ROOT));
            plus = "+";
        }
        writer.append(row.append('\n'));
    }

    private void append(OptionalDouble value) {
        row.append(',');
        if (value.isPresent()) {
            row.append(plain(BigDecimal.valueOf(value.getAsDouble())));
        }
    }

    private static String plain(BigDecimal number) {
        BigDecimal shortest = number.stripTrailingZeros();
        return shortest.scale() < 0 ? shortest.setScale(0).toPlainString() : shortest.toPlainString();
    }

    private static OptionalDouble celsius(Optional<Temperature> temperature) {
        return temperature.isPresent() ? OptionalDouble.of(temperature.get().celsius()) : OptionalDouble.empty();
    }

    /** Closes the writer beneath. */
    @Override
    public void close() throws IOException {
        writer.close();
    }
}

package org.kilnside.link;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.kilnside.files.LinePattern;
import org.kilnside.files.LinePatternReader;
import org.kilnside.firing.Channel;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.Origin;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.RawSignal;
import org.kilnside.sensor.Thermometer;
import org.kilnside.session.Connection;
import org.kilnside.session.LineView;
import org.kilnside.session.ReadingSource.Arrival;
import org.kilnside.session.ReadingSource.ControllerHello;

/**
 * Reads the lines a controller prints of its own, by a pattern. They carry no checksum, no sequence and no hello:
 * what is lost is not known. The temperature is taken as the °C the controller worked out, unless the pattern says
 * whose amplifier's number it is: then it is corrected as that amplifier needs it.
 */
final class PatternLines implements LineReader {
    private static final int LONGEST_LINE = 1_000;
    private static final long UPTIME_WRAP_MS = 1L << 32;

    private final Ears ears;
    private final HeardLines heard;
    private final LinePatternReader reader;
    private final Probe probe;
    private final Thermometer thermometer;
    private final byte[] line = new byte[LONGEST_LINE];
    private int length;
    private boolean overlong;
    private boolean joining;
    private boolean introduced;
    private long good;
    private long malformed;
    private long bytes;

    PatternLines(LinePattern pattern, Ears ears, HeardLines heard) {
        this.ears = ears;
        this.heard = heard;
        this.reader = new LinePatternReader(pattern);
        this.probe = pattern.probe();
        this.thermometer = Thermometer.of(probe);
    }

    @Override
    public void take(byte[] buffer, int count, long hostMs) {
        bytes += count;
        for (int i = 0; i < count; i++) {
            if (buffer[i] == '\n' || buffer[i] == '\r') {
                end(hostMs);
            } else if (length < LONGEST_LINE) {
                line[length++] = buffer[i];
            } else {
                overlong = true;
            }
        }
    }

    @Override
    public void joinMidStream() {
        length = 0;
        overlong = false;
        joining = true;
    }

    @Override
    public void flush() {
        // A line of a pattern is whole or nothing.
    }

    @Override
    public Connection.Counts counts() {
        return new Connection.Counts(good, 0, 0, malformed, 0, bytes);
    }

    @Override
    public OptionalInt lineIntervalMs() {
        return OptionalInt.empty();
    }

    @Override
    public Optional<String> trouble() {
        return Optional.empty();
    }

    private void end(long hostMs) {
        if (length == 0) {
            return;
        }
        String text = new String(line, 0, length, StandardCharsets.UTF_8);
        boolean first = joining;
        boolean whole = !overlong;
        int end = length;
        joining = false;
        length = 0;
        overlong = false;
        if (first) {
            // Half a line may look like a whole one: without a checksum the first is never trusted.
            heard.add(line, 0, end, !whole, hostMs, LineView.Verdict.HALF);
            return;
        }
        Optional<LinePatternReader.Said> said = whole ? reader.read(text) : Optional.empty();
        if (said.isEmpty()) {
            malformed++;
            LineView.Verdict why = whole ? LineView.Verdict.NOT_THE_PATTERN : LineView.Verdict.TOO_LONG;
            heard.add(line, 0, end, !whole, hostMs, why);
            return;
        }
        good++;
        heard.add(line, 0, end, false, hostMs, LineView.Verdict.READING);
        arrive(said.get(), hostMs);
    }

    private void arrive(LinePatternReader.Said said, long hostMs) {
        OptionalLong uptimeMs = said.uptimeMs().isPresent()
                ? OptionalLong.of(said.uptimeMs().getAsLong() % UPTIME_WRAP_MS)
                : OptionalLong.empty();
        if (!introduced) {
            introduced = true;
            ears.hello(new ControllerHello(
                    Optional.empty(), Optional.empty(), List.of(probe), OptionalInt.empty(), uptimeMs));
        }
        uptimeMs.ifPresent(ms -> ears.uptime(ms, OptionalInt.empty()));
        RawSignal raw = new RawSignal(
                code(said.temperatureC(), probe.amplifier().thermocoupleStepC()),
                code(said.coldJunctionC(), probe.amplifier().coldJunctionStepC()),
                0);
        ears.arrival(new Arrival(
                uptimeMs,
                OptionalInt.empty(),
                List.of(new Channel(1, raw, thermometer.temperature(raw), thermometer.coldJunction(raw))),
                new ControllerReport(
                        said.output().isPresent()
                                ? Optional.of(new Share(said.output().getAsDouble()))
                                : Optional.empty(),
                        said.setpointC().isPresent()
                                ? Optional.of(
                                        Temperature.ofCelsius(said.setpointC().getAsDouble()))
                                : Optional.empty(),
                        said.segment()),
                Origin.LIVE,
                hostMs));
    }

    /**
     * In the book it is the amplifier's code, of 0.01 °C for a controller that works out °C itself. A step of 0: the
     * amplifier has no such code.
     */
    private static OptionalInt code(OptionalDouble celsius, double stepC) {
        return celsius.isPresent() && stepC > 0
                ? OptionalInt.of((int) Math.round(celsius.getAsDouble() / stepC))
                : OptionalInt.empty();
    }
}

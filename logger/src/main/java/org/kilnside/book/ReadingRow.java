package org.kilnside.book;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.kilnside.firing.Channel;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.Origin;
import org.kilnside.firing.Reading;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.RawSignal;

/**
 * A reading as the book keeps it: codes only, small, as up to 86,400 of these wait in memory while the disk is full.
 * Inside, {@link #ABSENT} stands for what the line did not say; as a reading it is absent again.
 */
final class ReadingRow {
    /** No code of any amplifier, and no set-point, reaches it. */
    static final int ABSENT = Integer.MIN_VALUE;

    private static final FurtherChannel[] NONE = {};

    final long elapsedMs;
    final int thermocoupleCode;
    final int coldJunctionCode;
    final int faultBits;
    final int outputHundredthsPct;
    final int setpointHundredthsC;
    final int segment;
    final int origin;
    private FurtherChannel[] further = NONE;

    /** A channel beside the guiding one. */
    record FurtherChannel(int channel, int thermocoupleCode, int coldJunctionCode, int faultBits) {}

    ReadingRow(
            long elapsedMs,
            int thermocoupleCode,
            int coldJunctionCode,
            int faultBits,
            int outputHundredthsPct,
            int setpointHundredthsC,
            int segment,
            int origin) {
        this.elapsedMs = elapsedMs;
        this.thermocoupleCode = thermocoupleCode;
        this.coldJunctionCode = coldJunctionCode;
        this.faultBits = faultBits;
        this.outputHundredthsPct = outputHundredthsPct;
        this.setpointHundredthsC = setpointHundredthsC;
        this.segment = segment;
        this.origin = origin;
    }

    /**
     * What the book keeps of a reading.
     *
     * @throws IllegalArgumentException when its first channel is not the guiding one, number 1
     */
    static ReadingRow of(Reading reading) {
        Channel first = reading.first();
        if (first.number() != 1) {
            throw new IllegalArgumentException("a reading's first channel is number 1, found " + first.number());
        }
        ControllerReport report = reading.controller();
        ReadingRow row = new ReadingRow(
                reading.elapsedMs(),
                first.raw().thermocouple().orElse(ABSENT),
                first.raw().coldJunction().orElse(ABSENT),
                first.raw().faultBits(),
                report.output()
                        .map(output -> (int) Math.round(output.percent() * 100))
                        .orElse(ABSENT),
                report.setpoint()
                        .map(setpoint -> (int) Math.round(setpoint.celsius() * 100))
                        .orElse(ABSENT),
                report.segment().orElse(ABSENT),
                codeOf(reading.origin()));
        List<Channel> channels = reading.channels();
        if (channels.size() > 1) {
            row.further = channels.stream()
                    .skip(1)
                    .map(channel -> new FurtherChannel(
                            channel.number(),
                            channel.raw().thermocouple().orElse(ABSENT),
                            channel.raw().coldJunction().orElse(ABSENT),
                            channel.raw().faultBits()))
                    .toArray(FurtherChannel[]::new);
        }
        return row;
    }

    FurtherChannel[] further() {
        return further;
    }

    void addFurther(FurtherChannel channel) {
        FurtherChannel[] longer = java.util.Arrays.copyOf(further, further.length + 1);
        longer[further.length] = channel;
        further = longer;
    }

    /** The reading again, its temperatures worked out anew from the codes. */
    Reading reading(ProbeEpochs probes) {
        List<Channel> channels = new ArrayList<>(1 + further.length);
        channels.add(channel(probes, 1, thermocoupleCode, coldJunctionCode, faultBits));
        for (FurtherChannel more : further) {
            channels.add(channel(
                    probes, more.channel(), more.thermocoupleCode(), more.coldJunctionCode(), more.faultBits()));
        }
        return Reading.of(elapsedMs, channels, report(), originOf(origin));
    }

    private Channel channel(ProbeEpochs probes, int number, int thermocouple, int coldJunction, int faults) {
        RawSignal raw = new RawSignal(known(thermocouple), known(coldJunction), faults);
        return new Channel(
                number,
                raw,
                probes.at(number, elapsedMs).temperature(raw),
                probes.at(number, elapsedMs).coldJunction(raw));
    }

    private ControllerReport report() {
        if (outputHundredthsPct == ABSENT && setpointHundredthsC == ABSENT && segment == ABSENT) {
            return ControllerReport.NONE;
        }
        return new ControllerReport(
                outputHundredthsPct == ABSENT
                        ? Optional.empty()
                        : Optional.of(Share.ofPercent(outputHundredthsPct / 100.0)),
                setpointHundredthsC == ABSENT
                        ? Optional.empty()
                        : Optional.of(Temperature.ofCelsius(setpointHundredthsC / 100.0)),
                known(segment));
    }

    /** Whether another line says the same but for how it came here. */
    boolean saysTheSameAs(ReadingRow other) {
        return elapsedMs == other.elapsedMs
                && thermocoupleCode == other.thermocoupleCode
                && coldJunctionCode == other.coldJunctionCode
                && faultBits == other.faultBits
                && outputHundredthsPct == other.outputHundredthsPct
                && setpointHundredthsC == other.setpointHundredthsC
                && segment == other.segment;
    }

    static OptionalInt known(int code) {
        return code == ABSENT ? OptionalInt.empty() : OptionalInt.of(code);
    }

    /** The number by which the book knows an origin; written down in the migration, and never changed. */
    static int codeOf(Origin origin) {
        return switch (origin) {
            case LIVE -> 0;
            case FILLED_IN -> 1;
            case IMPORTED -> 2;
        };
    }

    private static Origin originOf(int code) {
        return switch (code) {
            case 0 -> Origin.LIVE;
            case 1 -> Origin.FILLED_IN;
            default -> Origin.IMPORTED;
        };
    }
}

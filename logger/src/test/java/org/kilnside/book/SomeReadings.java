package org.kilnside.book;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import org.kilnside.firing.Channel;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.Origin;
import org.kilnside.firing.Reading;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.RawSignal;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.sensor.Thermometer;
import org.kilnside.session.FiringBook.FiringStart;

/** Readings for the book's tests, as a link would hand them over. */
final class SomeReadings {
    static final Probe TYPE_K = new Probe(ThermocoupleType.K, Amplifier.MAX31855);

    private SomeReadings() {}

    static FiringStart start() {
        return new FiringStart(
                Optional.of("Tall Drum"),
                "virtual:tall-drum",
                Instant.parse("2026-11-20T06:30:00Z"),
                Optional.empty(),
                Optional.empty(),
                ConeSeries.USUAL);
    }

    /** A plain reading of channel 1 with 18 °C at the amplifier. */
    static Reading celsius(long elapsedMs, double celsius) {
        return reading(
                elapsedMs, List.of(TYPE_K), List.of(RawSignal.of((int) Math.round(celsius * 4), 18 * 16)), Origin.LIVE);
    }

    static Reading reading(long elapsedMs, List<Probe> probes, List<RawSignal> signals, Origin origin) {
        return Reading.of(elapsedMs, channels(probes, signals), ControllerReport.NONE, origin);
    }

    static List<Channel> channels(List<Probe> probes, List<RawSignal> signals) {
        List<Channel> channels = new ArrayList<>();
        for (int i = 0; i < signals.size(); i++) {
            Thermometer thermometer = Thermometer.of(probes.get(i));
            RawSignal signal = signals.get(i);
            channels.add(new Channel(i + 1, signal, thermometer.temperature(signal), thermometer.coldJunction(signal)));
        }
        return channels;
    }

    /** Anything a line can say: unknown codes, faults, part of a controller's report, one or two channels. */
    static Reading random(Random random, long elapsedMs, List<Probe> probes) {
        List<RawSignal> signals = new ArrayList<>();
        int channels = 1 + random.nextInt(probes.size());
        for (int i = 0; i < channels; i++) {
            signals.add(new RawSignal(
                    random.nextInt(20) == 0 ? OptionalInt.empty() : OptionalInt.of(random.nextInt(6_000) - 800),
                    random.nextInt(20) == 0 ? OptionalInt.empty() : OptionalInt.of(random.nextInt(1_400) - 400),
                    random.nextInt(10) == 0 ? 1 << random.nextInt(7) : 0));
        }
        ControllerReport report = new ControllerReport(
                random.nextBoolean() ? Optional.of(Share.ofPercent(random.nextInt(10_001) / 100.0)) : Optional.empty(),
                random.nextBoolean()
                        ? Optional.of(Temperature.ofCelsius(random.nextInt(130_000) / 100.0))
                        : Optional.empty(),
                random.nextBoolean() ? OptionalInt.of(1 + random.nextInt(9)) : OptionalInt.empty());
        Origin origin = Origin.values()[random.nextInt(Origin.values().length)];
        return Reading.of(elapsedMs, channels(probes, signals), report, origin);
    }

    /** A firing at 1 Hz: straight up to 1000 °C and straight down again. */
    static List<Reading> firing(int readings) {
        List<Reading> all = new ArrayList<>(readings);
        for (int i = 0; i < readings; i++) {
            double share = 2.0 * i / readings;
            all.add(celsius(i * 1_000L, 20 + 980 * Math.min(share, 2 - share)));
        }
        return all;
    }
}

package org.kilnside.link;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.kilnside.protocol.AmplifierCodes;
import org.kilnside.protocol.ChannelCodes;
import org.kilnside.protocol.Hello;
import org.kilnside.protocol.WireReader;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.sensor.Thermometer;
import org.kilnside.session.ReadingSource.ControllerHello;
import org.kilnside.wording.Words;

/** What the controller's hellos, which may come on several lines, have said stands behind each channel. */
final class ChannelProbes {
    private final Words words;
    private final List<Optional<Known>> known = new ArrayList<>();
    private Optional<String> device = Optional.empty();
    private Optional<String> firmware = Optional.empty();
    private OptionalInt lineIntervalMs = OptionalInt.empty();
    private Optional<String> trouble = Optional.empty();
    private Optional<Known> first = Optional.empty();
    private long helloUptimeMs = -1;
    private int count = 1;

    /** A probe this program can convert. */
    record Known(Probe probe, Thermometer thermometer, AmplifierCodes codes) {}

    ChannelProbes(Words words) {
        this.words = words;
        for (int channel = 0; channel < ChannelCodes.MOST; channel++) {
            known.add(Optional.empty());
        }
    }

    ControllerHello take(Hello hello) {
        if (hello.uptimeMs() != helloUptimeMs) {
            // A new hello, not a further line of the last one.
            helloUptimeMs = hello.uptimeMs();
            trouble = Optional.empty();
            count = 1;
        }
        device = hello.device().or(() -> device);
        firmware = hello.firmware().or(() -> firmware);
        lineIntervalMs = hello.lineIntervalMs().isPresent() ? hello.lineIntervalMs() : lineIntervalMs;
        count = Math.max(count, hello.channelCount().orElse(1));
        if (hello.version() > WireReader.VERSION) {
            trouble = Optional.of(words.text("wire.newer_protocol", hello.version(), WireReader.VERSION));
        }
        for (Hello.HelloChannel channel : hello.channels()) {
            count = Math.max(count, channel.number());
            known.set(channel.number() - 1, probe(channel));
        }
        first = known.get(0);
        return new ControllerHello(
                device,
                firmware,
                known.subList(0, count).stream()
                        .map(probe -> probe.map(Known::probe).orElse(Probe.UNKNOWN))
                        .toList(),
                lineIntervalMs,
                OptionalLong.of(hello.uptimeMs()));
    }

    Optional<Known> of(int channel) {
        return channel == 1 ? first : known.get(channel - 1);
    }

    int count() {
        return count;
    }

    /** Whether every channel has been named, so that no further line of this hello is to be waited for. */
    boolean complete() {
        return count <= 2 || known.subList(0, count).stream().allMatch(Optional::isPresent);
    }

    OptionalInt lineIntervalMs() {
        return lineIntervalMs;
    }

    Optional<String> trouble() {
        if (trouble.isEmpty() && first.isEmpty()) {
            return Optional.of(words.text("wire.no_amplifier"));
        }
        return trouble;
    }

    private Optional<Known> probe(Hello.HelloChannel channel) {
        Optional<AmplifierCodes> codes = channel.amplifier().flatMap(AmplifierCodes::named);
        if (codes.isEmpty()) {
            channel.amplifier()
                    .ifPresent(name -> complain(words.text(
                            "wire.unknown_amplifier",
                            channel.number(),
                            name,
                            Arrays.toString(AmplifierCodes.values()))));
            return Optional.empty();
        }
        Amplifier amplifier = Amplifier.valueOf(codes.get().name());
        Optional<ThermocoupleType> type = type(channel, amplifier);
        return type.map(letter -> new Probe(letter, amplifier))
                .map(probe -> new Known(probe, Thermometer.of(probe), codes.get()));
    }

    private Optional<ThermocoupleType> type(Hello.HelloChannel channel, Amplifier amplifier) {
        if (channel.thermocouple().isEmpty()) {
            if (amplifier.linearises()) {
                // The number is right whatever the wire; the letter is for the record alone.
                return Optional.of(Probe.UNKNOWN.type());
            }
            complain(words.text("wire.no_thermocouple", channel.number()));
            return Optional.empty();
        }
        String letter = channel.thermocouple().get();
        Optional<ThermocoupleType> type = Arrays.stream(ThermocoupleType.values())
                .filter(known -> known.name().equals(letter))
                .findFirst();
        if (type.isEmpty()) {
            complain(words.text("wire.unknown_thermocouple", channel.number(), letter));
        }
        return type;
    }

    private void complain(String what) {
        trouble = trouble.or(() -> Optional.of(what));
    }
}

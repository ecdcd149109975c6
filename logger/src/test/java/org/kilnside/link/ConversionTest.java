package org.kilnside.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Channel;
import org.kilnside.firing.Reading;
import org.kilnside.protocol.ChannelCodes;
import org.kilnside.protocol.Hello;
import org.kilnside.protocol.ReadingLine;
import org.kilnside.session.ReadingSource.Arrival;
import org.kilnside.session.ReadingSource.ControllerHello;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;

class ConversionTest {
    private final List<Arrival> arrivals = new ArrayList<>();
    private final List<ControllerHello> hellos = new ArrayList<>();
    private final Conversion conversion = new Conversion(
            new Conversion.Sink() {
                @Override
                public void hello(ControllerHello hello) {
                    hellos.add(hello);
                }

                @Override
                public void arrival(Arrival arrival) {
                    arrivals.add(arrival);
                }
            },
            Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH)));
    private final Lines lines = new Lines();

    @Test
    void readingsBeforeTheFirstHelloWaitForIt() {
        for (int second = 0; second < 30; second++) {
            conversion.take(lines.reading(second * 1_000, 600), 5_000 + second);
        }
        assertThat(arrivals).isEmpty();
        conversion.take(lines.hello(30_000), 35_000);

        assertThat(arrivals).hasSize(30);
        assertThat(celsius(arrivals.get(0))).isEqualTo(600);
        assertThat(arrivals.get(0).hostMs()).isEqualTo(5_000);
    }

    @Test
    void aHelloThatNeverComesLeavesCodesWithoutATemperature() {
        for (int second = 0; second < 80; second++) {
            conversion.take(lines.reading(second * 1_000, 600), second);
        }
        assertThat(arrivals).hasSize(80);
        assertThat(arrivals.get(0).channels().get(0).temperature()).isEmpty();
        assertThat(arrivals.get(0).channels().get(0).raw().thermocouple()).isEqualTo(OptionalInt.of(600 * 128));
        assertThat(conversion.trouble())
                .hasValueSatisfying(text -> assertThat(text).contains("has not said"));

        conversion.take(lines.hello(80_000), 80);
        conversion.take(lines.reading(81_000, 601), 81);
        assertThat(celsius(arrivals.get(80))).isEqualTo(601);
        assertThat(conversion.trouble()).isEmpty();
    }

    @Test
    void aFloodBeforeTheFirstHelloDoesNotFillTheMemory() {
        for (int i = 0; i < 10_000; i++) {
            conversion.take(lines.reading(i, 600), i);
        }
        assertThat(arrivals).hasSizeGreaterThan(7_000);
    }

    @Test
    void aFaultMakesAFaultedReading() {
        conversion.take(lines.hello(0), 0);
        conversion.take(
                line(1_000, new ChannelCodes(1, OptionalInt.of(8191), OptionalInt.empty(), OptionalInt.of(1))), 1);

        assertThat(arrivals.get(0).at(0)).isInstanceOf(Reading.Faulted.class);
    }

    @Test
    void aLineWithoutChannelOneIsAMissingReadingNotAWitnessInItsPlace() {
        conversion.take(hello(2, channel(1, "K", "MAX31856"), channel(2, "K", "MAX31856")), 0);
        conversion.take(line(1_000, codes(2, 700 * 128)), 1);

        assertThat(arrivals.get(0).channels()).extracting(Channel::number).containsExactly(1, 2);
        assertThat(arrivals.get(0).at(0)).isInstanceOf(Reading.Missing.class);
    }

    @Test
    void aLineThatSaysNothingIsAMissingReading() {
        conversion.take(lines.hello(0), 0);
        conversion.take(line(1_000), 1);

        assertThat(arrivals.get(0).at(0)).isInstanceOf(Reading.Missing.class);
    }

    @Test
    void channelsOnTwoLinesOfOneInstantAreOneArrival() {
        conversion.take(hello(3, channel(1, "K", "MAX31856"), channel(2, "K", "MAX31856")), 0);
        conversion.take(hello(3, channel(3, "S", "MAX31855")), 0);
        conversion.take(line(1_000, codes(1, 700 * 128), codes(2, 690 * 128)), 1);
        assertThat(arrivals).isEmpty();
        conversion.take(line(1_000, codes(3, 680 * 4)), 1);
        assertThat(arrivals)
                .singleElement()
                .satisfies(arrival -> assertThat(arrival.channels())
                        .extracting(Channel::number)
                        .containsExactly(1, 2, 3));

        // The second line of the next instant is lost: the first is not held back for ever.
        conversion.take(line(2_000, codes(1, 701 * 128), codes(2, 691 * 128)), 2);
        conversion.take(line(3_000, codes(1, 702 * 128), codes(2, 692 * 128)), 3);
        conversion.flush();
        assertThat(arrivals).hasSize(3);
        assertThat(arrivals.get(1).channels()).hasSize(2);
    }

    @Test
    void aCodeTheAmplifierCannotGiveIsUnknownAndCounted() {
        conversion.take(hello(1, channel(1, "K", "MAX31855")), 0);
        conversion.take(line(1_000, codes(1, 8_192)), 1);

        assertThat(arrivals.get(0).channels().get(0).temperature()).isEmpty();
        assertThat(arrivals.get(0).channels().get(0).raw().thermocouple()).isEqualTo(OptionalInt.of(8_192));
        assertThat(conversion.impossibleCodes()).isEqualTo(1);
    }

    @Test
    void anAmplifierNobodyKnowsIsSaid() {
        conversion.take(hello(1, channel(1, "K", "MAX99999")), 0);
        conversion.take(line(1_000, codes(1, 4_000)), 1);

        assertThat(arrivals.get(0).channels().get(0).temperature()).isEmpty();
        assertThat(conversion.trouble())
                .hasValueSatisfying(text -> assertThat(text).contains("\"MAX99999\""));
    }

    @Test
    void anAmplifierThatDoesNotLineariseNeedsTheTypeOfThermocouple() {
        conversion.take(hello(1, new Hello.HelloChannel(1, Optional.empty(), Optional.of("MAX31855"))), 0);
        assertThat(conversion.trouble())
                .hasValueSatisfying(text -> assertThat(text).contains("type of thermocouple"));
    }

    @Test
    void aLaterVersionOfTheProtocolIsSaid() {
        conversion.take(
                new Hello(
                        0,
                        0,
                        2,
                        Optional.empty(),
                        Optional.empty(),
                        OptionalInt.of(1),
                        List.of(channel(1, "K", "MAX31856")),
                        OptionalInt.empty(),
                        OptionalInt.empty(),
                        OptionalInt.empty()),
                0);
        assertThat(conversion.trouble())
                .hasValueSatisfying(text -> assertThat(text).contains("version 2"));
    }

    private static double celsius(Arrival arrival) {
        return arrival.channels().get(0).temperature().orElseThrow().celsius();
    }

    private static Hello.HelloChannel channel(int number, String type, String amplifier) {
        return new Hello.HelloChannel(number, Optional.of(type), Optional.of(amplifier));
    }

    private static Hello hello(int count, Hello.HelloChannel... channels) {
        return new Hello(
                0,
                0,
                1,
                Optional.empty(),
                Optional.empty(),
                OptionalInt.of(count),
                List.of(channels),
                OptionalInt.of(1000),
                OptionalInt.empty(),
                OptionalInt.empty());
    }

    private static ChannelCodes codes(int number, int thermocouple) {
        return new ChannelCodes(number, OptionalInt.of(thermocouple), OptionalInt.empty(), ChannelCodes.NO_FAULT);
    }

    private static ReadingLine line(long uptimeMs, ChannelCodes... channels) {
        return new ReadingLine(
                1, uptimeMs, List.of(channels), OptionalInt.empty(), OptionalInt.empty(), OptionalInt.empty());
    }
}

package org.kilnside.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.kilnside.quantity.Temperature;
import org.kilnside.session.Connection.State;
import org.kilnside.session.ReadingSource.Arrival;

class VirtualLinkTest {
    private final HandMovedClock clock = new HandMovedClock();
    private final Heard heard = new Heard();

    @Test
    void aWholeFiringArrivesSecondBySecondAndEndsFinished() {
        run("virtual:test?speed=1200", 30_000);

        assertThat(heard.arrivals).hasSize(30_000);
        assertThat(heard.arrivals.stream()
                        .mapToLong(arrival -> arrival.uptimeMs().orElseThrow()))
                .containsExactlyElementsOf(
                        LongStream.range(0, 30_000).map(s -> s * 1000).boxed().toList());
        assertThat(heard.last().state()).isEqualTo(State.FINISHED);
        assertThat(heard.last().counts().lines()).isEqualTo(30_000 + 500);
        assertThat(heard.last().counts().lost()).isZero();
        assertThat(heard.states()).containsExactly(State.CONNECTING, State.RECEIVING, State.FINISHED);
    }

    @Test
    void itSaysHelloAtItsBootAndEachMinute() {
        run("virtual:test?speed=60", 180);

        assertThat(heard.hellos).hasSize(3);
        assertThat(heard.hellos.get(0).device()).contains("test-kiln");
        assertThat(heard.hellos.get(0).lineIntervalMs()).isEqualTo(OptionalInt.of(1000));
        assertThat(heard.hellos.get(2).uptimeMs()).isEqualTo(OptionalLong.of(120_000));
    }

    @Test
    void codesBecomeTemperatures() {
        run("virtual:test?speed=60", 1);

        Arrival first = heard.arrivals.get(0);
        // 2561 steps of 2⁻⁷ °C, 1280 of 2⁻⁶ °C (MAX31856).
        assertThat(first.channels().get(0).temperature()).contains(Temperature.ofCelsius(2561 / 128.0));
        assertThat(first.channels().get(0).coldJunction()).contains(Temperature.ofCelsius(20));
        assertThat(first.controller().output().orElseThrow().percent()).isEqualTo(50);
        assertThat(first.controller().setpoint()).contains(Temperature.ofCelsius(600));
        assertThat(first.controller().segment()).isEqualTo(OptionalInt.of(1));
    }

    @Test
    void itKeepsItsSpeed() {
        long before = clock.monotonicMs();
        run("virtual:test?speed=600", 36_000);

        assertThat(clock.monotonicMs() - before).isBetween(59_900L, 60_500L);
        assertThat(heard.arrivals.get(18_000).hostMs() - before).isBetween(29_900L, 30_200L);
    }

    @Test
    void itsTimeStandsStillWhileTheComputerSleeps() throws Exception {
        VirtualPort port = new VirtualPort(
                (LinkNotation.Virtual) LinkNotation.parse("virtual:test?speed=10"),
                new FakeVirtualKiln(1_000),
                around());
        try (ByteStream wire = port.open()) {
            byte[] buffer = new byte[1 << 16];
            int before = lines(buffer, wire.read(buffer));
            clock.advance(3_600_000);
            int after = lines(buffer, wire.read(buffer));
            assertThat(before).isEqualTo(2);
            assertThat(after).as("one line, not 36000").isEqualTo(1);
        }
    }

    private static int lines(byte[] buffer, int length) {
        int lines = 0;
        for (int i = 0; i < length; i++) {
            lines += buffer[i] == '\n' ? 1 : 0;
        }
        return lines;
    }

    private void run(String notation, int seconds) {
        LinkNotation.Virtual link = (LinkNotation.Virtual) LinkNotation.parse(notation);
        new LinkReader(
                        notation,
                        new VirtualPort(link, new FakeVirtualKiln(seconds), around()),
                        around(),
                        ProtocolLines::new)
                .run(heard);
    }

    private Surroundings around() {
        return new Surroundings(clock, clock, link -> new FakeVirtualKiln(10), false);
    }
}

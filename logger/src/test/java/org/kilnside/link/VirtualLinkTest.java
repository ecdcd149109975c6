package org.kilnside.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.util.List;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.kilnside.files.FileRefusedException;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.session.Connection.State;
import org.kilnside.session.ReadingSource.Arrival;
import org.kilnside.virtualkiln.SensorSpec;
import org.kilnside.virtualkiln.VirtualFiring;
import org.kilnside.virtualkiln.VirtualKilns;

class VirtualLinkTest {
    private static final SensorSpec TYPE_K = SensorSpec.typeK(Amplifier.MAX31855);

    private final HandMovedClock clock = new HandMovedClock();
    private final Heard heard = new Heard();
    private final LinkSurroundings around = new LinkSurroundings(clock, clock, ProfileLibrary.starters(), false);

    @Test
    void aFiringAndItsCoolingArriveSecondBySecondAndEndFinished() {
        run("virtual:tall-drum?speed=1200", firing(TYPE_K));

        int seconds = heard.arrivals.size();
        assertThat(heard.arrivals.stream()
                        .mapToLong(arrival -> arrival.uptimeMs().orElseThrow()))
                .containsExactlyElementsOf(
                        LongStream.range(0, seconds).map(s -> s * 1000).boxed().toList());
        assertThat(temperature(heard.arrivals.get(0)).celsius()).isBetween(10.0, 14.0);
        assertThat(heard.arrivals.stream()
                        .mapToDouble(arrival -> temperature(arrival).celsius())
                        .max()
                        .orElseThrow())
                .isBetween(198.0, 206.0);
        assertThat(temperature(heard.arrivals.get(seconds - 1)).celsius()).isBetween(38.0, 46.0);
        assertThat(heard.last().state()).isEqualTo(State.FINISHED);
        assertThat(heard.last().counts().lines()).isEqualTo(seconds + (seconds + 59) / 60);
        assertThat(heard.last().counts().lost()).isZero();
        assertThat(heard.states()).containsExactly(State.CONNECTING, State.RECEIVING, State.FINISHED);
    }

    @Test
    void itSaysHelloAtItsBootAndEachMinute() {
        run("virtual:tall-drum?speed=600", firing(TYPE_K));

        assertThat(heard.hellos.get(0).device()).contains("tall-drum");
        assertThat(heard.hellos.get(0).probes()).containsExactly(TYPE_K.probe());
        assertThat(heard.hellos.get(0).lineIntervalMs()).isEqualTo(OptionalInt.of(1000));
        assertThat(heard.hellos.get(0).uptimeMs()).isEqualTo(OptionalLong.of(0));
        assertThat(heard.hellos.get(2).uptimeMs()).isEqualTo(OptionalLong.of(120_000));
    }

    @Test
    void whatArrivesIsWhatTheVirtualControllerSaidToTheCode() {
        run("virtual:tall-drum?speed=600", firing(TYPE_K));

        VirtualFiring twin = firing(TYPE_K);
        for (Arrival arrival : heard.arrivals) {
            VirtualFiring.Moment moment = twin.next();
            assertThat(arrival.channels().get(0).raw())
                    .isEqualTo(moment.signals().get(0));
            assertThat(arrival.controller().segment())
                    .isEqualTo(moment.controller().segment());
        }
    }

    @Test
    void fourChannelsOnTwoLinesAreOneArrival() {
        Probe linear = new Probe(TYPE_K.probe().type(), Amplifier.MAX31856);
        run("virtual:tall-drum?speed=max", firing(TYPE_K, TYPE_K.atLevel(0), TYPE_K.with(linear), TYPE_K.atLevel(2)));

        assertThat(heard.hellos.get(heard.hellos.size() - 1).probes())
                .containsExactly(TYPE_K.probe(), TYPE_K.probe(), linear, TYPE_K.probe());
        assertThat(heard.arrivals)
                .allSatisfy(arrival -> assertThat(arrival.channels())
                        .extracting(channel -> channel.number())
                        .containsExactly(1, 2, 3, 4));
        assertThat(heard.arrivals.get(5).channels().get(2).temperature()).isPresent();
    }

    @Test
    void itKeepsItsSpeed() {
        long before = clock.monotonicMs();
        run("virtual:tall-drum?speed=600", firing(TYPE_K));

        long hostMs = clock.monotonicMs() - before;
        assertThat(hostMs * 600.0 / (heard.arrivals.size() * 1000.0)).isBetween(0.99, 1.01);
        assertThat(heard.arrivals.get(6_000).hostMs() - before).isBetween(9_900L, 10_150L);
    }

    @Test
    void itsTimeStandsStillWhileTheComputerSleeps() throws Exception {
        try (ByteStream wire =
                port("virtual:tall-drum?speed=10", firing(TYPE_K)).open()) {
            byte[] buffer = new byte[1 << 16];
            int before = lines(buffer, wire.read(buffer));
            clock.advance(3_600_000);
            int after = lines(buffer, wire.read(buffer));
            assertThat(before).as("hello and a reading").isEqualTo(2);
            assertThat(after).as("one line, not 36000").isEqualTo(1);
        }
    }

    @Test
    void aPlanOfTheLibraryIsTakenByItsName() {
        LinkNotation.Virtual link =
                (LinkNotation.Virtual) LinkNotation.parse("virtual:Tall Drum?speed=1200&plan=bisque");
        assertThat(VirtualPort.of(link, around).speed()).isEqualTo(1200);
    }

    @Test
    void aLinkClosedInMidFiringIsClosedAndNotFinished() throws Exception {
        LinkReader link = new LinkReader(
                "virtual:tall-drum",
                port("virtual:tall-drum?speed=600", firing(TYPE_K)),
                new LinkSurroundings(new RealClock(), Pauses.REAL, ProfileLibrary.starters(), false),
                ProtocolLines.saying(around.words()));
        link.start(heard);
        for (int i = 0; i < 500 && heard.arrivals.isEmpty(); i++) {
            Thread.sleep(10);
        }
        link.close();
        int arrived = heard.arrivals.size();

        assertThat(arrived).isPositive();
        assertThat(heard.states()).containsExactly(State.CONNECTING, State.RECEIVING, State.CLOSED);
        Thread.sleep(50);
        assertThat(heard.arrivals).as("nothing is delivered afterwards").hasSize(arrived);
    }

    @Test
    void anUnknownKilnOrPlanIsSaidInASentence() {
        assertThatThrownBy(() -> Links.open("virtual:squat?speed=600", clock))
                .isInstanceOf(BadLinkException.class)
                .hasMessage("There is no virtual kiln \"squat\"; there is tall-drum.");
        assertThatThrownBy(() -> Links.open("virtual:tall-drum?plan=no-such-plan", clock))
                .isInstanceOf(FileRefusedException.class)
                .hasMessageContaining("no-such-plan");
    }

    private static Temperature temperature(Arrival arrival) {
        return arrival.channels().get(0).temperature().orElseThrow();
    }

    private static int lines(byte[] buffer, int length) {
        int lines = 0;
        for (int i = 0; i < length; i++) {
            lines += buffer[i] == '\n' ? 1 : 0;
        }
        return lines;
    }

    /** A short one: quickly to 200 °C and down again. */
    private static VirtualFiring firing(SensorSpec... sensors) {
        Schedule plan = new Schedule(
                "test",
                List.of(
                        new Segment.Ramp(HeatingRate.ofKelvinPerHour(300), Temperature.ofCelsius(200), Duration.ZERO),
                        new Segment.FreeCooling()));
        return VirtualFiring.of(VirtualKilns.TALL_DRUM, plan).sensors(sensors).start();
    }

    private VirtualPort port(String notation, VirtualFiring firing) {
        return new VirtualPort((LinkNotation.Virtual) LinkNotation.parse(notation), firing, around);
    }

    private void run(String notation, VirtualFiring firing) {
        new LinkReader(notation, port(notation, firing), around, ProtocolLines.saying(around.words())).run(heard);
    }
}

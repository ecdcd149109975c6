package org.kilnside.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.OptionalInt;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.firing.Origin;
import org.kilnside.protocol.ChannelCodes;
import org.kilnside.protocol.KeptLine;
import org.kilnside.session.Connection.State;
import org.kilnside.session.ReadingSource.Arrival;

class LinkReaderTest {
    private final HandMovedClock clock = new HandMovedClock();
    private final Heard heard = new Heard();
    private final Lines lines = new Lines();
    private final ScriptedPort port = new ScriptedPort(clock);

    private LinkReader run(boolean patient) {
        LinkSurroundings around = new LinkSurroundings(clock, clock, ProfileLibrary.starters(), patient);
        LinkReader link =
                new LinkReader("serial:/dev/ttyTEST?baud=115200", port, around, ProtocolLines.saying(around.words()));
        port.afterTheLastStep = link::close;
        link.run(heard);
        return link;
    }

    @Test
    void aReadingArrivesConvertedWithTheTimeItWasReceived() {
        port.says(lines.hello(10)).silentFor(1_000).says(lines.reading(1_010, 600));
        run(false);

        Arrival arrival = heard.arrivals.get(0);
        assertThat(arrival.channels().get(0).temperature().orElseThrow().celsius())
                .isEqualTo(600);
        assertThat(arrival.channels().get(0).coldJunction().orElseThrow().celsius())
                .isEqualTo(20);
        assertThat(arrival.uptimeMs()).isEqualTo(OptionalLong.of(1_010));
        assertThat(arrival.sequence()).isEqualTo(OptionalInt.of(1));
        assertThat(arrival.controller().output().orElseThrow().percent()).isEqualTo(50);
        assertThat(arrival.controller().setpoint().orElseThrow().celsius()).isEqualTo(600);
        assertThat(arrival.origin()).isEqualTo(Origin.LIVE);
        assertThat(arrival.hostMs()).isEqualTo(2_000);
        assertThat(port.written).startsWith("?H\n");
    }

    @Test
    void closingIsTheLastThingHeard() {
        port.says(lines.hello(10)).says(lines.reading(1_010, 600));
        run(false);

        assertThat(heard.states()).containsExactly(State.CONNECTING, State.RECEIVING, State.CLOSED);
        assertThat(port.isOpen()).isFalse();
    }

    @Test
    void theCableOutIsLostAndTheLinkIsOpenedAgain() {
        port.says(lines.hello(10))
                .says(lines.reading(1_010, 600))
                .ends()
                .refusesToOpen(LinkTroubleException.passing("There is no port."))
                .refusesToOpen(LinkTroubleException.passing("There is no port."))
                .silentFor(200)
                .says(lines.skip().skip().reading(5_010, 604));
        run(false);

        assertThat(heard.states())
                .containsExactly(
                        State.CONNECTING, State.RECEIVING, State.LOST, State.CONNECTING, State.RECEIVING, State.CLOSED);
        assertThat(heard.arrivals).hasSize(2);
        assertThat(heard.last().counts().lost()).isEqualTo(2);
        assertThat(port.openedAtMs).as("half a second, one, two").containsExactly(1_000L, 1_500L, 2_500L, 4_500L);
    }

    @Test
    void whileItIsLostTheReasonIsSaid() {
        port.says(lines.hello(10))
                .ends()
                .refusesToOpen(LinkTroubleException.passing("There is no port /dev/ttyTEST: check the cable."))
                .says(lines.reading(1_010, 600));
        run(false);

        assertThat(heard.detailIn(State.LOST)).contains("There is no port /dev/ttyTEST: check the cable.");
        assertThat(heard.last().detail()).isEmpty();
    }

    @Test
    void theBackoffEndsAtTenSeconds() {
        port.says(lines.hello(10)).ends();
        for (int i = 0; i < 8; i++) {
            port.refusesToOpen(LinkTroubleException.passing("There is no port."));
        }
        run(false);

        int last = port.openedAtMs.size() - 1;
        assertThat(port.openedAtMs.get(last) - port.openedAtMs.get(last - 1)).isEqualTo(10_000);
    }

    @Test
    void aPortThatWasNeverThereIsGivenUpForAPersonToLookAt() {
        port.refusesToOpen(LinkTroubleException.passing("There is no port /dev/ttyTEST."));
        run(false);

        assertThat(heard.last().state()).isEqualTo(State.GIVEN_UP);
        assertThat(heard.last().detail()).contains("There is no port /dev/ttyTEST.");
    }

    @Test
    void aPatientLinkWaitsForAPortThatIsNotThereYet() {
        port.refusesToOpen(LinkTroubleException.passing("There is no port."))
                .says(lines.hello(10))
                .says(lines.reading(1_010, 20));
        run(true);

        assertThat(heard.arrivals).hasSize(1);
    }

    @Test
    void aMissingPermissionIsNotWaitedOut() {
        port.refusesToOpen(LinkTroubleException.hopeless("Join the group dialout."));
        run(true);

        assertThat(heard.last().state()).isEqualTo(State.GIVEN_UP);
        assertThat(port.openedAtMs).hasSize(1);
    }

    @Test
    void threeIntervalsWithoutALineAreSilenceButThreeSecondsAtLeast() {
        port.says(lines.hello(10, 1000, OptionalInt.empty()))
                .says(lines.reading(1_010, 600))
                .silentFor(2_900)
                .then(() -> assertThat(heard.last().state()).isEqualTo(State.RECEIVING))
                .silentFor(100)
                .then(() -> assertThat(heard.last().state()).isEqualTo(State.SILENT))
                .says(lines.reading(5_010, 604));
        run(false);

        assertThat(heard.states())
                .containsExactly(State.CONNECTING, State.RECEIVING, State.SILENT, State.RECEIVING, State.CLOSED);
        assertThat(heard.detailIn(State.SILENT))
                .hasValueSatisfying(text -> assertThat(text).contains("Nothing comes from /dev/ttyTEST"));
    }

    @Test
    void aControllerThatSpeaksEachMinuteIsNotSilentAfterTwo() {
        port.says(lines.hello(10, 60_000, OptionalInt.empty()))
                .says(lines.reading(60_010, 600))
                .silentFor(179_900)
                .then(() -> assertThat(heard.last().state()).isEqualTo(State.RECEIVING))
                .silentFor(100)
                .then(() -> assertThat(heard.last().state()).isEqualTo(State.SILENT));
        run(false);
    }

    @Test
    void aPortFromWhichNothingComesAtAllIsSilent() {
        port.silentFor(3_000).then(() -> assertThat(heard.last().state()).isEqualTo(State.SILENT));
        run(false);
    }

    @Test
    void aPeerThatVanishedWithoutAWordIsGivenUpAndCalledAgain() {
        port.goneAfterSilence = OptionalLong.of(30_000);
        port.says(lines.hello(10))
                .says(lines.reading(1_010, 600))
                .silentFor(30_000)
                .says(lines.reading(40_010, 620));
        run(false);

        assertThat(heard.states()).containsSubsequence(State.RECEIVING, State.SILENT, State.LOST, State.RECEIVING);
        assertThat(port.openedAtMs).hasSize(2);
    }

    @Test
    void aControllerThatPrintsEachFewMinutesAndNeverSaysSoIsNotHungUpOn() {
        port.goneAfterSilence = OptionalLong.of(30_000);
        for (int i = 0; i < 6; i++) {
            port.says(lines.reading(1_010 + i * 300_000, 600 + i)).silentFor(300_000);
        }
        run(false);

        assertThat(heard.states()).doesNotContain(State.LOST);
        assertThat(port.openedAtMs).hasSize(1);
        assertThat(heard.arrivals).hasSizeGreaterThanOrEqualTo(5);
    }

    @Test
    void afterItsFirstLineItIsSaidThatNobodyKnowsYetHowOftenLinesCome() {
        port.says(lines.reading(1_010, 600))
                .silentFor(20_000)
                .says(lines.reading(21_010, 600))
                .silentFor(70_000);
        run(false);

        assertThat(heard.details(State.SILENT))
                .satisfiesExactly(
                        first -> assertThat(first).contains("not known", "eleven"),
                        then -> assertThat(then).contains("check the controller"));
    }

    @Test
    void aPeerThatSendsWhatCannotBeReadIsThereAllTheSame() {
        port.goneAfterSilence = OptionalLong.of(30_000);
        for (int i = 0; i < 12; i++) {
            port.silentFor(10_000).says("kiln is at 20.4 C\n");
        }
        run(false);

        assertThat(heard.states()).doesNotContain(State.LOST);
        assertThat(port.openedAtMs).hasSize(1);
    }

    @Test
    void aSilentPeerIsSpokenToSoThatOneThatIsGoneShows() {
        port.says(lines.hello(10))
                .says(lines.reading(1_010, 600))
                .then(() -> port.refusesWrites = true)
                .silentFor(3_100);
        run(false);

        assertThat(heard.detailIn(State.LOST)).contains("The connection broke.");
    }

    @Test
    void itAsksForWhatWasKeptAndWhatComesIsMarkedAsFilledIn() {
        LinkSurroundings around = new LinkSurroundings(clock, clock, ProfileLibrary.starters(), false);
        LinkReader link = new LinkReader("serial:/dev/ttyTEST", port, around, ProtocolLines.saying(around.words()));
        port.afterTheLastStep = link::close;
        port.says(lines.hello(10))
                .then(() -> link.askForKept(7_259_999))
                .silentFor(100)
                .says(new KeptLine(
                        77,
                        9_000_000,
                        120,
                        1,
                        java.util.List.of(new ChannelCodes(
                                1, OptionalInt.of(600 * 128), OptionalInt.empty(), ChannelCodes.NO_FAULT)),
                        OptionalInt.empty(),
                        OptionalInt.empty(),
                        OptionalInt.empty()));
        link.run(heard);

        assertThat(port.written).contains("?K 120\n");
        assertThat(heard.arrivals.get(0).origin()).isEqualTo(Origin.FILLED_IN);
        assertThat(heard.arrivals.get(0).uptimeMs()).isEqualTo(OptionalLong.of(7_200_000));
    }

    @Test
    void badLinesAreCountedAndShownWithinASecond() {
        byte[] turned = org.kilnside.protocol.LineEncoder.encode(lines.reading(2_010, 600));
        turned[6] ^= 1;
        port.says(lines.hello(10))
                .says(lines.reading(1_010, 600))
                .says(turned)
                .says("half a li\n")
                .silentFor(1_000);
        run(false);

        assertThat(heard.last().counts().badChecksum()).isEqualTo(1);
        assertThat(heard.last().counts().malformed()).isEqualTo(1);
        assertThat(heard.last().counts().lines()).isEqualTo(2);
    }
}
